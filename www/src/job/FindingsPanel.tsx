// What was not done and why: what is wrong, where, and how to mend it.
import type { Finding } from '../core/types.ts';
import { trouble } from '../state/store.ts';
import { Sheet } from './Sheet.tsx';

const WORDS: Record<Finding['severity'], string> = { fault: 'Fault', caution: 'Caution', note: 'Note' };

export function FindingsPanel() {
  const now = trouble.value;
  if (!now) return null;
  const close = () => (trouble.value = null);
  return (
    <Sheet label="What is in the way" class="findings" close={close}>
      <h2>{now.title}</h2>
      <ul class="finding-list">
        {now.findings.map((finding, index) => (
          <li key={index} data-severity={finding.severity} data-check={finding.code}>
            <p>
              <strong>{WORDS[finding.severity]}:</strong> {finding.message}
            </p>
            {finding.pointer && (
              <p>
                Where: <code>{finding.pointer}</code>
              </p>
            )}
            {finding.remedy && <p>How to mend it: {finding.remedy}</p>}
          </li>
        ))}
      </ul>
      {now.findings.length === 0 && <p>The planner gave no reason. Try again; your work is kept.</p>}
      <div class="buttons">
        <button type="button" class="main" onClick={close}>
          Go on
        </button>
      </div>
    </Sheet>
  );
}
