// What marks a corner on the ground.
import { MONUMENT_KINDS, MONUMENT_STATES } from '../core/lists.ts';
import type { Monument } from '../core/types.ts';
import { Choice, plain } from '../fields/Choice.tsx';
import { TextField } from '../fields/TextField.tsx';
import { phrase } from '../words/words.ts';

const kinds = () => [
  { value: 'none' as const, text: phrase('Nothing known') },
  ...MONUMENT_KINDS.map((value) => ({ value, text: plain(value) })),
];
const states = () => MONUMENT_STATES.map((value) => ({ value, text: plain(value) }));

interface Props {
  monument: Monument | undefined;
  put: (monument: Monument | undefined) => void;
}

export function MonumentFields({ monument, put }: Props) {
  return (
    <fieldset class="monument">
      <legend>{phrase('Corner where it starts')}</legend>
      <div class="pair">
        <Choice
          label={phrase('Marked by')}
          value={monument?.kind ?? 'none'}
          options={kinds()}
          choose={(kind) => put(kind === 'none' ? undefined : { state: 'not-searched', ...monument, kind })}
        />
        {monument && (
          <Choice
            label={phrase('On the ground')}
            value={monument.state}
            options={states()}
            choose={(state) => put({ ...monument, state })}
          />
        )}
      </div>
      {monument && (
        <TextField
          label={phrase('Note on the mark')}
          value={monument.note ?? ''}
          commit={(note) => put({ ...monument, note })}
        />
      )}
    </fieldset>
  );
}
