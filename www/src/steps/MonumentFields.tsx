// What marks a corner on the ground.
import { MONUMENT_KINDS, MONUMENT_STATES } from '../core/lists.ts';
import type { Monument } from '../core/types.ts';
import { Choice, plain } from '../fields/Choice.tsx';
import { TextField } from '../fields/TextField.tsx';

const KINDS = [
  { value: 'none', text: 'Nothing known' },
  ...MONUMENT_KINDS.map((value) => ({ value, text: plain(value) })),
] as const;
const STATES = MONUMENT_STATES.map((value) => ({ value, text: plain(value) }));

interface Props {
  monument: Monument | undefined;
  put: (monument: Monument | undefined) => void;
}

export function MonumentFields({ monument, put }: Props) {
  return (
    <fieldset class="monument">
      <legend>Corner where it starts</legend>
      <div class="pair">
        <Choice
          label="Marked by"
          value={monument?.kind ?? 'none'}
          options={KINDS}
          choose={(kind) => put(kind === 'none' ? undefined : { state: 'not-searched', ...monument, kind })}
        />
        {monument && (
          <Choice
            label="On the ground"
            value={monument.state}
            options={STATES}
            choose={(state) => put({ ...monument, state })}
          />
        )}
      </div>
      {monument && (
        <TextField
          label="Note on the mark"
          value={monument.note ?? ''}
          commit={(note) => put({ ...monument, note })}
        />
      )}
    </fieldset>
  );
}
