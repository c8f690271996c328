// What the barrier round the water has to be, as the authority says: the planner then finds where it is open.
import { useState } from 'preact/hooks';
import type { BarrierRule } from '../core/types.ts';
import { Figure } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { edit, editOrTell } from '../state/actions.ts';
import { MakeButton, stillMissing } from '../steps/MakeButton.tsx';
import { phrase } from '../words/words.ts';

export function Barrier({ barrier }: { barrier: BarrierRule | undefined }) {
  return (
    <>
      <p class="field-hint">
        {phrase("Fences and walls of enough height and the walls of buildings count; gates and doors count as closed and are listed. Enter the local authority's own figures: none comes with the planner.")}
      </p>
      {barrier ? <Entered barrier={barrier} /> : <NewBarrier />}
    </>
  );
}

function Entered({ barrier }: { barrier: BarrierRule }) {
  const put = (change: Partial<BarrierRule>) => edit({ 'set-barrier': { ...barrier, ...change } });
  return (
    <>
      <Fields rule={barrier} put={put} />
      <button type="button" onClick={() => editOrTell({ 'set-barrier': null }, phrase('The barrier was not removed.'))}>
        {phrase('Do not look at the barrier')}
      </button>
    </>
  );
}

function Fields({ rule, put }: { rule: Partial<BarrierRule>; put: (change: Partial<BarrierRule>) => ReturnType<typeof edit> }) {
  return (
    <>
      <Figure
        label={phrase('Fences and walls count from a height of')}
        measure="length"
        value={rule.least_height}
        commit={(least_height) => put({ least_height })}
      />
      <Figure
        label={phrase('An opening counts as closed up to')}
        measure="length"
        value={rule.widest_gap}
        commit={(widest_gap) => put({ widest_gap })}
      />
      <TextField
        label={phrase('Source')}
        value={rule.source ?? ''}
        placeholder={phrase('Who requires it, and in which edition')}
        commit={(source) => put({ source })}
      />
    </>
  );
}

function NewBarrier() {
  const [draft, setDraft] = useState<Partial<BarrierRule>>({});
  const { least_height, widest_gap, source } = draft;
  const missing = stillMissing([
    [phrase('the least height'), least_height],
    [phrase('the widest opening'), widest_gap],
    [phrase('its source'), source],
  ]);
  function make(): void {
    if (least_height === undefined || widest_gap === undefined || !source) return;
    editOrTell({ 'set-barrier': { least_height, widest_gap, source } }, phrase('The barrier was not entered.'));
  }
  return (
    <>
      <Fields
        rule={draft}
        put={(change) => {
          setDraft((now) => ({ ...now, ...change }));
          return [];
        }}
      />
      <MakeButton text={phrase('Look at the barrier')} missing={missing} make={make} />
    </>
  );
}
