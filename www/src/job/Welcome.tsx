// The first sheet: invented sites to try, a file of one's own, or an empty lot.
import { useEffect, useRef, useState } from 'preact/hooks';
import { FileInput } from '../fields/FileInput.tsx';
import { aside } from '../core/planner.ts';
import { beginGuide } from '../guide/Guide.tsx';
import { jobs } from '../jobs/list.ts';
import { shownCards, shownName, STATUS_WORDS, when } from '../jobs/model.ts';
import { openKept } from '../jobs/open.ts';
import { SmallPlan } from '../jobs/SmallPlan.tsx';
import { fitted } from '../plan/view.ts';
import { openText, say, startBlank } from '../state/actions.ts';
import { ledger, sheet } from '../state/store.ts';
import { theme } from '../state/theme.ts';
import { phrase } from '../words/words.ts';
import { DescribeLot } from './DescribeLot.tsx';
import { loadDemoSites, type DemoSite } from './demo.ts';
import { openPicked } from './files.ts';
import { Sheet } from './Sheet.tsx';

export function Welcome() {
  const [sites, setSites] = useState<DemoSite[] | null>(null);
  const picker = useRef<HTMLInputElement>(null);
  useEffect(() => {
    loadDemoSites().then(setSites, () => {
      setSites([]);
      say(phrase('The demo sites could not be loaded. Everything else works.'), 'bad');
    });
  }, []);
  const working = ledger.value?.undo !== null || ledger.value?.shell !== null;
  return (
    <Sheet label={phrase('Start a job')} class="welcome" close={() => (sheet.value = null)}>
      <h2>{phrase('Where can the shell go on this lot?')}</h2>
      <p class="lead">
        {phrase('Drag a pool shell over the plan and read off what is left to every line, wall and tank, how deep to dig, and what to buy. Everything stays on this device.')}
      </p>
      {jobs.value.length === 0 && (
        <div class="buttons">
          <button type="button" class="main" onClick={beginGuide}>
            {phrase('Show me on a first site')}
          </button>
        </div>
      )}
      <LatestJobs />
      <h3>{phrase('Try an invented site')}</h3>
      {jobs.value.length > 0 && <p>{phrase('A copy is opened; your own jobs stay as they are.')}</p>}
      <ul class="demos">
        {(sites ?? []).map((site) => (
          <li key={site.file}>
            <button type="button" class="demo" data-file={site.file} onClick={() => openText(site.text, site.name, 'copy')}>
              <Picture text={site.text} />
              <strong>{site.name}</strong>
              <span>{site.note}</span>
            </button>
          </li>
        ))}
      </ul>
      <h3>{phrase('Or your own lot')}</h3>
      <DescribeLot />
      <h3>{phrase('Or a file')}</h3>
      <div class="buttons">
        <button type="button" class="main" onClick={() => picker.current?.click()}>
          {phrase('Open a file')}
        </button>
        <button type="button" onClick={startBlank}>
          {phrase('Start with an empty 100 by 140 ft lot')}
        </button>
        <button type="button" onClick={() => (sheet.value = null)}>
          {working ? phrase('Back to the open job') : phrase('Close')}
        </button>
      </div>
      {/* Last, so that the sheet does not begin with the focus on what nobody sees. */}
      <FileInput picker={picker} take={openPicked} />
      <p class="field-hint">{phrase('The empty lot comes with example rules: put in those of the local authority.')}</p>
      <p class="foot-words">
        {phrase('A planning aid, not a survey and not a permit. Call the utility-locating service before digging. Check every rule with the local authority, and every hazard with licensed practice.')}
      </p>
    </Sheet>
  );
}

/** So many of the latest jobs stand on the first sheet. */
const LATEST = 3;

function LatestJobs() {
  const latest = shownCards(jobs.value, { words: '', archived: false }).slice(0, LATEST);
  if (jobs.value.length === 0) return null;
  return (
    <>
      <h3>{phrase('Your jobs')}</h3>
      <ul class="latest-jobs">
        {latest.map((card) => (
          <li key={card.id}>
            <button type="button" class="latest-job" data-job={card.id} onClick={() => void openKept(card.id)}>
              <SmallPlan src={card.small} />
              <span>
                <strong>{shownName(card.name) || phrase('Job without a name')}</strong>
                <span>
                  {card.place ? `${card.place}. ` : ''}
                  {phrase(STATUS_WORDS[card.status])}. {when(card.changed, Date.now())}
                </span>
              </span>
            </button>
          </li>
        ))}
      </ul>
      <div class="buttons">
        <button type="button" onClick={() => (sheet.value = 'jobs')}>
          {phrase('All jobs ({number})', { number: jobs.value.length })}
        </button>
      </div>
    </>
  );
}

/** A picture is painted as if on a canvas so many times larger, so that its lettering is small too. */
const SHRUNK = 2.2;

/** The site painted small, by a planner of its own. */
function Picture({ text }: { text: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    // Each in a task of its own: the page answers between two of them.
    const soon = setTimeout(() => canvas.current && paintSmall(canvas.current, text), 0);
    return () => clearTimeout(soon);
  }, [text, theme.value]);
  return <canvas ref={canvas} class="demo-picture" aria-hidden="true" />;
}

function paintSmall(canvas: HTMLCanvasElement, text: string): void {
  const context = canvas.getContext('2d', { alpha: false });
  if (!context) return;
  const ratio = window.devicePixelRatio || 1;
  canvas.width = Math.round(canvas.clientWidth * ratio);
  canvas.height = Math.round(canvas.clientHeight * ratio);
  const [width, height] = [canvas.clientWidth * SHRUNK, canvas.clientHeight * SHRUNK];
  aside((p) => {
    if (!p.open(text).ok) return;
    const view = fitted({ x: 0, y: 0, scale: 1, width, height }, p.extent());
    p.paint(context, { ...view, ratio: ratio / SHRUNK }, 'none');
  }, undefined);
}
