// A shell drawn round the picture of a brochure: its outline on the plan, held against the printed size, then its floor
// by stations.
import { useState } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import type { PathRecord } from '../core/types.ts';
import { Figure, show } from '../fields/fields.tsx';
import { site } from '../state/store.ts';
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
        <li>Lay the brochure’s page under the plan, at “Picture under the plan” in the step Lot, best in a job of its own.</li>
        <li>Scale it there by the printed length.</li>
        <li>Draw round the water’s edge here; arcs by A, straight by L.</li>
      </ol>
      {!site.value?.picture && <p class="field-word">There is no picture under the plan yet.</p>}
      <DrawButton
        name="the water’s edge of the shell"
        form="area"
        text={path ? 'Draw it again' : 'Draw round its outline'}
        main={!path}
        take={(shape) => {
          if ('area' in shape) setPath(shape.area);
        }}
      />
      {path && !drawn && <p class="field-word" data-kind="fault">What was drawn crosses itself. Draw it again.</p>}
      {path && drawn && (
        <>
          <div class="pairs">
            {(['length', 'width'] as const).map((side) => (
              <Figure
                key={side}
                label={`${side === 'length' ? 'Length' : 'Width'} inside, as printed`}
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
            Drawn: {show(drawn.length * scale, 'length')} long, {show(drawn.width * scale, 'length')} wide.{' '}
            {off('length', drawn.length * scale, printed.length)} {off('width', drawn.width * scale, printed.width)}
          </p>
          <div class="buttons">
            <button type="button" aria-pressed={fitted} disabled={!printed.length} onClick={() => setFitted(!fitted)}>
              Scale it to the printed length
            </button>
            <button type="button" aria-pressed={turned} onClick={() => setTurned(!turned)}>
              Turn it end for end
            </button>
          </div>
          <StationShell traced={{ path, scale, turned }} />
        </>
      )}
    </>
  );
}

/** What a drawn length is off from the printed one. */
function off(what: string, drawn: number, printed: number | undefined): string {
  if (printed === undefined) return '';
  const by = ask((p) => p.off_print(drawn, printed), undefined);
  if (by === undefined) return `The ${what} agrees with the printed one.`;
  return `The ${what} is ${by} ${drawn > printed ? 'more' : 'less'} than the printed one: look for what was drawn wrong, or whether the page gives the outside.`;
}
