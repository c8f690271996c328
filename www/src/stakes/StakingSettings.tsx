// How the work is staked: tapes, rod, how far stakes stand off, and what is good enough.
import type { RodScale, StakeoutRecord } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { Fold } from '../fields/Fold.tsx';
import { english, phrase, phrased, type English } from '../words/words.ts';
import { record, setRecord, stakeOrTell } from './figures.ts';

type Length = 'tape_length' | 'tape_error' | 'chord' | 'offset' | 'rod_length' | 'bottom_limit' | 'rim_limit';

const LENGTHS: [Length, English][] = [
  ['tape_length', english('Length of the tape')],
  ['tape_error', english('A tape may be read wrong by')],
  ['chord', english('A string between stakes may lie off by')],
  ['offset', english('Offset stakes clear of the top of dig')],
  ['rod_length', english('Length of the rod')],
  ['bottom_limit', english('The bottom may be off grade by')],
  ['rim_limit', english('The rim may be out of level by')],
];

const SCALES: { value: RodScale | 'units'; text: English }[] = [
  { value: 'units', text: english('As the units on the screen') },
  { value: 'feet-inches', text: english('Feet, inches and eighths') },
  { value: 'tenths', text: english('Feet, tenths and hundredths') },
  { value: 'millimetres', text: english('Millimeters') },
];

export function StakingSettings() {
  return <Fold class="part" head={phrase('Tapes, rod, and what is good enough')}>{() => <Fields />}</Fold>;
}

function Fields() {
  const now = record.value;
  if (!now) return null;
  const scale = (value: RodScale | 'units') => {
    const { rod_scale: _, ...rest } = now;
    const next: StakeoutRecord = value === 'units' ? rest : { ...rest, rod_scale: value };
    stakeOrTell({ set: next }, phrase('The rod was not changed.'));
  };
  return (
    <div class="part-body">
      <div class="pairs">
        {LENGTHS.map(([member, label]) => (
          <Figure key={member} label={phrase(label)} measure="length" value={now[member]} commit={(value) => setRecord({ [member]: value })} />
        ))}
        <Choice label={phrase('The rod is divided in')} value={now.rod_scale ?? 'units'} options={phrased(SCALES)} choose={scale} />
      </div>
      <p class="field-hint">{phrase('All of it is common practice, no source: set what your crew and the maker of the shell ask for.')}</p>
    </div>
  );
}
