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

const close = (): void => void (sheet.value = null);

function saveList(): void {
  const text = ask((p) => p.stakes_list(), undefined);
  if (text !== undefined) download(text, `${fileName()}-stakes.csv`, 'text/csv');
}

export function StakesSheet() {
  const now = stakeout.value;
  return (
    <Sheet label="Stakes and levels" class="stakes" close={close}>
      <header class="jobs-head">
        <h2>Stakes and levels</h2>
        <button type="button" onClick={close}>
          Close
        </button>
      </header>
      {!now && <p class="nothing-yet">There is nothing to stake yet: place a shell first.</p>}
      {now && (
        <>
          <p>
            Hold one tape to each fixed point; where both read what the table says, the stake stands. Check the diagonals
            before anyone digs.
          </p>
          <FindingList list={now.findings} />
          <FixedPoints now={now} />
          <LevelPart now={now} />
          <Fold class="part" head={`Stakes (${now.stakes.length})`} start>
            {() => <StakeTable now={now} />}
          </Fold>
          <Fold class="part" head={`Offset stakes, clear of the dig (${now.offsets.length})`}>
            {() => <OffsetTable now={now} />}
          </Fold>
          <Fold class="part" head="Check diagonals">{() => <DiagonalList now={now} />}</Fold>
          <Fold class="part" head={`Depths along the shell (${now.stations.length} stations)`}>
            {() => <StationTable now={now} />}
          </Fold>
          <ReadBack now={now} />
          <StakingSettings />
          <div class="buttons">
            <button type="button" onClick={saveList}>
              Save the stakes as a list
            </button>
          </div>
          <p class="foot-words">
            A planning aid, not a survey. Have the utility-locating service mark the lines first. Nobody stands in an
            unprotected cut to hold a tape: offset stakes stay clear of the edge.
          </p>
        </>
      )}
    </Sheet>
  );
}
