// How the picture lies, typed: its bearing, its middle, and the size of a pixel.
import type { Finding, Picture } from '../core/types.ts';
import { Figure, read } from '../fields/fields.tsx';

/** Steps of turning. */
const STEPS = ['90°', '1°', '0.1°'];

function radians(text: string): number {
  const reading = read(text, 'angle');
  return reading.ok ? reading.value : 0;
}

export function PictureLay({ picture, put }: { picture: Picture; put: (change: Partial<Picture>) => Finding[] }) {
  const [east, north] = picture.at;
  const turn = (by: number) => void put({ heading: picture.heading + by });
  return (
    <fieldset class="picture-lay">
      <legend>Turn and move it</legend>
      <Figure
        label="Upper edge faces"
        measure="heading"
        value={picture.heading}
        commit={(heading) => put({ heading })}
        hint="The bearing of the picture's upper edge: 0° where north is up."
      />
      <div class="turns" role="group" aria-label="Turn the picture">
        {STEPS.map((step) => (
          <div class="turn" key={step}>
            <button type="button" aria-label={`Turn left by ${step}`} onClick={() => turn(-radians(step))}>
              ↺ {step}
            </button>
            <button type="button" aria-label={`Turn right by ${step}`} onClick={() => turn(radians(step))}>
              ↻ {step}
            </button>
          </div>
        ))}
      </div>
      <Figure label="Its middle, east" measure="long-length" value={east} commit={(x) => put({ at: [x, north] })} />
      <Figure label="Its middle, north" measure="long-length" value={north} commit={(y) => put({ at: [east, y] })} />
      <Figure
        label="One pixel on the ground"
        measure="length"
        value={picture.scale}
        commit={(scale) => put({ scale })}
        hint="Or drag the picture on the plan, and turn it by its handle."
      />
    </fieldset>
  );
}
