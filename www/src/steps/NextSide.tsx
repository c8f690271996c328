// The next side, typed as a deed writes it, added with Enter.
import { useState } from 'preact/hooks';
import type { Course, Finding, LotRecord } from '../core/types.ts';
import { useAsked } from '../core/useAsked.ts';
import { display } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';

const NOTHING = { text: '', courses: [] as Course[], said: '', findings: [] as Finding[] };

export function NextSide({ lot, add }: { lot: LotRecord; add: (courses: Course[]) => void }) {
  const units = display.value;
  const [text, setText] = useState('');
  const value = useAsked(
    text.trim() === ''
      ? null
      : (p) => {
          const { courses, findings, pieces } = p.read_deed(text, { ...lot, courses: [] });
          // What the courses of one line enclose is nobody's question.
          const own = findings.filter((finding) => finding.code.startsWith('deed'));
          const said = pieces.map((piece) => piece.message).filter((message, i) => message && pieces[i]?.remedy === '');
          return { text, courses, findings: own, said: said.join(', ') };
        },
    [text, units],
    NOTHING,
  );
  const fresh = value.text === text;
  const barred = value.findings.some((finding) => finding.severity === 'fault');
  const ready = fresh && !barred && value.courses.length > 0;
  function take(): void {
    if (!ready) return;
    add(value.courses);
    setText('');
  }
  const fault = fresh && text.trim() !== '' && !ready;
  return (
    <div class="field next-side">
      <label for="next-side">{phrase('Next side')}</label>
      <div class="next-side-row">
        <input
          id="next-side"
          type="text"
          autocomplete="off"
          spellcheck={false}
          value={text}
          placeholder={'N 89°15\'30" E 120.00'}
          aria-describedby="next-side-word"
          aria-invalid={fault}
          data-typing={text ? '' : undefined}
          onInput={(event) => setText(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') take();
            if (event.key === 'Escape' && text) {
              event.stopPropagation();
              event.preventDefault();
              setText('');
            }
          }}
        />
        <button type="button" disabled={!ready} onClick={take}>
          {phrase('Add')}
        </button>
      </div>
      <p class="field-word" id="next-side-word" data-kind={fault ? 'fault' : 'reads'} aria-live="polite">
        {!text ? '' : fault ? told(value.findings) : fresh ? `= ${value.said.split(', ').map(heard).join(', ')}` : ''}
      </p>
      <p class="field-hint">{phrase('Bearing and distance, or a curve such as “curve left R=50 L=35.20 chord bearing N 45 E”.')}</p>
    </div>
  );
}

function told(findings: Finding[]): string {
  const [first] = findings;
  return first ? `${heard(first.message)} ${heard(first.remedy)}` : phrase('No side was read here yet.');
}
