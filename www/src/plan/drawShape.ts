// The shape of something on the lot, drawn: an outline, a line, a band along a line, or a disc.
import type { ShapeRecord } from '../core/types.ts';
import { phrase } from '../words/words.ts';
import { pickPath, pickStretch } from './pick.ts';

export type Form = 'area' | 'track' | 'disc' | 'strip';

/** Asks for a shape on the plan; nothing when the user gives up. `width` is a strip's, meters. */
export async function drawShape(form: Form, name: string, width = 0): Promise<ShapeRecord | null> {
  if (form === 'disc') {
    const disc = await pickStretch(phrase('Draw {name}: its middle, then its edge', { name }), true);
    return disc && { disc: { at: disc.at, radius: disc.length } };
  }
  const closed = form === 'area';
  const path = await pickPath({ prompt: closed ? phrase('Draw {name}', { name }) : phrase('Draw {name}, end to end', { name }), closed });
  if (!path) return null;
  if (form === 'strip') return { strip: { path, width } };
  return closed ? { area: path } : { track: path };
}
