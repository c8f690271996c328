// Laying out and reading back: what tapes are held to, where the laser stands, every stake with its two tapes, the
// levels, and what was read in the yard.
import { ask } from '../core/planner.ts';
import { Fold } from '../fields/Fold.tsx';
import { download, fileName } from '../job/files.ts';
import { FindingList } from '../ledger/FindingList.tsx';
import { Sheet } from '../job/Sheet.tsx';
import { sheet } from '../state/store.ts';
import { FixedPoints } from './FixedPoints.tsx';
import { stakeout } from './figures.ts';
import { LevelPart, StationTable } from './Levels.tsx';
import { ReadBack } from './ReadBack.tsx';
import { DiagonalList, OffsetTable, StakeTable } from './StakeTables.tsx';
import { StakingSettings } from './StakingSettings.tsx';
import '../style/stakes.css';
import { count, phrase } from '../words/words.ts';

const close = (): void => void (sheet.value = null);

function saveList(): void {
  const text = ask((p) => p.stakes_list(), undefined);
  if (text !== undefined) download(text, `${fileName()}-stakes.csv`, 'text/csv');
}

export function StakesSheet() {
  const now = stakeout.value;
  return (
    <Sheet label={phrase('Stakes and levels')} class="stakes" close={close}>
      <header class="jobs-head">
        <h2>{phrase('Stakes and levels')}</h2>
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </header>
      {!now && <p class="nothing-yet">{phrase('There is nothing to stake yet: place a shell first.')}</p>}
      {now && (
        <>
          <p>
            {phrase('Hold one tape to each fixed point; where both read what the table says, the stake stands. Check the diagonals before anyone digs.')}
          </p>
          <FindingList list={now.findings} />
          <FixedPoints now={now} />
          <LevelPart now={now} />
          <Fold class="part" head={phrase('Stakes ({number})', { number: now.stakes.length })} start>
            {() => <StakeTable now={now} />}
          </Fold>
          <Fold class="part" head={phrase('Offset stakes, clear of the dig ({number})', { number: now.offsets.length })}>
            {() => <OffsetTable now={now} />}
          </Fold>
          <Fold class="part" head={phrase('Check diagonals')}>{() => <DiagonalList now={now} />}</Fold>
          <Fold class="part" head={count(now.stations.length, 'Depths along the shell ({n} station)', 'Depths along the shell ({n} stations)')}>
            {() => <StationTable now={now} />}
          </Fold>
          <ReadBack now={now} />
          <StakingSettings />
          <div class="buttons">
            <button type="button" onClick={saveList}>
              {phrase('Save the stakes as a list')}
            </button>
          </div>
          <p class="foot-words">
            {phrase('A planning aid, not a survey. Have the utility-locating service mark the lines first. Nobody stands in an unprotected cut to hold a tape: offset stakes stay clear of the edge.')}
          </p>
        </>
      )}
    </Sheet>
  );
}
