// A shell drawn round the picture of a brochure: its outline on the plan, held against the printed size, then its floor
// by stations.
import { useState } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import type { PathRecord } from '../core/types.ts';
import { Figure, show } from '../fields/fields.tsx';
import { site } from '../state/store.ts';
import { english, phrase } from '../words/words.ts';
import { DrawButton } from './DrawButton.tsx';
import { StationShell } from './StationShell.tsx';

export function TracedShell() {
  const [path, setPath] = useState<PathRecord | null>(null);
  const [turned, setTurned] = useState(false);
  const [printed, setPrinted] = useState<{ length?: number; width?: number }>({});
  const drawn = path && ask((p) => p.traced_size({ path, scale: 1, turned }), undefined);
  const [fitted, setFitted] = useState(false);
  const scale = fitted && drawn && printed.length ? printed.length / drawn.length : 1;
  return (
    <>
      <ol class="field-hint traced-steps">
        <li>{phrase('Lay the brochure’s page under the plan, at “Picture under the plan” in the step Lot, best in a job of its own.')}</li>
        <li>{phrase('Scale it there by the printed length.')}</li>
        <li>{phrase('Draw round the water’s edge here; arcs by A, straight by L.')}</li>
      </ol>
      {!site.value?.picture && <p class="field-word">{phrase('There is no picture under the plan yet.')}</p>}
      <DrawButton
        name={phrase('the water’s edge of the shell')}
        form="area"
        text={path ? phrase('Draw it again') : phrase('Draw round its outline')}
        main={!path}
        take={(shape) => {
          if ('area' in shape) setPath(shape.area);
        }}
      />
      {path && !drawn && <p class="field-word" data-kind="fault">{phrase('What was drawn crosses itself. Draw it again.')}</p>}
      {path && drawn && (
        <>
          <div class="pairs">
            {(['length', 'width'] as const).map((side) => (
              <Figure
                key={side}
                label={side === 'length' ? phrase('Length inside, as printed') : phrase('Width inside, as printed')}
                measure="length"
                value={printed[side]}
                commit={(value) => {
                  setPrinted((now) => ({ ...now, [side]: value }));
                  return [];
                }}
              />
            ))}
          </div>
          <p role="status">
            {phrase('Drawn: {length} long, {width} wide.', { length: show(drawn.length * scale, 'length'), width: show(drawn.width * scale, 'length') })}{' '}
            {off(OFF.length, drawn.length * scale, printed.length)} {off(OFF.width, drawn.width * scale, printed.width)}
          </p>
          <div class="buttons">
            <button type="button" aria-pressed={fitted} disabled={!printed.length} onClick={() => setFitted(!fitted)}>
              {phrase('Scale it to the printed length')}
            </button>
            <button type="button" aria-pressed={turned} onClick={() => setTurned(!turned)}>
              {phrase('Turn it end for end')}
            </button>
          </div>
          <StationShell traced={{ path, scale, turned }} />
        </>
      )}
    </>
  );
}

const OFF = {
  length: {
    agrees: english('The length agrees with the printed one.'),
    more: english('The length is {by} more than the printed one.'),
    less: english('The length is {by} less than the printed one.'),
  },
  width: {
    agrees: english('The width agrees with the printed one.'),
    more: english('The width is {by} more than the printed one.'),
    less: english('The width is {by} less than the printed one.'),
  },
};

/** What a drawn length is off from the printed one. */
function off(what: (typeof OFF)['length'], drawn: number, printed: number | undefined): string {
  if (printed === undefined) return '';
  const by = ask((p) => p.off_print(drawn, printed), undefined);
  if (by === undefined) return phrase(what.agrees);
  return `${phrase(drawn > printed ? what.more : what.less, { by })} ${phrase('Look for what was drawn wrong, or whether the page gives the outside.')}`;
}
