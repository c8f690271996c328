// No string of the page is left behind: what a person sees or hears goes through the catalogue, and the catalogue has its Spanish.
import { expect, test } from 'vitest';
import core from '../../words/core.es.po';
import page from '../../words/es.po';
import sheets from '../../../crate/paper/words/es.po';
import changes from '../about/changes.md?raw';
import { FACET_KINDS, FEATURE_KINDS, FEATURE_PARTS, LINE_KINDS, MONUMENT_KINDS, MONUMENT_STATES } from '../core/lists.ts';
import { askedIn, bareIn, SOURCES } from './testing/sources.ts';

/** What stands in the code as it is shown, and why; each has to be there. */
const AS_IT_IS: [why: string, text: RegExp][] = [
  ['names of the program, of letters and of licenses', /^(batterboard( …)?|Barlow|SIL Open Font License( 1\.1)?)$/],
  ['languages, each in its own words, and words to find them by', /^(English|Español|English \/ Español|language idioma)$/],
  ['the sign of a unit', /^ft$/],
  ['the core reads lots, walks, deeds and lists as they are written in English', /^(corner )?lot \d+ by|^forward \d|^N 89°15'30"|^1, 5000\.00/],
  ['names that the browser gives its faults, locks and keys', /^(\w+Error|batterboard job ?|Home|true)$/],
  ['places in the ledger, states of a search, what a body is made of', /^(verdict|clearances|cost|under way|tree crown|tree trunk|overhead line|buried line|spoil pile)$/],
  ['what style sheets, content policies and selectors are written in', /^(translate\(|input, textarea|[\w-]+-(src|uri|action) |.*sans-serif$|'Iowan)/],
  ['what the core calls a job that nobody has named', /^New job$/],
  ['told to whoever looks into a fault', /^the worker could not answer$/],
];

test('whatever a person sees or hears is said through the catalogue', { timeout: 60_000 }, () => {
  expect(SOURCES.length).toBeGreaterThan(200);
  const left: string[] = [];
  const used = new Set<string>();
  for (const [file, text] of SOURCES) {
    for (const bare of bareIn(file, text)) {
      const [why] = AS_IT_IS.find(([, form]) => form.test(bare)) ?? [];
      if (why === undefined) left.push(`${file}: ${bare}`);
      else used.add(why);
    }
  }
  expect(left).toEqual([]);
  expect([...used].sort()).toEqual(AS_IT_IS.map(([why]) => why).sort());
});

test('text that is not said is found wherever it stands', () => {
  const found = (text: string): string[] => bareIn('a.tsx', text);
  expect(found('const it = <p>Place a shell</p>;')).toEqual(['Place a shell']);
  expect(found('const it = <input placeholder="none" />;')).toEqual(['none']);
  expect(found('const it = <b aria-label={`Side ${n}`} />;')).toEqual(['Side …']);
  expect(found("const it = <b>{on ? 'shown' : hidden}</b>;")).toEqual(['shown']);
  expect(found("say('The plan is locked.');")).toEqual(['The plan is locked.']);
  expect(found("const NAMES = { rim: 'Rim, outside' };")).toEqual(['Rim, outside']);
  expect(found('const it = `${many} lines have faults`;')).toEqual(['… lines have faults']);
  expect(found("const it = <p class=\"a b\">{phrase('Said')}{count(n, 'One of it', 'Some of it')}</p>;")).toEqual([]);
});

const asked = SOURCES.flatMap(([file, text]) => askedIn(file, text));
const placesOf = (text: string): string[] => [...new Set([...text.matchAll(/\{(\w+)\}/g)].map((it) => it[1] ?? ''))].sort();

test('every text of the page has its Spanish, with the same places', () => {
  expect(asked.length).toBeGreaterThan(1500);
  const faults: string[] = [];
  for (const { file, one, many } of asked) {
    const said = page[one];
    const fault = (what: string): number => faults.push(`${file}: ${one}: ${what}`);
    if (said === undefined) fault('no Spanish');
    else if (many === undefined) {
      if (typeof said !== 'string' || said === '') fault('no wording');
      else if (String(placesOf(said)) !== String(placesOf(one))) fault(`other places: ${said}`);
    } else if (typeof said === 'string' || said.length !== 2 || said.includes('')) fault('needs two wordings, for one and for many');
    else if (said.some((it) => String(placesOf(it)) !== String(placesOf(many)))) fault(`other places: ${String(said)}`);
  }
  expect(faults).toEqual([]);
});

test('no wording stands in the catalogue that nobody asks for', () => {
  const known = new Set(asked.map((it) => it.one));
  expect(Object.keys(page).filter((it) => !known.has(it))).toEqual([]);
});

/** Texts of the core, as they stand in its code. */
const CORE = Object.values(import.meta.glob<string>('../../../crate/{core,web,web-paper,paper}/src/**/*.rs', { query: '?raw', import: 'default', eager: true }))
  .join('\n')
  // A text may run on in the next line.
  .replace(/\\\n\s*/g, '');

/** What stands between quotes there, which is looked through first: the code is five times as long. */
const QUOTED = (CORE.match(/"(?:[^"\\\n]|\\.)*"/g) ?? []).join('\n');

/** All sources are read, on a busy machine too, milliseconds. */
const PATIENCE = 60_000;

test('what the catalogue has of the core is what the core says', { timeout: PATIENCE }, () => {
  const stands = (text: string): boolean => QUOTED.includes(text) || CORE.includes(text);
  // Between its places every stretch of it has to stand in the code; sentences that are made of several stand there in pieces.
  const inCode = (text: string): boolean => text.split(/\{\w+\}/).every((it) => stands(it.replaceAll('\\', '\\\\').replaceAll('"', '\\"')));
  const kinds = new Set(KINDS.map(capital));
  const unknown = Object.keys(core).filter((it) => !inCode(it) && !kinds.has(it) && !changes.includes(`- ${it}`));
  expect(unknown).toEqual([]);
  const faults = Object.entries(core).filter(([one, said]) => typeof said !== 'string' || said === '' || String(placesOf(one)) !== String(placesOf(said)));
  expect(faults).toEqual([]);
});

const capital = (kind: string): string => {
  const words = kind.replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
};
const KINDS: readonly string[] = [...FACET_KINDS, ...FEATURE_KINDS, ...FEATURE_PARTS, ...LINE_KINDS, ...MONUMENT_KINDS, ...MONUMENT_STATES];

test('every kind that is chosen from a list has its Spanish', () => {
  expect(KINDS.map(capital).filter((it) => core[it] === undefined && page[it] === undefined)).toEqual([]);
});

test('the news are told in Spanish too', () => {
  const rows = changes.split('\n').filter((it) => it.startsWith('- ')).map((it) => it.slice(2));
  expect(rows.length).toBeGreaterThan(3);
  expect(rows.filter((it) => core[it] === undefined)).toEqual([]);
});

test('what sheets have of the core is said there and here in the same words', () => {
  expect(Object.keys(core).filter((it) => sheets[it] !== undefined)).toEqual([]);
});
