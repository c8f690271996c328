// The benchmark: the mark that elevations are carried from, with its real or assumed elevation.
import type { Benchmark } from '../core/types.ts';
import { Figure, read, show } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { Tick } from '../fields/Tick.tsx';
import { pickPoint } from '../plan/pick.ts';
import { edit, editOrTell } from '../state/actions.ts';
import { display, drawing } from '../state/store.ts';
import { phrase } from '../words/words.ts';

export function BenchmarkPart({ benchmark }: { benchmark: Benchmark | undefined }) {
  const set = (next: Benchmark | null) => edit({ 'set-benchmark': next });
  if (!benchmark) return <NoBenchmark />;
  const put = (change: Partial<Benchmark>) => set({ ...benchmark, ...change });

  async function place(): Promise<void> {
    const at = await pickPoint(phrase('Benchmark: mark where it is'));
    if (at) put({ at });
  }

  return (
    <>
      <TextField
        label={phrase('What it is')}
        value={benchmark.name ?? ''}
        placeholder={phrase('such as: nail in the oak')}
        commit={(name) => put({ name })}
      />
      <Figure
        label={phrase('Elevation of the benchmark')}
        measure="elevation"
        value={benchmark.elevation}
        commit={(elevation) => put({ elevation })}
        hint={phrase('Spots and coping keep their own elevations when this changes.')}
      />
      <Tick label={phrase('The elevation is assumed')} on={benchmark.assumed ?? false} set={(assumed) => put({ assumed })} />
      <p class="field-hint">
        {benchmark.at
          ? phrase('It stands {east} east, {north} north.', { east: show(benchmark.at[0], 'long-length'), north: show(benchmark.at[1], 'long-length') })
          : phrase('It is not on the plan yet.')}
      </p>
      <div class="buttons">
        <button type="button" disabled={drawing.value !== null} onClick={() => void place()}>
          {phrase('Mark where it is')}
        </button>
        <button type="button" onClick={() => editOrTell({ 'set-benchmark': null }, phrase('The benchmark was not taken away.'))}>
          {phrase('Remove it')}
        </button>
      </div>
    </>
  );
}

function NoBenchmark() {
  const round = display.value === 'feet' ? '100 ft' : '100 m';
  function begin(): void {
    const reading = read(round, 'elevation');
    if (!reading.ok) return;
    editOrTell({ 'set-benchmark': { elevation: reading.value, assumed: true } }, phrase('No benchmark was set.'));
  }
  return (
    <>
      <p class="field-hint">
        {phrase('A mark that stays: a nail in a tree, a step, a manhole rim. Elevations count from it, and the report says whether its own is real or assumed.')}
      </p>
      <div class="buttons">
        <button type="button" class="main" onClick={begin}>
          {phrase('Set a benchmark at {elevation}, assumed', { elevation: round })}
        </button>
      </div>
    </>
  );
}
