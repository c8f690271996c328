// How the picture lies, typed: its bearing, its middle, and the size of a pixel.
import type { Finding, Picture } from '../core/types.ts';
import { Figure, read } from '../fields/fields.tsx';
import { phrase } from '../words/words.ts';

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
      <legend>{phrase('Turn and move it')}</legend>
      <Figure
        label={phrase('Upper edge faces')}
        measure="heading"
        value={picture.heading}
        commit={(heading) => put({ heading })}
        hint={phrase("The bearing of the picture's upper edge: 0° where north is up.")}
      />
      <div class="turns" role="group" aria-label={phrase('Turn the picture')}>
        {STEPS.map((step) => (
          <div class="turn" key={step}>
            <button type="button" aria-label={phrase('Turn left by {step}', { step })} onClick={() => turn(-radians(step))}>
              ↺ {step}
            </button>
            <button type="button" aria-label={phrase('Turn right by {step}', { step })} onClick={() => turn(radians(step))}>
              ↻ {step}
            </button>
          </div>
        ))}
      </div>
      <Figure label={phrase('Its middle, east')} measure="long-length" value={east} commit={(x) => put({ at: [x, north] })} />
      <Figure label={phrase('Its middle, north')} measure="long-length" value={north} commit={(y) => put({ at: [east, y] })} />
      <Figure
        label={phrase('One pixel on the ground')}
        measure="length"
        value={picture.scale}
        commit={(scale) => put({ scale })}
        hint={phrase('Or drag the picture on the plan, and turn it by its handle.')}
      />
    </fieldset>
  );
}
