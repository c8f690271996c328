// What was changed, a line each.
import type { Change } from '../core/types.ts';

export function ChangeList({ changes }: { changes: Change[] }) {
  return (
    <ul class="changes">
      {changes.map((it, index) => (
        <li key={index} data-kind={it.kind}>
          {it.words}
        </li>
      ))}
    </ul>
  );
}
