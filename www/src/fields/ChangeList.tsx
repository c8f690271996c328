// What was changed, a line each.
import type { Change } from '../core/types.ts';
import { heard } from '../words/words.ts';

export function ChangeList({ changes }: { changes: Change[] }) {
  return (
    <ul class="changes">
      {changes.map((it, index) => (
        <li key={index} data-kind={it.kind}>
          {heard(it.words)}
        </li>
      ))}
    </ul>
  );
}
