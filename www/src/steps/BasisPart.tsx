// What the bearings count from, and where true north lies.
import { NORTHS } from '../core/lists.ts';
import type { Basis, LotRecord } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { edit } from '../state/actions.ts';
import { english, phrase, phrased, type English } from '../words/words.ts';

const NAMES: Record<Basis['north'], English> = {
  unspecified: english('Not entered'),
  true: english('True north'),
  grid: english('Grid north'),
  magnetic: english('Magnetic north'),
  assumed: english('Assumed north'),
  record: english('North of an earlier plat'),
};
const OPTIONS = NORTHS.map((value) => ({ value, text: NAMES[value] }));

export function BasisPart({ lot }: { lot: LotRecord }) {
  const basis: Basis = { north: 'unspecified', ...lot.basis };
  const put = (change: Partial<Basis>) => edit({ 'set-lot': { ...lot, basis: { ...basis, ...change } } });
  function forget() {
    const { true_north: _, ...rest } = basis;
    return edit({ 'set-lot': { ...lot, basis: rest } });
  }
  return (
    <details class="part">
      <summary>{phrase('North and basis of bearings')}</summary>
      <div class="part-body">
        <Choice label={phrase('Bearings count from')} value={basis.north} options={phrased(OPTIONS)} choose={(north) => put({ north })} />
        <TextField
          label={phrase('Basis, as the plat says it')}
          value={basis.words ?? ''}
          placeholder={phrase("the north line of Lot 4 bears N 89°12' E")}
          commit={(words) => put({ words })}
        />
        {basis.north !== 'true' && (
          <Figure
            label={phrase('True north lies at')}
            measure="bearing"
            value={basis.true_north}
            placeholder={phrase('not known')}
            hint={phrase('Its bearing in the bearings of this lot. The plan shows it as a second arrow.')}
            commit={(true_north) => put({ true_north })}
            clear={forget}
          />
        )}
      </div>
    </details>
  );
}
