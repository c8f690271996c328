// How the work is staked: tapes, rod, how far stakes stand off, and what is good enough.
import type { RodScale, StakeoutRecord } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { Fold } from '../fields/Fold.tsx';
import { record, setRecord, stakeOrTell } from './figures.ts';

type Length = 'tape_length' | 'tape_error' | 'chord' | 'offset' | 'rod_length' | 'bottom_limit' | 'rim_limit';

const LENGTHS: [Length, string][] = [
  ['tape_length', 'Length of the tape'],
  ['tape_error', 'A tape may be read wrong by'],
  ['chord', 'A string between stakes may lie off by'],
  ['offset', 'Offset stakes clear of the top of dig'],
  ['rod_length', 'Length of the rod'],
  ['bottom_limit', 'The bottom may be off grade by'],
  ['rim_limit', 'The rim may be out of level by'],
];

const SCALES: { value: RodScale | 'units'; text: string }[] = [
  { value: 'units', text: 'As the units on the screen' },
  { value: 'feet-inches', text: 'Feet, inches and eighths' },
  { value: 'tenths', text: 'Feet, tenths and hundredths' },
  { value: 'millimetres', text: 'Millimeters' },
];

export function StakingSettings() {
  return <Fold class="part" head="Tapes, rod, and what is good enough">{() => <Fields />}</Fold>;
}

function Fields() {
  const now = record.value;
  if (!now) return null;
  const scale = (value: RodScale | 'units') => {
    const { rod_scale: _, ...rest } = now;
    const next: StakeoutRecord = value === 'units' ? rest : { ...rest, rod_scale: value };
    stakeOrTell({ set: next }, 'The rod was not changed.');
  };
  return (
    <div class="part-body">
      <div class="pairs">
        {LENGTHS.map(([member, label]) => (
          <Figure key={member} label={label} measure="length" value={now[member]} commit={(value) => setRecord({ [member]: value })} />
        ))}
        <Choice label="The rod is divided in" value={now.rod_scale ?? 'units'} options={SCALES} choose={scale} />
      </div>
      <p class="field-hint">All of it is common practice, no source: set what your crew and the maker of the shell ask for.</p>
    </div>
  );
}
