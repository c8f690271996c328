// The report as text: to read, to print, to keep. The words and the figures are the core's.
import { useEffect, useState } from 'preact/hooks';
import { report } from '../door/report.ts';
import { say } from '../state/actions.ts';
import { sheet } from '../state/store.ts';
import { download, fileName } from './files.ts';
import { Sheet } from './Sheet.tsx';

const FAILED = 'The report could not be made: a part of the planner did not load. Close it and try again.';

export function ReportSheet() {
  const [text, setText] = useState('');
  const [word, setWord] = useState('The report is being made.');
  useEffect(() => {
    report('text').then(setText, () => setWord(FAILED));
  }, []);
  const close = () => (sheet.value = null);
  const saveData = () =>
    report('json').then(
      (data) => download(data, `${fileName()}-report.json`, 'application/json'),
      () => say(FAILED, 'bad'),
    );
  return (
    <Sheet label="Report" class="report" close={close}>
      <h2>Report</h2>
      {text === '' ? <p aria-live="polite">{word}</p> : <pre tabIndex={0}>{text}</pre>}
      <div class="buttons">
        <button type="button" class="main" disabled={text === ''} onClick={() => window.print()}>
          Print
        </button>
        <button
          type="button"
          disabled={text === ''}
          onClick={() => download(text, `${fileName()}-report.txt`, 'text/plain')}
        >
          Save as text
        </button>
        <button type="button" onClick={() => void saveData()}>
          Save as data
        </button>
        <button type="button" onClick={close}>
          Close
        </button>
      </div>
    </Sheet>
  );
}
