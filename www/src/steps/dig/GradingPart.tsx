// The ground round the deck: banks, retained height, the coping's height, and what another coping would do. The
// answers are worked out when somebody asks, and taken away as soon as the plan they were for has changed.
import { useEffect, useState } from 'preact/hooks';
import { askDesk } from '../../door/estimate.ts';
import type { BalanceFigures, NudgeFigures } from '../../door/tally.ts';
import type { Works } from '../../door/works.ts';
import { Figure } from '../../fields/fields.tsx';
import { edit, editOrTell } from '../../state/actions.ts';
import { followPlan } from '../../state/estimate.ts';
import { announce, ledger } from '../../state/store.ts';
import { Line, Part } from './shared.tsx';

type Asked =
  | { what: 'balance'; figures: BalanceFigures | null }
  | { what: 'nudge'; figures: NudgeFigures | null };

export function GradingPart({ works }: { works: Works }) {
  const now = ledger.value;
  const shell = now?.shell ?? null;
  const [asked, setAsked] = useState<Asked | null>(null);
  useEffect(() => setAsked(null), [now?.revision]);

  function balance(): void {
    followPlan();
    const figures = askDesk((desk) => desk.balance() ?? null, null);
    setAsked({ what: 'balance', figures });
    announce.value = figures
      ? figures.ways.map((way) => `${way.label}: even at ${way.shown?.text ?? 'no coping in range'}`).join('. ')
      : NOT_YET;
  }
  function nudge(): void {
    followPlan();
    const figures = askDesk((desk) => desk.nudge() ?? null, null);
    setAsked({ what: 'nudge', figures });
    announce.value = figures?.rows.length ? `What ${figures.by.text} changes is listed` : NOT_YET;
  }

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
        label="Slope of the banks (run to rise)"
        hint="0 for a wall: no bank is drawn, and its height is told."
      />
      <Line
        works={works}
        part="grading"
        member="retained_limit"
        measure="length"
        label="Call it retained above"
        hint="The local authority has its own height from which a wall needs a permit."
      />
      {shell ? (
        <div class="buttons">
          <button type="button" onClick={balance}>
            Find the coping that balances
          </button>
          <button type="button" onClick={nudge}>
            What an inch changes
          </button>
        </div>
      ) : (
        <p class="field-hint">Place a shell to see where cut and fill are even.</p>
      )}
      {asked && !asked.figures && <p class="field-hint">{NOT_YET}</p>}
      {asked?.what === 'balance' && asked.figures && <Balance figures={asked.figures} />}
      {asked?.what === 'nudge' && asked.figures && <Nudge figures={asked.figures} />}
    </Part>
  );
}

const NOT_YET = 'The quantities are not there yet. Try again in a moment.';

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
                Even at <strong>{way.shown.text}</strong>, {way.step}.
              </>
            ) : (
              'Nowhere even within reach.'
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
        Volumes as they lie in the bank. Even earth is no reason to send water towards a house or a neighbour.
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
