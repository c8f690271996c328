// The picture laid to scale: two of its points, and what is known of them on the ground.
import { useState } from 'preact/hooks';
import type { Measure, Point } from '../core/types.ts';
import { Figure, told } from '../fields/fields.tsx';
import { pickPoint } from '../plan/pick.ts';
import { edit, say } from '../state/actions.ts';
import { snapping } from '../state/store.ts';
import { phrase } from '../words/words.ts';

interface Known {
  first: Point;
  second: Point;
  distance?: number;
  bearing?: number;
}

export function PictureScale() {
  const [known, setKnown] = useState<Known | null>(null);
  const [fault, setFault] = useState('');

  async function pick(): Promise<void> {
    setFault('');
    // The points are the picture's own: nothing drawn may lead the hand away from them.
    const snapped = snapping.value;
    snapping.value = false;
    try {
      const first = await pickPoint(phrase('First point of the picture: it stays where it is'));
      const second = first && (await pickPoint(phrase('Second point of the picture, far from the first')));
      if (first && second) setKnown({ first, second });
    } finally {
      snapping.value = snapped;
    }
  }

  function lay(): void {
    if (!known) return;
    const refused = told(edit({ 'fit-picture': known }));
    setFault(refused ?? '');
    if (refused) return;
    setKnown(null);
    say(phrase('The picture is laid by the two points. Check it against a third.'));
  }

  const field = (label: string, measure: Measure, member: 'distance' | 'bearing', hint: string) => (
    <Figure
      label={label}
      measure={measure}
      value={known?.[member]}
      commit={(value) => {
        setKnown(known && { ...known, [member]: value });
        return [];
      }}
      clear={() => {
        const { [member]: _, ...rest } = known ?? { first: [0, 0], second: [0, 0] };
        setKnown(known && (rest as Known));
        return [];
      }}
      hint={hint}
    />
  );

  return (
    <fieldset class="picture-lay">
      <legend>{phrase('Scale it by two points')}</legend>
      <button type="button" class="main" onClick={() => void pick()}>
        {known ? phrase('Pick the two points again') : phrase('Pick two points of the picture')}
      </button>
      {known && (
        <>
          {field(phrase('Known distance between them'), 'long-length', 'distance', phrase('Along the ground, as the plat or a tape says.'))}
          {field(phrase('Bearing from the first to the second'), 'bearing', 'bearing', phrase('Where it is known: the picture turns to it.'))}
          <button
            type="button"
            class="main"
            disabled={known.distance === undefined && known.bearing === undefined}
            onClick={lay}
          >
            {phrase('Lay the picture')}
          </button>
        </>
      )}
      <p class="field-word" data-kind={fault ? 'fault' : ''} aria-live="polite">
        {fault}
      </p>
    </fieldset>
  );
}
