// Everything said in Spanish: the page's own words, and what the core says, by its English. Fetched when Spanish is wanted.
import words from '../../words/es.po';
import core from '../../words/core.es.po';
import sheets from '../../../crate/paper/words/es.po';
import type { Tongue } from './language.ts';

/** What the core says, and what it says in one word as the page does. */
const spoken: Tongue['words'] = { ...words, ...sheets, ...core };

/** `de el` and `a el` are one word. */
const mend = (text: string): string => text.replace(/\b([Dd]e|[Aa]) el /g, (_, before: string) => `${before.slice(0, 1)}${before.length > 1 ? 'e' : ''}l `);

interface Template {
  pattern: RegExp;
  /** Its longest stretch of own text, which is looked for first. */
  longest: string;
  names: string[];
  spanish: string;
  /** How many letters of it are its own. */
  letters: number;
}

const PLACE = /\{(\w+)\}/g;
const plain = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

function templateOf(english: string, spanish: string): Template {
  const parts = english.split(PLACE);
  const own = parts.filter((_, i) => i % 2 === 0);
  const names: string[] = [];
  const pattern = parts.map((part, i) => {
    if (i % 2 === 0) return plain(part);
    const met = names.indexOf(part);
    if (met >= 0) return `\\${met + 1}`;
    names.push(part);
    return '([^]*?)';
  });
  const longest = own.reduce((a, b) => (b.length > a.length ? b : a), '');
  return { pattern: new RegExp(`^${pattern.join('')}$`), longest, names, spanish, letters: own.join('').replace(/\P{L}/gu, '').length };
}

/** The templates of the core, those that say most first; what has no letters of its own says nothing. */
const templates: Template[] = Object.entries({ ...sheets, ...core })
  .filter((it): it is [string, string] => it[0].includes('{') && typeof it[1] === 'string')
  .map(([english, spanish]) => templateOf(english, spanish))
  .filter(({ letters }) => letters > 0)
  .sort((a, b) => b.letters - a.letters);

/** A template with fewer letters of its own may fit what it was not made for: it counts only where all its values are known. */
const FEW = 9;

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

/** A figure is the same in every language. */
const isFigure = (text: string): boolean => !/\p{L}{3}/u.test(text);

/** A text as it stands in the catalogue, by the template it was made from, or by its sentences or clauses; nothing where it is not known. */
function understood(text: string): string | undefined {
  if (isFigure(text)) return exact(text) ?? text;
  return exact(text) ?? byTemplate(text) ?? bySentences(text) ?? byClauses(text);
}

function byTemplate(text: string): string | undefined {
  for (const { pattern, longest, names, spanish, letters } of templates) {
    const values = text.includes(longest) ? pattern.exec(text)?.slice(1) : undefined;
    if (!values || (letters < FEW && values.some((it) => it !== '' && understood(it) === undefined))) continue;
    const whole = mend(spanish.replace(PLACE, (_, name: string) => heard(values[names.indexOf(name)] ?? '')));
    // A sentence begins as the English one does.
    return /^\p{Lu}/u.test(text) ? capital(whole) : whole;
  }
  return undefined;
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
  for (const between of ['; ', ', ', ' and ']) {
    const clauses = text.split(between);
    const said = clauses.length < 2 ? [] : clauses.map(understood);
    if (said.length > 0 && !said.includes(undefined)) return said.join(between === ' and ' ? ' y ' : between);
  }
  return undefined;
}

export const spanish: Tongue = { words, mend, heard };
