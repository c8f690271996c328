// Where the laser stands, and what the rod reads along the shell.
import type { StakeoutFigures } from '../core/types.ts';
import { plain } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { step, sheet } from '../state/store.ts';
import { record, stake } from './figures.ts';
import { Rod, Table } from './StakeTables.tsx';

function openGround(): void {
  sheet.value = null;
  step.value = 'ground';
}

export function LevelPart({ now }: { now: StakeoutFigures }) {
  const level = now.level;
  return (
    <section class="stakes-part" aria-labelledby="stakes-level">
      <h3 id="stakes-level">The laser</h3>
      <div class="pairs">
        <Figure
          label="Rod on the benchmark reads"
          measure="length"
          value={record.value?.backsight}
          commit={(reading) => stake({ 'set-up': reading })}
          clear={() => stake({ 'set-up': null })}
          hint="Of the present set-up. Read it again after the laser was moved or bumped."
        />
      </div>
      {level ? (
        <p>
          On {level.mark}, {level.elevation.shown.text}: height of instrument <b>{level.instrument.shown.text}</b>. On the rim as
          planned the rod reads <b>{level.rim.text}</b>
          {!level.rim.shows && ', which it cannot show from here'}.
        </p>
      ) : (
        record.value?.backsight !== undefined && (
          <p>
            The reading needs a benchmark with its elevation.{' '}
            <button type="button" onClick={openGround}>
              Enter the benchmark
            </button>
          </p>
        )
      )}
    </section>
  );
}

export function StationTable({ now }: { now: StakeoutFigures }) {
  return (
    <div class="part-body">
      <p class="field-hint">
        Along: from the shallow end of the floor. Depth: floor below the top of the coping. Base: its finished top, on which the shell
        rests. Dig: the underside of the base.
      </p>
      <Table heads={['Station', 'Along', 'Depth', 'Base at', 'Dig at', 'Rod on base', 'Rod on dig']}>
        {now.stations.map((it) => (
          <tr key={it.name} data-station={it.name}>
            <th scope="row">
              <b>{it.name}</b> <small>{plain(it.kind).toLowerCase()}</small>
            </th>
            <td>{it.along.shown.text}</td>
            <td>{it.depth.shown.text}</td>
            <td>{it.base.shown.text}</td>
            <td>{it.bottom.shown.text}</td>
            <Rod rod={it.rod_base} />
            <Rod rod={it.rod_bottom} />
          </tr>
        ))}
      </Table>
    </div>
  );
}
