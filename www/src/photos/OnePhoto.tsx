// One photograph, large, with what is said of it and the ways to change that.
import { useEffect, useRef } from 'preact/hooks';
import type { Photograph, Stage } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { addressOf } from './data.ts';
import { describe, look, pickDirection, pickPlace, remove, turn } from './edits.ts';
import { alternative, factsOf, STAGES } from './words.ts';

interface Props {
  photograph: Photograph;
  at: number;
  all: readonly Photograph[];
}

const STAGE_CHOICES = [{ value: '' as const, text: 'Not entered' }, ...STAGES];

export function OnePhoto({ photograph, at, all }: Props) {
  const { id, note = '', when = '', stage, bearing } = photograph;
  const box = useRef<HTMLDivElement>(null);
  const go = (by: number): void => {
    const next = all[at + by];
    if (next) look(next.id);
  };
  useEffect(() => box.current?.focus({ preventScroll: true }), []);
  return (
    <div
      class="one-photo"
      ref={box}
      tabIndex={-1}
      onKeyDown={(event) => {
        if (event.target !== event.currentTarget) return;
        if (event.key === 'ArrowLeft') go(-1);
        if (event.key === 'ArrowRight') go(1);
      }}
    >
      <figure>
        <img src={addressOf(id)} alt={alternative(photograph, at + 1, all.length)} width={photograph.width} height={photograph.height} />
        <figcaption>
          <span class="photo-facts">{factsOf(photograph).join(' · ')}</span>
          {note && <span class="photo-note">{note}</span>}
        </figcaption>
      </figure>
      <div class="buttons">
        <button type="button" aria-label="Previous photograph" disabled={at === 0} onClick={() => go(-1)}>
          Previous
        </button>
        <button type="button" aria-label="Next photograph" disabled={at === all.length - 1} onClick={() => go(1)}>
          Next
        </button>
      </div>
      <div class="photo-fields">
        <TextField class="photo-note-field" label="Note" value={note} commit={(text) => describe(photograph, { note: text })} />
        <Choice<Stage | ''>
          label="Stage of the work"
          value={stage ?? ''}
          options={STAGE_CHOICES}
          choose={(it) => describe(photograph, { stage: it === '' ? null : it })}
        />
        <TextField label="When it was taken" value={when} commit={(text) => describe(photograph, { when: text })} />
        <Figure
          label="Bearing it looks along"
          measure="heading"
          value={bearing}
          commit={(value) => turn(id, value)}
          clear={() => turn(id, null)}
          hint="Left empty, the direction is not entered."
        />
      </div>
      <div class="buttons">
        <button type="button" onClick={() => void pickPlace(id)}>
          Move on the plan
        </button>
        <button type="button" onClick={() => void pickDirection(id)}>
          Mark place and direction
        </button>
        <button type="button" onClick={() => remove(id)}>
          Remove the photograph
        </button>
      </div>
    </div>
  );
}
