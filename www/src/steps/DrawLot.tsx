// The lot by hand: drawn corner by corner, or changed by its corners.
import { changeShape, endShape } from '../plan/shape.ts';
import { fitPlan } from '../plan/keys.ts';
import { pickPath } from '../plan/pick.ts';
import { editOrTell, say } from '../state/actions.ts';
import { shaping } from '../state/store.ts';

export function DrawLot() {
  const changing = shaping.value?.target === 'lot';
  async function draw(): Promise<void> {
    endShape();
    const corners = await pickPath({ prompt: 'Draw the lot', closed: true });
    if (!corners || !editOrTell({ 'draw-lot': { corners } }, 'The lot was not drawn.')) return;
    fitPlan();
    say(`The lot now has ${corners.length} sides as drawn. Say which is the front.`);
  }
  return (
    <div class="buttons">
      <button type="button" onClick={() => void draw()}>
        Draw the lot
      </button>
      <button type="button" aria-pressed={changing} onClick={() => (changing ? endShape() : changeShape('lot'))}>
        Change its corners
      </button>
    </div>
  );
}
