// The ground round the deck: banks, retained height, the coping's height, and what another coping would do. The
// answers are worked out when somebody asks, and taken away as soon as the plan they were for has changed.
import { useEffect, useState } from 'preact/hooks';
import type { BalanceFigures, NudgeFigures, ConstructionSettings } from '../../core/types.ts';
import { Figure } from '../../fields/fields.tsx';
import { edit, editOrTell } from '../../state/actions.ts';
import { useStudy, type Standing } from '../../state/useStudy.ts';
import { announce, ledger } from '../../state/store.ts';
import { Line, Part } from './shared.tsx';

/** What was asked of the worker. */
type Asked = 'balance' | 'coping-step';

export function GradingPart({ works }: { works: ConstructionSettings }) {
  const now = ledger.value;
  const shell = now?.shell ?? null;
  const [asked, setAsked] = useState<Asked | null>(null);
  useEffect(() => setAsked(null), [now?.revision]);
  const { standing, again } = useStudy(asked);
  const found = asked !== null && standing.how === 'found' ? standing.found : null;
  const balance = found?.kind === 'balance' ? found.value : null;
  const inch = found?.kind === 'coping-step' ? found.value : null;
  useEffect(() => {
    if (balance) {
      announce.value = balance.ways
        .map((way) => `${way.label}: even at ${way.shown?.text ?? 'no coping in range'}`)
        .join('. ');
    }
    if (inch) announce.value = `What ${inch.by.text} changes is listed`;
  }, [found]);

  return (
    <Part title="Grading">
      {shell && (
        <Figure
          label="Coping elevation"
          measure="elevation"
          value={shell.coping_value}
          commit={(elevation) => edit({ 'set-coping': { elevation } })}
          hint="Set it by floor, doors and drainage first."
        />
      )}
      <Line
        works={works}
        part="grading"
        member="bank_slope"
        measure="slope"
        label="Bank slope (run to rise)"
        hint="0 for a wall: no slope is drawn; the wall's height is reported."
      />
      <Line
        works={works}
        part="grading"
        member="retained_limit"
        measure="length"
        label="Report as retaining wall above"
        hint="The local authority has its own height from which a wall needs a permit."
      />
      {shell ? (
        <div class="buttons">
          <button type="button" onClick={() => setAsked('balance')}>
            Find the coping that balances
          </button>
          <button type="button" onClick={() => setAsked('coping-step')}>
            What an inch changes
          </button>
        </div>
      ) : (
        <p class="field-hint">Place a shell to see where cut and fill balance.</p>
      )}
      {asked && <Waits standing={standing} again={again} />}
      {balance && <Balance figures={balance} />}
      {inch && <Nudge figures={inch} />}
    </Part>
  );
}

/** While the worker is at it, and when it stopped. */
function Waits({ standing, again }: { standing: Standing; again: () => void }) {
  if (standing.how === 'found') return null;
  if (standing.how === 'finding') {
    const share = Math.round(standing.share * 100);
    return (
      <p class="field-hint" role="status">
        Calculating{share > 0 ? `: ${share} %` : ' …'}
      </p>
    );
  }
  return (
    <p class="caution" role="alert">
      This could not be calculated: that part of the planner stopped. Nothing is lost.{' '}
      <button type="button" onClick={again}>
        Try again
      </button>
    </p>
  );
}

/** Where earth is even, with a way to go there. */
function Balance({ figures }: { figures: BalanceFigures }) {
  return (
    <div class="answer" data-answer="balance">
      {figures.ways.map((way) => (
        <div key={way.key} class="answer-way">
          <p>
            <strong>{way.label}.</strong> At {figures.present.text}: {way.left}.{' '}
            {way.shown ? (
              <>
                Balances at <strong>{way.shown.text}</strong>, {way.step}.
              </>
            ) : (
              'No balance point within range.'
            )}
          </p>
          {way.shown && way.coping !== null && (
            <button
              type="button"
              onClick={() =>
                editOrTell({ 'set-coping': { elevation: way.coping ?? 0 } }, 'The coping elevation was not changed.')
              }
            >
              Set the coping to {way.shown.text}
            </button>
          )}
        </div>
      ))}
      {figures.findings.map((finding) => (
        <p key={finding.message} class="field-hint">
          {finding.message} {finding.remedy}
        </p>
      ))}
      <p class="field-hint">
        Bank volumes. Never drain toward a house or a neighbor to balance earthwork.
      </p>
    </div>
  );
}

/** What changes with the coping a little higher or lower. */
function Nudge({ figures }: { figures: NudgeFigures }) {
  return (
    <div class="answer table-scroll" data-answer="nudge" tabIndex={0} role="region" aria-label="What an inch changes">
      <table>
        <thead>
          <tr>
            <th scope="col">Coping</th>
            <th scope="col">{figures.by.text} lower</th>
            <th scope="col">as it is</th>
            <th scope="col">{figures.by.text} higher</th>
          </tr>
        </thead>
        <tbody>
          {figures.rows.map((row) => (
            <tr key={row.key + row.label} data-key={row.key}>
              <th scope="row">{row.label}</th>
              <td>{row.down.text}</td>
              <td>{row.present.text}</td>
              <td>{row.up.text}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
