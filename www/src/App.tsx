// The whole page: the plan in the middle, the ledger beside it, the job's steps along the edge.
import { useEffect, useRef } from 'preact/hooks';
import { phrase } from './words/words.ts';
import { Band } from './band/Band.tsx';
import { PinSheet } from './band/PinSheet.tsx';
import { FindSheet } from './find/FindSheet.tsx';
import { DropPlace } from './job/DropPlace.tsx';
import { FindingsPanel } from './job/FindingsPanel.tsx';
import { KeysSheet } from './job/KeysSheet.tsx';
import { later } from './job/Later.tsx';
import { LaterSheet } from './job/LaterSheet.tsx';
import { NoticeBar } from './job/NoticeBar.tsx';
import { ReportSheet } from './job/ReportSheet.tsx';
import { sheetsOpen } from './job/Sheet.tsx';
import { StoppedSheet } from './job/StoppedSheet.tsx';
import { TopBar } from './job/TopBar.tsx';
import { Welcome } from './job/Welcome.tsx';
import { JobsSheet } from './jobs/JobsSheet.tsx';
import { VersionsSheet } from './jobs/VersionsSheet.tsx';
import { Ledger } from './ledger/Ledger.tsx';
import { PlanCanvas } from './plan/PlanCanvas.tsx';
import { askedHeight } from './plan/heights.ts';
import { pageKey } from './plan/keys.ts';
import { taping } from './plan/tapes.ts';
import { ledgerWidth, panelWidth } from './state/arrangement.ts';
import { drawing, offlineReady, shaping, sheet, step, stopped } from './state/store.ts';
import { StepPanel } from './steps/StepPanel.tsx';
import { Strip } from './steps/Strip.tsx';

// Sheets for which nobody waits when the page opens.
const book = later(async () => (await import('./book/BookSheet.tsx')).BookSheet);
const bringIn = later(async () => (await import('./bring/BringSheet.tsx')).BringSheet);
const compare = later(async () => (await import('./takeoff/CompareSheet.tsx')).CompareSheet);
const paper = later(async () => (await import('./paper/Sheets.tsx')).Sheets);
const shown = later(async () => (await import('./shown/ShownSheet.tsx')).ShownSheet);
const stakes = later(async () => (await import('./stakes/StakesSheet.tsx')).StakesSheet);
const round = later(async () => (await import('./space/SpaceSheet.tsx')).SpaceSheet);
const sources = later(async () => (await import('./about/SourcesSheet.tsx')).SourcesSheet);
const photographs = later(async () => (await import('./photos/PhotosSheet.tsx')).PhotosSheet);
const takeoff = later(async () => (await import('./takeoff/TakeoffSheet.tsx')).TakeoffSheet);
const writeOut = later(async () => (await import('./bring/WriteSheet.tsx')).WriteSheet);

export function App() {
  useEffect(() => {
    window.addEventListener('keydown', pageKey);
    return () => window.removeEventListener('keydown', pageKey);
  }, []);
  const page = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const widths = page.current?.style;
    widths?.setProperty('--panel-width', `${panelWidth.value}px`);
    widths?.setProperty('--ledger-width', `${ledgerWidth.value}px`);
  }, [panelWidth.value, ledgerWidth.value]);
  return (
    <>
      <div ref={page} class="page" data-panel={step.value !== null} data-drawing={overPlan()}>
        <TopBar />
        <Band />
        <Strip />
        <StepPanel />
        <main class="middle">
          <PlanCanvas />
        </main>
        <Ledger />
        <Foot />
      </div>
      {sheet.value === 'welcome' && <Welcome />}
      {sheet.value === 'jobs' && <JobsSheet />}
      {sheet.value === 'book' && <LaterSheet label={phrase('The company’s book')} of={book} />}
      {sheet.value === 'versions' && <VersionsSheet />}
      {sheet.value === 'report' && <ReportSheet />}
      {sheet.value === 'stakes' && <LaterSheet label={phrase('Stakes and levels')} of={stakes} />}
      {sheet.value === 'paper' && <LaterSheet label={phrase('Sheets to print')} of={paper} />}
      {(sheet.value === 'shown' || sheet.value === 'send') && <LaterSheet label={phrase('Homeowner’s view')} of={shown} />}
      {sheet.value === 'takeoff' && <LaterSheet label={phrase('Takeoff and cost')} of={takeoff} />}
      {sheet.value === 'compare' && <LaterSheet label={phrase('Compare')} of={compare} />}
      {sheet.value === 'round' && <LaterSheet label={phrase('In the round')} of={round} />}
      {sheet.value === 'sources' && <LaterSheet label={phrase('Sources and licenses')} of={sources} />}
      {sheet.value === 'photographs' && <LaterSheet label={phrase('Photographs')} of={photographs} />}
      {sheet.value === 'find' && <FindSheet />}
      {sheet.value === 'figures' && <PinSheet />}
      {sheet.value === 'keys' && <KeysSheet />}
      {sheet.value === 'bring-in' && <LaterSheet label={phrase('Bring in')} of={bringIn} />}
      {sheet.value === 'write-out' && <LaterSheet label={phrase('Write out')} of={writeOut} />}
      {stopped.value && <StoppedSheet />}
      <FindingsPanel />
      {sheetsOpen.value === 0 && <NoticeBar />}
      <DropPlace />
    </>
  );
}

/** What has the plan: a drawing, a point whose elevation is asked for, a shape being changed, or a tape. */
function overPlan(): string | undefined {
  if (drawing.value || askedHeight.value) return 'drawing';
  return shaping.value || taping.value ? 'shaping' : undefined;
}

function Foot() {
  return (
    <footer class="foot">
      <p>
        {phrase('A planning aid, not a survey. Call the utility-locating service before digging; check with the local authority and with licensed practice.')}
      </p>
      {offlineReady.value && <p class="foot-offline">{phrase('Works without a connection')}</p>}
    </footer>
  );
}
