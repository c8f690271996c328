// The picture of a yard with the shade of the hour over it.
import type { Point } from '../core/types.ts';
import { phrase } from '../words/words.ts';
import { shade, type Picture } from './asked.ts';

/** Rings of the site as one path of the picture, in its millimeters. */
function path(now: Picture, rings: readonly (readonly Point[])[]): string {
  const { centre, perMeter } = now.view;
  const place = ([x, y]: Point): string =>
    `${(now.wish.width / 2 + (x - centre[0]) * perMeter).toFixed(2)} ${(now.wish.height / 2 - (y - centre[1]) * perMeter).toFixed(2)}`;
  return rings.map((ring) => `M${ring.map(place).join('L')}Z`).join('');
}

export function YardPicture({ now }: { now: Picture }) {
  const dark = shade.value?.up ? shade.value : null;
  const words = now.view.shell === '' ? phrase('The yard as it is') : phrase('The yard with {shell}. {fits}', { shell: now.view.shell, fits: now.view.fits });
  return (
    <>
      <img class="shown-picture" src={now.address} alt={words} draggable={false} />
      {dark && (
        <svg class="shown-shades" viewBox={`0 0 ${now.wish.width} ${now.wish.height}`} aria-hidden="true">
          <path d={path(now, dark.shades.flatMap(({ rings }) => rings))} />
          <path class="on-water" d={path(now, dark.on_water)} />
        </svg>
      )}
    </>
  );
}
