// A picture of everything that was found. What is tapped is the one asked about below it.
import type { MapItem } from '../core/types.ts';
import { count } from '../words/words.ts';
import { look } from './roles.ts';

interface Props {
  items: MapItem[];
  roles: string[];
  held: number | null;
  hold: (index: number) => void;
}

interface Frame {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** The frame round what comes in, or round everything when nothing does. */
export function frameOf(items: MapItem[], roles: string[]): Frame {
  const chosen = items.filter((_, i) => roles[i] !== 'leave-out');
  const all = (chosen.length > 0 ? chosen : items).flatMap((item) => item.lines.flat());
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i + 1 < all.length; i += 2) {
    const [x = 0, y = 0] = [all[i], all[i + 1]];
    west = Math.min(west, x);
    east = Math.max(east, x);
    south = Math.min(south, y);
    north = Math.max(north, y);
  }
  if (west > east) return { x: 0, y: 0, width: 1, height: 1 };
  const margin = Math.max(1, 0.08 * Math.max(east - west, north - south));
  return { x: west - margin, y: -north - margin, width: east - west + 2 * margin, height: north - south + 2 * margin };
}

export function Picture({ items, roles, held, hold }: Props) {
  const frame = frameOf(items, roles);
  const dot = Math.max(frame.width, frame.height) / 110;
  const corners = items.filter((item, i) => roles[i] === 'corner' && item.form === 'points').flatMap((item) => item.lines);
  const order = items.map((_, i) => i).sort((a, b) => rank(roles[a]) - rank(roles[b]));
  return (
    <svg
      class="bring-picture"
      viewBox={`${frame.x} ${frame.y} ${frame.width} ${frame.height}`}
      role="img"
      aria-label={count(items.length, 'Picture of {n} thing, north up', 'Picture of {n} things, north up')}
    >
      {corners.length > 2 && (
        <path class="bring-thing" data-look="lot" data-form="areas" d={`${line(corners.flat())}Z`} />
      )}
      {order.map((i) => {
        const item = items[i];
        if (!item) return null;
        return (
          <g
            key={i}
            class="bring-thing"
            data-look={look(roles[i] ?? '')}
            data-form={item.form}
            data-held={held === i ? '' : undefined}
            onClick={() => hold(i)}
          >
            {item.form === 'points' ? (
              item.lines.map(([x = 0, y = 0], k) => <circle key={k} cx={x} cy={-y} r={dot} />)
            ) : (
              <path d={item.lines.map(line).join('')} />
            )}
          </g>
        );
      })}
    </svg>
  );
}

/** What comes in is drawn over what does not, points over all. */
function rank(role = ''): number {
  return ['out', 'lot', 'thing', 'ground'].indexOf(look(role));
}

function line(flat: number[]): string {
  let d = '';
  for (let i = 0; i + 1 < flat.length; i += 2) d += `${i === 0 ? 'M' : 'L'}${flat[i]} ${-(flat[i + 1] ?? 0)}`;
  return d;
}
