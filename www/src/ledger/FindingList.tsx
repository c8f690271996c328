// Findings as a plain list: what is said, and what to do about it.
import type { Finding } from '../core/types.ts';
import { heard } from '../words/words.ts';

export function FindingList({ list, label }: { list: readonly Finding[]; label?: string }) {
  return (
    <ul class="finding-list" aria-label={label}>
      {list.map((it, at) => (
        <li key={at} data-severity={it.severity}>
          {heard(it.message)} <span>{heard(it.remedy)}</span>
        </li>
      ))}
    </ul>
  );
}
