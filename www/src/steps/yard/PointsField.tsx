// Points typed or pasted, one a line.
import { useId, useState } from 'preact/hooks';
import type { Finding, Vertex } from '../../core/types.ts';
import { read, show, told } from '../../fields/fields.tsx';
import { display } from '../../state/store.ts';
import { phrase } from '../../words/words.ts';
import { lineOf, pointsOf } from './points.ts';

interface Props {
  label: string;
  points: readonly Vertex[];
  commit: (points: Vertex[]) => Finding[];
}

const asLength = (metres: number): string => show(metres, 'long-length');

export function PointsField({ label, points, commit }: Props) {
  void display.value; // Shown anew when the units change.
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [fault, setFault] = useState('');
  const standing = points.map((point) => lineOf(point, asLength)).join('\n');

  function finish(): void {
    if (typed === null || typed === standing) return restore();
    const lines = pointsOf(typed, points, asLength, (text) => read(text, 'long-length'));
    const refused = lines.faults.length > 0 ? lines.faults.join(' ') : told(commit(lines.points));
    if (refused === undefined) restore();
    else setFault(refused);
  }

  function restore(): void {
    setTyped(null);
    setFault('');
  }

  return (
    <div class="field">
      <label for={id}>{label}</label>
      <textarea
        id={id}
        rows={Math.min(Math.max(points.length + 1, 3), 8)}
        spellcheck={false}
        value={typed ?? standing}
        placeholder={'12.5, 30\n40, 30'}
        aria-invalid={fault !== ''}
        aria-describedby={`${id}-word ${id}-hint`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onBlur={finish}
        onKeyDown={(event) => {
          if (event.key !== 'Escape' || typed === null) return;
          event.stopPropagation();
          event.preventDefault();
          restore();
        }}
      />
      <p class="field-word" id={`${id}-word`} data-kind={fault ? 'fault' : ''} aria-live="polite">
        {fault}
      </p>
      <p class="field-hint" id={`${id}-hint`}>
        {phrase('One point a line: east, north, counted from the site’s origin.')}
      </p>
    </div>
  );
}
