// The takeoff as the estimator reads it: every line with its low and high, in both systems of units, and what it
// costs by rates typed here. No rate is built in.
import { Fragment } from 'preact';
import { FromBook } from '../book/FromBook.tsx';
import { today } from '../book/pages.ts';
import { ask } from '../core/planner.ts';
import type { CostFigures, Finding, QuantityRow as Quantity } from '../core/types.ts';
import { Field } from '../fields/Field.tsx';
import { TextField } from '../fields/TextField.tsx';
import { told } from '../fields/fields.tsx';
import { download, fileName } from '../job/files.ts';
import { Sheet } from '../job/Sheet.tsx';
import { NoRanges } from '../ledger/Quantities.tsx';
import { Doubts } from '../ledger/Working.tsx';
import { edit, say } from '../state/actions.ts';
import { tally, written } from '../state/quantities.ts';
import { sheet, site } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';
import { readRate, withRate } from './rates.ts';
import { between } from './words.ts';

/** Sets what is paid for one unit of a line as it is typed now, or takes the rate out. */
const setRate = (key: string, rate: number | null): Finding[] => edit({ 'set-rates': withRate(site.value?.rates ?? [], key, rate) });

/** Sets what the rates are in; left empty, dollars. */
function setCurrency(typed: string): void {
  const refused = told(edit({ 'set-currency': typed === '' ? null : typed }));
  if (refused !== undefined) say(refused, 'bad');
}

function saveTable(): void {
  written('takeoff-list').then(
    (text) => text !== null && download(text, `${fileName()}-takeoff.csv`, 'text/csv'),
    () => say(phrase('The table could not be made. Try again in a moment.'), 'bad'),
  );
}

export function TakeoffSheet() {
  const now = tally.value;
  const cost = now && !now.without_ranges ? ask((p) => p.cost(), undefined) : undefined;
  const close = () => (sheet.value = null);
  return (
    <Sheet label={phrase('Takeoff and cost')} class="takeoff" close={close}>
      <h2>{phrase('Takeoff and cost')}</h2>
      <p>
        {phrase('Type what you pay for a unit of anything that is bought or paid. The rates shown are those of this site: typed here, or in the file that was opened (those of a demo are invented). Low and high come from the doubts set in the step Dig.')}
      </p>
      <TextField label={phrase('Currency of the rates')} value={ask((p) => p.rate_currency(), '$')} commit={setCurrency} class="currency" />
      <FromBook kinds={['rates']} />
      <OldRates />
      <NoRanges />
      {now && (
        <>
          <Table quantities={now.quantities} />
          {now.cost ? (
            <dl class="takeoff-total">
              <div>
                <dt>{phrase('Low')}</dt>
                <dd>{cost?.low.text}</dd>
              </div>
              <div class="takeoff-expected">
                <dt>{phrase('Priced subtotal')}</dt>
                <dd>{now.cost.total.text}</dd>
              </div>
              <div>
                <dt>{phrase('High')}</dt>
                <dd>{cost?.high.text}</dd>
              </div>
            </dl>
          ) : (
            <p class="nothing-yet">{phrase('No line has a rate yet, so there is no subtotal.')}</p>
          )}
        </>
      )}
      {cost && <WhyNotSure cost={cost} />}
      <p class="foot-words">
        {phrase('Calculated from what was entered. Order by what the site shows, and hold the last load open.')}
      </p>
      <div class="buttons">
        <button type="button" class="main" disabled={!now} onClick={saveTable}>
          {phrase('Save as CSV')}
        </button>
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </div>
    </Sheet>
  );
}

/** Price lists that this job took and that are older than a year now. */
function OldRates() {
  // Asked anew after every edit.
  const old = site.value ? ask((p) => p.old_price_lists(today()), []) : [];
  if (old.length === 0) return null;
  return (
    <p class="field-word" data-kind="doubt">
      {phrase('Older than a year: {old}. Ask for new prices.', { old: old.join('; ') })}
    </p>
  );
}

/** What low and high of the total come from. */
function WhyNotSure({ cost: { total, low, high, causes } }: { cost: CostFigures }) {
  if (causes.length === 0) return null;
  return (
    <details class="takeoff-why">
      <summary>{phrase('Where low and high come from')}</summary>
      <div class="working">
        <Doubts caption={phrase('Each cause by itself')} low={low.text} expected={total.text} high={high.text} causes={causes} />
      </div>
    </details>
  );
}

function Table({ quantities }: { quantities: Quantity[] }) {
  const sums = tally.value?.cost?.groups ?? [];
  const groups = tally.value?.groups ?? [];
  return (
    <div class="takeoff-scroll" tabIndex={0} role="group" aria-label={phrase('Every quantity')}>
      <table class="takeoff-table">
        <thead>
          <tr>
            <th scope="col">{phrase('Quantity')}</th>
            <th scope="col">{phrase('Expected')}</th>
            <th scope="col">{phrase('Low to high')}</th>
            <th scope="col">{phrase('In other units')}</th>
            <th scope="col">{phrase('Rate')}</th>
            <th scope="col">{phrase('Cost')}</th>
          </tr>
        </thead>
        <tbody>
          {groups.map(({ group, label }) => (
            <Fragment key={group}>
              <tr class="takeoff-group">
                <th scope="rowgroup" colSpan={5}>
                  {heard(label)}
                </th>
                <td>{sums.find(([it]) => it === group)?.[1].text}</td>
              </tr>
              {quantities
                .filter((it) => it.group === group)
                .map((it) => (
                  <Line key={it.key} quantity={it} />
                ))}
            </Fragment>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Line({ quantity }: { quantity: Quantity }) {
  const { key, label, shown, range, caveats, cost, not_counted } = quantity;
  const other = ask((p) => p.workings(key)?.other.text, undefined);
  return (
    <tr data-key={key}>
      <th scope="row">
        {heard(label)}
        {caveats.length > 0 && <span class="row-caveats">(?) {caveats.map(heard).join(', ')}</span>}
      </th>
      <td class="figure" data-head={phrase('Expected')}>
        {shown.text}
      </td>
      <td data-head={phrase('Low to high')}>{range ? between(range.low, range.high, range.open) : ''}</td>
      <td data-head={phrase('In other units')}>{other === shown.text ? '' : other}</td>
      <td class="takeoff-rate">
        <RateField quantity={quantity} />
        {not_counted && <span class="row-caveats">{heard(not_counted)}</span>}
      </td>
      <td class="figure" data-head={phrase('Cost')}>
        {cost?.text}
      </td>
    </tr>
  );
}

function RateField({ quantity: { key, label, pays_for, rate } }: { quantity: Quantity }) {
  if (pays_for === null) return null;
  const unit = ask((p) => p.rate_unit(key), '');
  const currency = ask((p) => p.rate_currency(), '$');
  const text = rate ? rate.text.slice(0, -rate.unit.length).trim() : '';
  return (
    <div class="rate">
      <Field
        label={phrase('Rate of {label}, {unit}, in {currency}', { label: heard(label).toLowerCase(), unit, currency })}
        text={text}
        read={(typed) => readRate(typed, key)}
        commit={(value) => told(setRate(key, value))}
        clear={() => told(setRate(key, null))}
      />
      <span class="rate-unit" aria-hidden="true">
        {currency} {heard(unit)}
      </span>
    </div>
  );
}
