// Everything said in Spanish: the page's own words, and what the core says, by its English. Fetched when Spanish is wanted.
import words from '../../words/es.po';
import core from '../../words/core.es.po';
import sheets from '../../../crate/paper/words/es.po';
import type { Tongue } from './language.ts';

/** What the core says, and what it says in one word as the page does. */
const spoken: Tongue['words'] = { ...words, ...sheets, ...core };

/** `de el` and `a el` are one word. */
const mend = (text: string): string => text.replace(/\b([Dd]e|[Aa]) el /g, (_, before: string) => `${before.slice(0, 1)}${before.length > 1 ? 'e' : ''}l `);

/** Places that stand side by side, with nothing or a blank between them, are one stretch of what was said: it is parted afterwards. */
interface Template {
  pattern: RegExp;
  /** Its longest stretch of own text, which is looked for first. */
  longest: string;
  stretches: { names: string[]; between: string[] }[];
  spanish: string;
  /** How many letters of it are its own. */
  letters: number;
}

const PLACE = /\{(\w+)\}/g;
const plain = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

function templateOf(english: string, spanish: string): Template {
  const parts = english.split(PLACE);
  const stretches: Template['stretches'] = [];
  const own: string[] = [parts[0] ?? ''];
  let pattern = plain(parts[0] ?? '');
  for (let i = 1; i < parts.length; i += 2) {
    const [name = '', before = '', after = ''] = [parts[i], parts[i - 1], parts[i + 1]];
    const last = stretches.at(-1);
    if (last && i > 1 && before.trim() === '') {
      last.names.push(name);
      last.between.push(before);
    } else {
      stretches.push({ names: [name], between: [] });
      pattern += '([^]*?)';
    }
    own.push(after);
    if (after.trim() !== '' || i + 2 >= parts.length) pattern += plain(after);
  }
  const longest = own.reduce((a, b) => (b.length > a.length ? b : a), '');
  return { pattern: new RegExp(`^${pattern}$`), longest, stretches, spanish, letters: own.join('').replace(/\P{L}/gu, '').length };
}

/** The templates of the core, those that say most first, and of those that say as much the ones with more places. */
const templates: Template[] = Object.entries({ ...sheets, ...core })
  .filter((it): it is [string, string] => it[0].includes('{') && typeof it[1] === 'string')
  .map(([english, spanish]) => templateOf(english, spanish))
  .sort((a, b) => b.letters - a.letters || placesOf(b) - placesOf(a));

function placesOf({ stretches }: Template): number {
  return stretches.reduce((sum, it) => sum + it.names.length, 0);
}

/** A template with fewer letters of its own may fit what it was not made for. */
const FEW = 7;

/** Whether values are those of such a template: a word of the core among them or all of them figures, none left out or cut in two, and no
    more unknown ones than known. */
function fits(values: readonly string[]): boolean {
  const known = values.filter((it) => understood(it) !== undefined).length;
  const whole = values.every((it) => it !== '' && it.split('(').length === it.split(')').length);
  return whole && (values.some(isWord) || values.every(isFigure)) && 2 * known >= values.length;
}

const met = new Map<string, string>();
/** So many texts are kept as they were understood. */
const MOST = 4000;

