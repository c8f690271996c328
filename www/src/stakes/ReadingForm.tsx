// One reading of the yard: of what, where, what was read, when and by whom.
import { useState } from 'preact/hooks';
import type { Point, ReadingOf, StakeoutFigures } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure, told } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { english, heard, phrase, phrased, type English } from '../words/words.ts';
import { record, stake } from './figures.ts';

type Kind = 'bottom' | 'rim' | 'taped';

const KINDS: { value: Kind; text: English }[] = [
  { value: 'bottom', text: english('Rod on the bottom of the dig') },
  { value: 'rim', text: english('Rod on the rim, after setting') },
  { value: 'taped', text: english('Two tapes to a stake') },
];

interface Place {
  name: string;
  words: string;
  /** Where a rod stands there, shell frame; where a stake stands, site meters. */
  at: Point;
}

function placesOf(kind: Kind, now: StakeoutFigures): Place[] {
  if (kind === 'bottom') return now.stations.map((it) => ({ name: it.name, words: phrase('{name}, {along} along', { name: it.name, along: it.along.shown.text }), at: it.in_shell }));
  if (kind === 'rim') return now.rim_stations.map((it) => ({ name: it.place, words: heard(it.place), at: it.in_shell }));
  return now.stakes.map((it) => ({ name: it.name, words: `${it.name}, ${heard(it.what)}`, at: it.at }));
}

interface Figures {
  rod?: number;
  backsight?: number | undefined;
  a?: number;
  b?: number;
}

/** The reading as far as it is entered, or what is still missing. */
function made(kind: Kind, place: Place | undefined, typed: Figures, now: StakeoutFigures): ReadingOf | string {
  const { rod, backsight, a, b } = typed;
  if (!place) return phrase('Choose the place.');
  const { name, at } = place;
  if (kind === 'taped') {
    const line = now.stakes.find((it) => it.name === name)?.line;
    if (!now.base || !line) return phrase('Choose two fixed points first.');
    if (a === undefined || b === undefined) return phrase('Enter both tapes.');
    const [from, to] = now.base.points;
    return { taped: { stake: name, line, from: [from.at, to.at], tapes: [a, b] } };
  }
  if (backsight === undefined) return phrase('Enter what the rod reads on the benchmark.');
  if (rod === undefined) return phrase('Enter what the rod reads there.');
  const reading = { place: name, at, rod, backsight };
  return kind === 'bottom' ? { bottom: reading } : { rim: reading };
}

export function ReadingForm({ now }: { now: StakeoutFigures }) {
  const [kind, setKind] = useState<Kind>('bottom');
  const [place, setPlace] = useState('');
  const [typed, setTyped] = useState<Figures>({});
  const [when, setWhen] = useState('');
  const [by, setBy] = useState('');
  const [word, setWord] = useState('');
  const places = placesOf(kind, now);
  const chosen = places.find((it) => it.name === place) ?? places[0];
  const name = chosen?.name ?? '';
  const backsight = typed.backsight ?? record.value?.backsight;
  const figure = (member: keyof Figures, label: string, value: number | undefined) => (
    <Figure
      key={member}
      label={label}
      measure="length"
      value={value}
      commit={(value) => {
        setTyped({ ...typed, [member]: value });
        return [];
      }}
    />
  );
  const add = () => {
    const of = made(kind, chosen, { ...typed, backsight }, now);
    if (typeof of === 'string') return setWord(of);
    const refused = told(stake({ 'add-reading': { of, when, by } }));
    setWord(refused ?? phrase('{name} is entered.', { name }));
    if (refused !== undefined) return;
    const { backsight: kept } = typed;
    setTyped({ backsight: kept });
    setPlace(places[places.findIndex((it) => it.name === name) + 1]?.name ?? name);
  };
  return (
    <div class="part-body reading-form">
      <div class="pairs">
        <Choice
          label={phrase('What was read')}
          value={kind}
          options={phrased(KINDS)}
          choose={(next) => {
            setKind(next);
            setTyped({});
            setWord('');
          }}
        />
        <Choice label={phrase('Where')} value={name} options={places.map((it) => ({ value: it.name, text: it.words }))} choose={setPlace} />
        {kind === 'taped' ? (
          <>
            {figure('a', phrase('Tape A, from {name}', { name: now.base ? heard(now.base.points[0].name) : phrase('the first fixed point') }), typed.a)}
            {figure('b', phrase('Tape B, from {name}', { name: now.base ? heard(now.base.points[1].name) : phrase('the second fixed point') }), typed.b)}
          </>
        ) : (
          <>
            {figure('backsight', phrase('Rod on the benchmark'), backsight)}
            {figure('rod', phrase('Rod there'), typed.rod)}
          </>
        )}
        <TextField label={phrase('When')} value={when} placeholder={phrase('Tuesday 9:40')} commit={setWhen} />
        <TextField label={phrase('Read by')} value={by} commit={setBy} />
      </div>
      <div class="buttons">
        <button type="button" class="main" onClick={add}>
          {phrase('Enter the reading')}
        </button>
        <span role="status">{word}</span>
      </div>
    </div>
  );
}
