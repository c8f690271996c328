// The doors of a building or the gates of a fence, one after the other.
import type { Finding, Opening, Point } from '../../core/types.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Figure, read } from '../../fields/fields.tsx';
import { TextField } from '../../fields/TextField.tsx';
import { pickPoint } from '../../plan/pick.ts';
import { english, heard, phrase, phrased } from '../../words/words.ts';
import { Place } from './ShapeFields.tsx';

interface Props {
  /** What one is called: `door`, `gate`. */
  word: string;
  openings: Opening[];
  /** Where a new one stands until it is placed. */
  start: Point;
  put: (openings: Opening[]) => Finding[];
}

const DOOR_OR_WINDOW = [
  { value: 'door', text: english('A door') },
  { value: 'window', text: english('A window') },
] as const;

/** A usual clear width, to be changed (common practice, no source). */
const USUAL = '3 ft';

export function Openings({ word, openings, start, put }: Props) {
  const change = (index: number, next: Partial<Opening>) =>
    put(openings.map((it, i) => (i === index ? { ...it, ...next } : it)));
  function add(): void {
    const width = read(USUAL, 'length');
    put([...openings, { at: start, width: width.ok ? width.value : 1 }]);
  }
  async function place(index: number): Promise<void> {
    const at = await pickPoint(phrase('Where the middle of the {word} is', { word: heard(word) }));
    if (at) change(index, { at });
  }
  return (
    <>
      {openings.map((opening, index) => (
        <fieldset key={index} class="opening">
          <legend>{opening.name || `${heard(opening.window ? 'window' : word)} ${index + 1}`}</legend>
          {word === 'door' && (
            <Choice
              label={phrase('What it is')}
              value={opening.window ? 'window' : 'door'}
              options={phrased(DOOR_OR_WINDOW)}
              choose={(it) => change(index, { window: it === 'window' })}
            />
          )}
          <TextField label={phrase('Name')} value={opening.name ?? ''} commit={(name) => change(index, { name })} />
          <Figure
            label={phrase('Clear width')}
            measure="length"
            value={opening.width}
            commit={(width) => change(index, { width })}
          />
          <Place what={phrase('Middle of the {word}', { word: heard(word) })} at={opening.at} put={(at) => change(index, { at })} />
          <div class="buttons">
            <button type="button" onClick={() => void place(index)}>
              {phrase('Place it on the plan')}
            </button>
            <button type="button" onClick={() => put(openings.filter((_, i) => i !== index))}>
              {phrase('Remove this {word}', { word: heard(word) })}
            </button>
          </div>
        </fieldset>
      ))}
      <div class="buttons">
        <button type="button" onClick={add}>
          {phrase('Add a {word}', { word: heard(word) })}
        </button>
      </div>
      {openings.length > 0 && (
        <p class="field-hint">{phrase('It is set into the nearest place of the edge.')}</p>
      )}
    </>
  );
}
