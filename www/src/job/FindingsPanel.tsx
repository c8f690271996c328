// What was not done and why: what is wrong, where, and how to mend it.
import { SEVERITY } from '../fields/severity.ts';
import { trouble } from '../state/store.ts';
import { heard, phrase, woven } from '../words/words.ts';
import { Sheet } from './Sheet.tsx';

export function FindingsPanel() {
  const now = trouble.value;
  if (!now) return null;
  const close = () => (trouble.value = null);
  return (
    <Sheet label={phrase('What is in the way')} class="findings" close={close}>
      <h2>{now.title}</h2>
      <ul class="finding-list">
        {now.findings.map((finding, index) => (
          <li key={index} data-severity={finding.severity} data-check={finding.code}>
            <p>
              <strong>{phrase(SEVERITY[finding.severity])}:</strong> {heard(finding.message)}
            </p>
            {finding.pointer && (
              <p>
                {woven('Where: {place}', { place: <code>{finding.pointer}</code> })}
              </p>
            )}
            {finding.remedy && <p>{phrase('How to mend it: {remedy}', { remedy: heard(finding.remedy) })}</p>}
          </li>
        ))}
      </ul>
      {now.findings.length === 0 && <p>{phrase('The planner gave no reason. Try again; your work is kept.')}</p>}
      <div class="buttons">
        <button type="button" class="main" onClick={close}>
          {phrase('Go on')}
        </button>
      </div>
    </Sheet>
  );
}
