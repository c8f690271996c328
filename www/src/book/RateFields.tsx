// The prices of a price list, typed where they are kept: every line of the takeoff that can be paid by, and its unit.
import { ask } from '../core/planner.ts';
import type { PriceRow, RateList } from '../core/types.ts';
import { Field } from '../fields/Field.tsx';
import { Fold } from '../fields/Fold.tsx';
import { TextField } from '../fields/TextField.tsx';
import { readRate, withRate } from '../takeoff/rates.ts';
import { phrase } from '../words/words.ts';

interface Props {
  list: RateList;
  put: (list: RateList) => void;
}

export function RateFields({ list, put }: Props) {
  const rows = ask((p) => p.price_rows(list), []);
  const currency = list.currency ?? '$';
  const set = (key: string, rate: number | null) => put({ ...list, rates: withRate(list.rates ?? [], key, rate) });
  return (
    <Fold class="part" head={phrase('Its prices')}>
      {() => (
        <div class="part-body">
          <TextField
            label={phrase('Currency')}
            value={currency}
            commit={(typed) => {
              const { currency: _, ...rest } = list;
              put(typed === '' || typed === '$' ? rest : { ...rest, currency: typed });
            }}
          />
          <div class="pairs">
            {rows.map((row) => (
              <Price key={row.key} row={row} currency={currency} set={set} />
            ))}
          </div>
        </div>
      )}
    </Fold>
  );
}

function Price({ row, currency, set }: { row: PriceRow; currency: string; set: (key: string, rate: number | null) => void }) {
  const { key, label, amount, unit, known } = row;
  if (!known) {
    return (
      <div class="field">
        <span>
          {phrase('{label}: {amount} {currency} {unit}, of nothing in this job', { label, amount, currency, unit })}
        </span>
        <button type="button" onClick={() => set(key, null)}>
          {phrase('Remove the price of {label}', { label })}
        </button>
      </div>
    );
  }
  return (
    <Field
      label={`${label}, ${currency} ${unit}`}
      text={amount}
      read={(typed) => readRate(typed, key)}
      commit={(value) => void set(key, value)}
      clear={() => void set(key, null)}
    />
  );
}
