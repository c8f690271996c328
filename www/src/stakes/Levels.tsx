// Where the laser stands, and what the rod reads along the shell.
import type { StakeoutFigures } from '../core/types.ts';
import { plain } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { step, sheet } from '../state/store.ts';
import { english, heard, phrase, woven } from '../words/words.ts';
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
      <h3 id="stakes-level">{phrase('The laser')}</h3>
      <div class="pairs">
        <Figure
          label={phrase('Rod on the benchmark reads')}
          measure="length"
          value={record.value?.backsight}
          commit={(reading) => stake({ 'set-up': reading })}
          clear={() => stake({ 'set-up': null })}
          hint={phrase('Of the present set-up. Read it again after the laser was moved or bumped.')}
        />
      </div>
      {level ? (
        <p>
          {woven('On {mark}, {elevation}: height of instrument {instrument}.', {
            mark: heard(level.mark),
            elevation: level.elevation.shown.text,
            instrument: <b>{level.instrument.shown.text}</b>,
          })}{' '}
          {woven(
            level.rim.shows
              ? english('On the rim as planned the rod reads {reading}.')
              : english('On the rim as planned the rod reads {reading}, which it cannot show from here.'),
            { reading: <b>{level.rim.text}</b> },
          )}
        </p>
      ) : (
        record.value?.backsight !== undefined && (
          <p>
            {phrase('The reading needs a benchmark with its elevation.')}{' '}
            <button type="button" onClick={openGround}>
              {phrase('Enter the benchmark')}
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
        {phrase('Along: from the shallow end of the floor. Depth: floor below the top of the coping. Base: its finished top, on which the shell rests. Dig: the underside of the base.')}
      </p>
      <Table heads={[phrase('Station'), phrase('Along'), phrase('Depth'), phrase('Base at'), phrase('Dig at'), phrase('Rod on base'), phrase('Rod on dig')]}>
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