/** What the core said, in Spanish. What fits nothing is somebody's own, or has no Spanish yet: it stays. */
function heard(text: string): string {
  let found = met.get(text);
  if (found !== undefined) return found;
  found = understood(text) ?? text;
  if (met.size > MOST) met.clear();
  met.set(text, found);
  return found;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function exact(text: string): string | undefined {
  const said = spoken[text];
  if (typeof said === 'string') return said;
  const small = spoken[text.charAt(0).toLowerCase() + text.slice(1)];
  return typeof small === 'string' ? capital(small) : undefined;
}

/** A figure with its unit is the same in every language. */
const isFigure = (text: string): boolean => !/\p{L}{3}/u.test(text.replace(/short tons?|\b(gal|gpm|min|acres?|psi|kPa)\b/g, ''));
/** Words of the core as they stand within a sentence, or what leads a list in. */
const isWord = (text: string): boolean => (/^\p{Ll}/u.test(text) || text.endsWith(':')) && typeof spoken[text] === 'string';

/** A text as it stands in the catalogue, by the template it was made from, or by its sentences or clauses; nothing where it is not known. */
function understood(text: string): string | undefined {
  if (isFigure(text)) return exact(text) ?? text;
  return exact(text) ?? byTemplate(text) ?? inside(text) ?? bySentences(text) ?? byClauses(text) ?? byFigures(text);
}

function byTemplate(text: string): string | undefined {
  for (const { pattern, longest, stretches, spanish, letters } of templates) {
    const found = text.includes(longest) ? pattern.exec(text)?.slice(1) : undefined;
    if (!found) continue;
    const values = new Map<string, string>();
    stretches.forEach(({ names, between }, i) => {
      const parts = between.length === 0 ? [found[i] ?? ''] : parted(found[i] ?? '', between);
      names.forEach((name, k) => values.set(name, parts[k] ?? ''));
    });
    if (letters < FEW && !fits([...values.values()])) continue;
    const whole = mend(spanish.replace(PLACE, (_, name: string) => heard(values.get(name) ?? '')));
    // A sentence begins as the English one does.
    return /^\p{Lu}/u.test(text) ? capital(whole) : whole;
  }
  return undefined;
}

/** A stretch that several values share, parted so that the most of them are known. */
function parted(text: string, between: readonly string[]): string[] {
  const [first, ...rest] = between;
  if (first === undefined) return [text];
  let best: string[] = [text, ...between.map(() => '')];
  let most = -1;
  for (let at = 0; at <= text.length; at += 1) {
    const fits = first === '' ? at === text.length || /[\s,;.(]/.test(text.charAt(at)) : text.startsWith(first, at);
    if (!fits) continue;
    const parts = [text.slice(0, at), ...parted(text.slice(at + first.length), rest)];
    const known = parts.reduce((sum, it) => sum + worth(it), 0);
    // Of two that are as good the one with the longer beginning: a name may be of several words.
    if (known >= most) [best, most] = [parts, known];
  }
  return best;
}

/** How well a value is known: as it stands in the catalogue, by a template that may hold somebody's own words, or not at all, the
    shorter the better. */
function worth(value: string): number {
  if (value === '') return 2;
  return exact(value) !== undefined || isFigure(value) ? 3 : understood(value) !== undefined ? 2 : -value.length / 1000;
}

/** What stands in parentheses, or between blanks. */
function inside(text: string): string | undefined {
  const [, before = '', own = '', after = ''] = /^(\s*\(?)([^]*?)(\)?\s*)$/.exec(text) ?? [];
  if (before === '' && after === '') return undefined;
  const said = understood(own);
  return said === undefined ? undefined : before + said + after;
}

/** Sentences one after the other, each for itself; those that are not known stay. */
function bySentences(text: string): string | undefined {
  const sentences = text.split(/(?<=[.!?]) (?=\p{Lu})/u);
  if (sentences.length < 2) return undefined;
  const said = sentences.map(heard).join(' ');
  return said === text ? undefined : said;
}

/** Words in a row: known, all of them, or left as they are. */
function byClauses(text: string): string | undefined {
  for (const between of ['; ', ': ', ', ', ' and ']) {
    const clauses = text.split(between);
    const said = clauses.length < 2 ? [] : clauses.map(understood);
    if (said.length > 0 && !said.includes(undefined)) return said.join(between === ' and ' ? ' y ' : between);
  }
  return undefined;
}

/** A calculation, or a word with its figure: names and figures with signs between them, all of them known. */
function byFigures(text: string): string | undefined {
  const parts = text.split(/( x | \/ | \+ | - | = |[()]| (?=[-+−]?\d))/);
  if (parts.length < 3) return undefined;
  const said = parts.map((it, i) => (i % 2 === 1 || it === '' ? it : exact(it.trim()) ?? (isFigure(it) ? it : undefined)));
  return said.includes(undefined) ? undefined : said.join('');
}

export const spanish: Tongue = { words, mend, heard };
