// Buttons that draw something on the plan and hand its shape over, or begin to change one.
import type { ShapeRecord, ShapeTarget } from '../core/types.ts';
import { drawShape, type Form } from '../plan/drawShape.ts';
import { changeShape, endShape } from '../plan/shape.ts';
import { drawing, shaping } from '../state/store.ts';
import { phrase } from '../words/words.ts';

interface Props {
  /** What is drawn, in words: `the house`. */
  name: string;
  form: Form;
  /** A strip's width, meters. */
  width?: number;
  text?: string;
  main?: boolean;
  disabled?: boolean;
  take: (shape: ShapeRecord) => void;
}

/** Draws a new shape. */
export function DrawButton({ name, form, width, text = phrase('Draw it on the plan'), main, disabled, take }: Props) {
  async function draw(): Promise<void> {
    endShape();
    const shape = await drawShape(form, name, width);
    if (shape) take(shape);
  }
  return (
    <button type="button" class={main ? 'main' : ''} disabled={disabled || drawing.value !== null} onClick={() => void draw()}>
      {text}
    </button>
  );
}

/** Begins to change a shape on the plan, or ends it. */
export function ChangeShapeButton({ target, text = phrase('Change its shape') }: { target: ShapeTarget; text?: string }) {
  const changing = JSON.stringify(shaping.value?.target) === JSON.stringify(target);
  return (
    <button type="button" aria-pressed={changing} onClick={() => (changing ? endShape() : changeShape(target))}>
      {text}
    </button>
  );
}
