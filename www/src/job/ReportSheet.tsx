// The report as text: to read, to print, to keep. The words and the figures are the core's.
import { say } from '../state/actions.ts';
import { written } from '../state/quantities.ts';
import { sheet } from '../state/store.ts';
import { useStudy } from '../state/useStudy.ts';
import { english, phrase } from '../words/words.ts';
import { download, fileName } from './files.ts';
import { Sheet } from './Sheet.tsx';

const MAKING = english('The report is being made.');
const FAILED = english('The report could not be made: that part of the planner stopped. Nothing is lost; try again.');

export function ReportSheet() {
  const { standing, again } = useStudy('report-text');
  const text = standing.how === 'found' && standing.found.kind === 'text' ? standing.found.value : '';
  const close = () => (sheet.value = null);
  const saveData = () =>
    written('report-json').then(
      (data) => data !== null && download(data, `${fileName()}-report.json`, 'application/json'),
      () => say(phrase(FAILED), 'bad'),
    );
  return (
    <Sheet label={phrase('Report')} class="report" close={close}>
      <h2>{phrase('Report')}</h2>
      {text === '' ? <p aria-live="polite">{phrase(standing.how === 'stopped' ? FAILED : MAKING)}</p> : <pre tabIndex={0}>{text}</pre>}
      <div class="buttons">
        {standing.how === 'stopped' && (
          <button type="button" onClick={again}>
            {phrase('Try again')}
          </button>
        )}
        <button type="button" class="main" disabled={text === ''} onClick={() => window.print()}>
          {phrase('Print')}
        </button>
        <button
          type="button"
          disabled={text === ''}
          onClick={() => download(text, `${fileName()}-report.txt`, 'text/plain')}
        >
          {phrase('Save as text')}
        </button>
        <button type="button" onClick={() => void saveData()}>
          {phrase('Save as data')}
        </button>
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </div>
    </Sheet>
  );
}
