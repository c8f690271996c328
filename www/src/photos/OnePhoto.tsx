// One photograph, large, with what is said of it and the ways to change that.
import { useEffect, useRef } from 'preact/hooks';
import type { Photograph, Stage } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { addressOf } from './data.ts';
import { describe, look, pickDirection, pickPlace, remove, turn } from './edits.ts';
import { alternative, factsOf, STAGES } from './words.ts';
import { english, phrase, phrased } from '../words/words.ts';

interface Props {
  photograph: Photograph;
  at: number;
  all: readonly Photograph[];
}

const STAGE_CHOICES = [{ value: '' as const, text: english('Not entered') }, ...STAGES];

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
        <button type="button" aria-label={phrase('Previous photograph')} disabled={at === 0} onClick={() => go(-1)}>
          {phrase('Previous')}
        </button>
        <button type="button" aria-label={phrase('Next photograph')} disabled={at === all.length - 1} onClick={() => go(1)}>
          {phrase('Next')}
        </button>
      </div>
      <div class="photo-fields">
        <TextField class="photo-note-field" label={phrase('Note')} value={note} commit={(text) => describe(photograph, { note: text })} />
        <Choice<Stage | ''>
          label={phrase('Stage of the work')}
          value={stage ?? ''}
          options={phrased(STAGE_CHOICES)}
          choose={(it) => describe(photograph, { stage: it === '' ? null : it })}
        />
        <TextField label={phrase('When it was taken')} value={when} commit={(text) => describe(photograph, { when: text })} />
        <Figure
          label={phrase('Bearing it looks along')}
          measure="heading"
          value={bearing}
          commit={(value) => turn(id, value)}
          clear={() => turn(id, null)}
          hint={phrase('Left empty, the direction is not entered.')}
        />
      </div>
      <div class="buttons">
        <button type="button" onClick={() => void pickPlace(id)}>
          {phrase('Move on the plan')}
        </button>
        <button type="button" onClick={() => void pickDirection(id)}>
          {phrase('Mark place and direction')}
        </button>
        <button type="button" onClick={() => remove(id)}>
          {phrase('Remove the photograph')}
        </button>
      </div>
    </div>
  );
}
