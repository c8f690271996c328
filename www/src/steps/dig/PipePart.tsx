// Pipe between shell and equipment: the fittings, the pipe, and what every run comes to.
import { ask } from '../../core/planner.ts';
import { FITTING_KINDS, PIPE_SIZES } from '../../core/lists.ts';
import type { Finding, Fitting, ConstructionSettings } from '../../core/types.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Figure, read } from '../../fields/fields.tsx';
import { pickPoint } from '../../plan/pick.ts';
import { say } from '../../state/actions.ts';
import { tally } from '../../state/quantities.ts';
import { drawing, site } from '../../state/store.ts';
import { english, heard, phrase, type English } from '../../words/words.ts';
import { Planned } from './Planned.tsx';
import { Line, Part, put } from './shared.tsx';

type Kind = Fitting['kind'];

const KIND_WORDS: Record<Kind, English> = {
  return: english('Return, in the wall'),
  skimmer: english('Skimmer, in the wall'),
  drain: english('Drain, in the floor'),
};

const ADD_WORDS: Record<Kind, English> = { return: english('Add a return'), skimmer: english('Add a skimmer'), drain: english('Add a drain') };

const SIZE_WORDS: Record<ConstructionSettings['pipe']['size'], string> = {
  'one-and-half': '1 1/2 in',
  two: '2 in',
  'two-and-half': '2 1/2 in',
  three: '3 in',
};

/** First depths of a fitting below the rim, to be changed; common practice, no source. */
const DEPTHS: Record<Kind, string> = { return: '18 in', skimmer: '10 in', drain: '0 ft' };

function metres(text: string): number {
  const reading = read(text, 'length');
  return reading.ok ? reading.value : 0;
}

export function PipePart({ works }: { works: ConstructionSettings }) {
  const { fittings = [] } = works.pipe;
  void tally.value; // Told anew with the quantities.
  const runs = ask((p) => p.runs(), []);

  async function add(kind: Kind): Promise<void> {
    const tapped = await pickPoint(phrase('Mark where the {fitting} is.', { fitting: heard(kind) }));
    const now = site.value?.works;
    if (!tapped || !now) return;
    const at = ask((p) => p.fitting_from_site(tapped[0], tapped[1], kind !== 'drain'), undefined);
    if (!at) {
      say(phrase('The fitting was not added: there is no shell yet.'), 'bad');
      return;
    }
    const fitting: Fitting = { kind, at, depth: metres(DEPTHS[kind]) };
    put(now, 'pipe', { fittings: [...(now.pipe.fittings ?? []), fitting] });
  }

  const change = (index: number, next: Partial<Fitting>): Finding[] =>
    put(works, 'pipe', { fittings: fittings.map((it, i) => (i === index ? { ...it, ...next } : it)) });

  function slide(index: number, along: number): Finding[] {
    const at = ask((p) => p.at_along_edge(along), undefined);
    return at ? change(index, { at }) : [];
  }

  return (
    <Part title={phrase('Pipe')}>
      <div class="buttons">
        {FITTING_KINDS.map((kind) => (
          <button key={kind} type="button" disabled={drawing.value !== null} onClick={() => void add(kind)}>
            {phrase(ADD_WORDS[kind])}
          </button>
        ))}
      </div>
      {fittings.length === 0 && (
        <p class="field-hint">{phrase('Pipe is counted from the fittings to the equipment pad: mark them on the plan.')}</p>
      )}
      {fittings.map((fitting, index) => {
        const run = runs.find((it) => it.fitting === index);
        return (
          <fieldset key={index} class="opening">
            <legend>{run ? `${heard(run.label)}: ${heard(fitting.kind)}` : phrase('Fitting {number}: {kind}', { number: index + 1, kind: heard(fitting.kind) })}</legend>
            <Choice
              label={phrase('What it is')}
              value={fitting.kind}
              options={FITTING_KINDS.map((value) => ({ value, text: phrase(KIND_WORDS[value]) }))}
              choose={(kind) => change(index, { kind })}
            />
            {fitting.kind === 'drain' ? (
              <div class="pair">
                <Figure
                  label={phrase('Along the shell, from its middle')}
                  measure="length"
                  value={fitting.at[0]}
                  commit={(x) => change(index, { at: [x, fitting.at[1]] })}
                />
                <Figure
                  label={phrase('To the left of its length')}
                  measure="length"
                  value={fitting.at[1]}
                  commit={(y) => change(index, { at: [fitting.at[0], y] })}
                />
              </div>
            ) : (
              <div class="pair">
                <Figure
                  label={phrase("Along the water's edge")}
                  measure="length"
                  value={ask((p) => p.along_edge(fitting.at[0], fitting.at[1]), undefined)}
                  commit={(along) => slide(index, along)}
                />
                <Figure
                  label={phrase('Below the rim')}
                  measure="length"
                  value={fitting.depth}
                  commit={(depth) => change(index, { depth })}
                />
              </div>
            )}
            {run && (
              <p class="field-hint">
                {phrase('{length} of pipe, {straps} straps, {bends} bends; {loss} of friction at {speed} with all of the flow in it.', { length: run.length, straps: run.straps, bends: run.bends, loss: run.loss, speed: run.speed })}
              </p>
            )}
            <div class="buttons">
              <button
                type="button"
                onClick={() => put(works, 'pipe', { fittings: fittings.filter((_, i) => i !== index) })}
              >
                {phrase('Remove this {fitting}', { fitting: heard(fitting.kind) })}
              </button>
            </div>
          </fieldset>
        );
      })}
      {fittings.some((it) => it.kind !== 'drain') && (
        <p class="field-hint">
          {phrase("The water's edge is measured from the middle of the deep end, to the left as one looks along the shell.")}
        </p>
      )}
      <Planned
        kind="pipe-trench"
        text={phrase('Draw the trench')}
        hint={phrase('From beside the shell to the pad. Without one the runs go straight. Call the utility-locating service before anyone digs.')}
      />
      <Choice
        label={phrase('Schedule 40 pipe')}
        value={works.pipe.size}
        options={PIPE_SIZES.map((value) => ({ value, text: SIZE_WORDS[value] }))}
        choose={(size) => put(works, 'pipe', { size })}
      />
      <Line works={works} part="pipe" member="flow" measure="flow" label={phrase('Design flow')} />
      <Line
        works={works}
        part="pipe"
        member="coefficient"
        measure="count"
        label={phrase('Coefficient C')}
        hint={phrase('Hazen-Williams: 150 for new plastic pipe; less for old.')}
      />
      <Line
        works={works}
        part="pipe"
        member="bend"
        measure="length"
        label={phrase('Straight pipe equal to one bend')}
        hint={phrase("From memory; use the fitting maker's own figure.")}
      />
      <Line works={works} part="pipe" member="strap_spacing" measure="length" label={phrase('Strap spacing, at most')} />
      <Line works={works} part="pipe" member="off_wall" measure="length" label={phrase('Off the wall')} />
      <Line works={works} part="pipe" member="encasement" measure="length" label={phrase('Stone round the pipe')} />
      <div class="pair">
        <Line works={works} part="pipe" member="trench_width" measure="length" label={phrase('Trench width')} />
        <Line works={works} part="pipe" member="trench_depth" measure="length" label={phrase('Trench depth')} />
      </div>
      <Line works={works} part="waste" member="pipe" measure="fraction" label={phrase('Pipe waste')} />
      <p class="caution" data-severity="caution">
        <strong>{phrase('Caution:')}</strong> {phrase('Suction can hold a bather under water. The number of drains, their covers and all wiring and bonding are for the local code and a licensed trade to decide.')}
      </p>
    </Part>
  );
}
