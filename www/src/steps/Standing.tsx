// Where the shell stands: bearing and coping elevation, typed or by steps, and the moves that need no hand.
import type { Point } from '../core/types.ts';
import { Figure } from '../fields/fields.tsx';
import { Later, later } from '../job/Later.tsx';
import { askForFrame } from '../plan/frame.ts';
import { smallStep, toggleSnap, turn } from '../plan/keys.ts';
import { edit, editOrTell } from '../state/actions.ts';
import { clearGroundShown } from '../state/arrangement.ts';
import { display, snapping, type Standing as Stands } from '../state/store.ts';
import { phrase } from '../words/words.ts';

const edgeNote = later(() => import('../fit/EdgeNote.tsx').then((it) => it.EdgeNote));

/** Every place of the shell's middle at its bearing stays on the plan, or shows only while the shell is in the hand. */
function toggleClearGround(): void {
  clearGroundShown.value = !clearGroundShown.value;
  askForFrame();
}

export function Standing({ shell, at }: { shell: Stands; at: Point }) {
  const step = display.value === 'feet' ? '1 in' : '1 cm';
  const raise = (sense: number) =>
    editOrTell(
      { 'set-coping': { elevation: shell.coping_value + sense * smallStep() } },
      phrase('The coping elevation was not changed.'),
    );
  return (
    <div class="standing">
      <p class="standing-name">
        {shell.name}
        {shell.mirrored && <span class="head-aside">{phrase('flipped')}</span>}
      </p>
      <p class="field-hint">{phrase('Drag it on the plan; turn it by the handle at its deep end, where the bearing points.')}</p>
      <div class="pairs standing-place">
        <Figure label={phrase('Shell place, east')} measure="long-length" value={at[0]} commit={(x) => edit({ 'move-shell': { at: [x, at[1]] } })} />
        <Figure label={phrase('Shell place, north')} measure="long-length" value={at[1]} commit={(y) => edit({ 'move-shell': { at: [at[0], y] } })} />
      </div>
      <div class="stepped standing-heading">
        <Figure
          label={phrase('Shell bearing')}
          measure="heading"
          value={shell.heading_value}
          commit={(heading) => edit({ 'turn-shell': { heading } })}
        />
        <button type="button" aria-label={phrase('Turn 1° to the left')} onClick={() => turn(-1, false)}>
          ↺
        </button>
        <button type="button" aria-label={phrase('Turn 1° to the right')} onClick={() => turn(1, false)}>
          ↻
        </button>
      </div>
      <div class="stepped">
        <Figure
          label={phrase('Coping elevation')}
          measure="elevation"
          value={shell.coping_value}
          commit={(elevation) => edit({ 'set-coping': { elevation } })}
        />
        <button type="button" aria-label={phrase('Lower the coping by {step}', { step })} onClick={() => raise(-1)}>
          −
        </button>
        <button type="button" aria-label={phrase('Raise the coping by {step}', { step })} onClick={() => raise(1)}>
          +
        </button>
      </div>
      <div class="buttons three">
        <button type="button" onClick={() => editOrTell('align-shell', phrase('The shell was not lined up.'))}>
          {phrase('Line up with the nearest wall or line')}
        </button>
        <button type="button" onClick={() => editOrTell('flip-shell', phrase('The shell was not flipped.'))}>
          {phrase('Flip')}
        </button>
        <button type="button" aria-pressed={snapping.value} onClick={toggleSnap}>
          {snapping.value ? phrase('Snap on') : phrase('Snap off')}
        </button>
        <button type="button" aria-pressed={clearGroundShown.value} onClick={toggleClearGround}>
          {phrase('Clear ground')}
        </button>
        <button type="button" onClick={() => editOrTell('remove-shell', phrase('The shell was not taken away.'))}>
          {phrase('Remove')}
        </button>
      </div>
      {clearGroundShown.value && <Later of={edgeNote} given={{}} />}
    </div>
  );
}
