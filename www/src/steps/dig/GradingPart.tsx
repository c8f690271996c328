// The ground round the deck: banks, retained height, the coping's height, and what another coping would do. The
// answers are worked out when somebody asks, and taken away as soon as the plan they were for has changed.
import { useEffect, useState } from 'preact/hooks';
import type { BalanceFigures, NudgeFigures, ConstructionSettings } from '../../core/types.ts';
import { Figure } from '../../fields/fields.tsx';
import { edit, editOrTell } from '../../state/actions.ts';
import { useStudy, type Standing } from '../../state/useStudy.ts';
import { announce, ledger } from '../../state/store.ts';
import { heard, phrase, woven } from '../../words/words.ts';
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
        .map((way) => way.shown
            ? phrase('{way}: even at {elevation}', { way: heard(way.label), elevation: way.shown.text })
            : phrase('{way}: even at no coping in range', { way: heard(way.label) }))
        .join('. ');
    }
    if (inch) announce.value = phrase('What {by} changes is listed', { by: inch.by.text });
  }, [found]);

  return (
    <Part title={phrase('Grading')}>
      {shell && (
        <Figure
          label={phrase('Coping elevation')}
          measure="elevation"
          value={shell.coping_value}
          commit={(elevation) => edit({ 'set-coping': { elevation } })}
          hint={phrase('Set it by floor, doors and drainage first.')}
        />
      )}
      <Line
        works={works}
        part="grading"
        member="bank_slope"
        measure="slope"
        label={phrase('Bank slope (run to rise)')}
        hint={phrase("0 for a wall: no slope is drawn; the wall's height is reported.")}
      />
      <Line
        works={works}
        part="grading"
        member="retained_limit"
        measure="length"
        label={phrase('Report as retaining wall above')}
        hint={phrase('The local authority has its own height from which a wall needs a permit.')}
      />
      {shell ? (
        <div class="buttons">
          <button type="button" onClick={() => setAsked('balance')}>
            {phrase('Find the coping that balances')}
          </button>
          <button type="button" onClick={() => setAsked('coping-step')}>
            {phrase('What an inch changes')}
          </button>
        </div>
      ) : (
        <p class="field-hint">{phrase('Place a shell to see where cut and fill balance.')}</p>
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
        {share > 0 ? phrase('Calculating: {share} %', { share }) : phrase('Calculating …')}
      </p>
    );
  }
  return (
    <p class="caution" role="alert">
      {phrase('This could not be calculated: that part of the planner stopped. Nothing is lost.')}{' '}
      <button type="button" onClick={again}>
        {phrase('Try again')}
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
            <strong>{heard(way.label)}.</strong> {phrase('At {elevation}: {left}.', { elevation: figures.present.text, left: heard(way.left) })}{' '}
            {way.shown ? (
              woven('Balances at {elevation}, {step}.', { elevation: <strong>{way.shown.text}</strong>, step: heard(way.step ?? '') })
            ) : (
              phrase('No balance point within range.')
            )}
          </p>
          {way.shown && way.coping !== null && (
            <button
              type="button"
              onClick={() =>
                editOrTell({ 'set-coping': { elevation: way.coping ?? 0 } }, phrase('The coping elevation was not changed.'))
              }
            >
              {phrase('Set the coping to {elevation}', { elevation: way.shown.text })}
            </button>
          )}
        </div>
      ))}
      {figures.findings.map((finding) => (
        <p key={finding.message} class="field-hint">
          {heard(finding.message)} {heard(finding.remedy)}
        </p>
      ))}
      <p class="field-hint">
        {phrase('Bank volumes. Never drain toward a house or a neighbor to balance earthwork.')}
      </p>
    </div>
  );
}

/** What changes with the coping a little higher or lower. */
function Nudge({ figures }: { figures: NudgeFigures }) {
  return (
    <div class="answer table-scroll" data-answer="nudge" tabIndex={0} role="region" aria-label={phrase('What an inch changes')}>
      <table>
        <thead>
          <tr>
            <th scope="col">{phrase('Coping')}</th>
            <th scope="col">{phrase('{by} lower', { by: figures.by.text })}</th>
            <th scope="col">{phrase('as it is')}</th>
            <th scope="col">{phrase('{by} higher', { by: figures.by.text })}</th>
          </tr>
        </thead>
        <tbody>
          {figures.rows.map((row) => (
            <tr key={row.key + row.label} data-key={row.key}>
              <th scope="row">{heard(row.label)}</th>
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
