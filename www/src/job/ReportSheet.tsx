// The report as text: to read, to print, to keep. The words and the figures are the core's.
import { ask } from '../door/planner.ts';
import { sheet } from '../state/store.ts';
import { download, fileName } from './files.ts';
import { Sheet } from './Sheet.tsx';

export function ReportSheet() {
  const text = ask((p) => p.report_text(), '');
  const close = () => (sheet.value = null);
  return (
    <Sheet label="Report" class="report" close={close}>
      <h2>Report</h2>
      <pre tabIndex={0}>{text}</pre>
      <div class="buttons">
        <button type="button" class="main" onClick={() => window.print()}>
          Print
        </button>
        <button type="button" onClick={() => download(text, `${fileName()}-report.txt`, 'text/plain')}>
          Save as text
        </button>
        <button
          type="button"
          onClick={() => download(ask((p) => p.report_json(), ''), `${fileName()}-report.json`, 'application/json')}
        >
          Save as data
        </button>
        <button type="button" onClick={close}>
          Close
        </button>
      </div>
    </Sheet>
  );
}
