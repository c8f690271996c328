// The lot by hand: drawn corner by corner, or changed by its corners.
import { changeShape, endShape } from '../plan/shape.ts';
import { fitPlan } from '../plan/keys.ts';
import { pickPath } from '../plan/pick.ts';
import { editOrTell, say } from '../state/actions.ts';
import { shaping } from '../state/store.ts';
import { count, phrase } from '../words/words.ts';

export function DrawLot() {
  const changing = shaping.value?.target === 'lot';
  async function draw(): Promise<void> {
    endShape();
    const corners = await pickPath({ prompt: phrase('Draw the lot'), closed: true });
    if (!corners || !editOrTell({ 'draw-lot': { corners } }, phrase('The lot was not drawn.'))) return;
    fitPlan();
    say(count(corners.length, 'The lot now has {n} side as drawn. Say which is the front.', 'The lot now has {n} sides as drawn. Say which is the front.'));
  }
  return (
    <div class="buttons">
      <button type="button" onClick={() => void draw()}>
        {phrase('Draw the lot')}
      </button>
      <button type="button" aria-pressed={changing} onClick={() => (changing ? endShape() : changeShape('lot'))}>
        {phrase('Change its corners')}
      </button>
    </div>
  );
}
