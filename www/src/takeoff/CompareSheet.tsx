// Placements side by side: the present shell and place beside those that were kept, with what decides between them.
import { ask } from '../core/planner.ts';
import type { Alternative, ComparisonFigures as Comparison } from '../core/types.ts';
import { TextField } from '../fields/TextField.tsx';
import { Sheet } from '../job/Sheet.tsx';
import { editOrTell } from '../state/actions.ts';
import { useStudy } from '../state/useStudy.ts';
import { ledger, sheet, site } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';

/** A name that none of those kept has. */
export function freshName(kept: { name: string }[]): string {
  const taken = new Set(kept.map((it) => it.name));
  for (let number = 1; ; number += 1) {
    const name = phrase('Placement {number}', { number });
    if (!taken.has(name)) return name;
  }
}

const put = (kept: Alternative[], failed: string) => editOrTell({ 'set-alternatives': kept }, failed);

function keepPresent(kept: Alternative[]): void {
  const placement = ask((p) => p.settings().placement, undefined);
  if (placement) put([...kept, { name: freshName(kept), placement }], phrase('The place was not kept.'));
}

/** Takes a kept place, and keeps the present one in its stead. */
function use(kept: Alternative[], index: number): void {
  const chosen = kept[index];
  const present = ask((p) => p.settings().placement, undefined);
  if (!chosen) return;
  const rest = kept.filter((_, i) => i !== index);
  const left = present ? [...rest, { name: freshName(rest), placement: present }] : rest;
  editOrTell(
    {
      together: {
        label: phrase('use {name}', { name: chosen.name }),
        commands: [{ 'set-placement': chosen.placement }, { 'set-alternatives': left }],
      },
    },
    phrase('The place was not changed.'),
  );
}

export function CompareSheet() {
  const revision = ledger.value?.revision;
  const kept = site.value?.alternatives ?? [];
  const { standing, again } = useStudy('comparison');
  const comparison = standing.how === 'found' && standing.found.kind === 'comparison' ? standing.found.value : undefined;
  const close = () => (sheet.value = null);
  return (
    <Sheet label={phrase('Placements side by side')} class="compare" close={close}>
      <h2>{phrase('Placements side by side')}</h2>
      <p>
        {phrase('Keep the shell as it stands, move or change it, and see here what that does. Each column is the whole site worked out anew.')}
      </p>
      {comparison ? (
        <Table key={revision} comparison={comparison} kept={kept} />
      ) : (
        <Waits stopped={standing.how === 'stopped'} again={again} />
      )}
      {kept.length === 0 && <p class="nothing-yet">{phrase('Nothing is kept yet to compare with.')}</p>}
      <div class="buttons">
        <button type="button" class="main" disabled={!ledger.value?.shell} onClick={() => keepPresent(kept)}>
          {phrase('Keep this placement')}
        </button>
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </div>
    </Sheet>
  );
}

/** Why there is no table yet. */
function Waits({ stopped, again }: { stopped: boolean; again: () => void }) {
  if (!stopped) return <p class="nothing-yet" role="status">{phrase('The places are being compared.')}</p>;
  return (
    <p class="caution" role="alert">
      {phrase('The places could not be compared: that part of the planner stopped. Nothing is lost.')}{' '}
      <button type="button" onClick={again}>
        {phrase('Try again')}
      </button>
    </p>
  );
}

function Table({ comparison: { columns, rows }, kept }: { comparison: Comparison; kept: Alternative[] }) {
  return (
    <div class="takeoff-scroll" tabIndex={0} role="group" aria-label={phrase('Every figure')}>
      <table class="takeoff-table compare-table">
        <thead>
          <tr>
            <th scope="col">{phrase('Figure')}</th>
            {columns.map((column, at) => (
              <th key={at} scope="col">
                {heard(column.name)}
                <small>{heard(column.shell)}</small>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <tr class="compare-deeds">
            <th scope="row">{phrase('What to do')}</th>
            {columns.map((column, at) => (
              <td key={at}>{at > 0 && <Deeds kept={kept} index={at - 1} faults={column.faults.map((it) => it.message)} />}</td>
            ))}
          </tr>
          {rows.map((row) => (
            <tr key={row.key}>
              <th scope="row">{heard(row.label)}</th>
              {row.values.map((value, at) => (
                <td key={at} class="figure">
                  {heard(value?.text ?? '–')}
                  {at > 0 && <small>{difference(row.differences[at]?.text)}</small>}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** The difference to the present place, where there is one worth saying. */
const difference = (text: string | undefined): string => (text && /[1-9]/.test(text) ? text : text ? phrase('the same') : '');

function Deeds({ kept, index, faults }: { kept: Alternative[]; index: number; faults: string[] }) {
  const it = kept[index];
  if (!it) return null;
  const rename = (name: string) =>
    put(
      kept.map((other, i) => (i === index ? { ...other, name } : other)),
      phrase('The name was not changed.'),
    );
  return (
    <div class="compare-deed">
      <TextField label={phrase('Name of {name}', { name: it.name })} quiet value={it.name} commit={rename} />
      {faults.map((fault) => (
        <p key={fault} class="caution" data-severity="fault">
          <strong>{phrase('Fault:')}</strong> {heard(fault)}
        </p>
      ))}
      <button type="button" disabled={faults.length > 0} onClick={() => use(kept, index)}>
        {phrase('Use this placement')}
      </button>
      <button
        type="button"
        onClick={() =>
          put(
            kept.filter((_, i) => i !== index),
            phrase('The place was not removed.'),
          )
        }
      >
        {phrase('Remove')}
      </button>
    </div>
  );
}
