// Everything said in Spanish: the page's own words, and what the core says, by its English. Fetched when Spanish is wanted.
import page from '../../words/es.po';
import core from '../../words/core.es.po';
import sheets from '../../../crate/paper/words/es.po';
import type { Tongue } from './language.ts';

const words: Tongue['words'] = { ...sheets, ...core, ...page };

/** `de el` and `a el` are one word. */
const mend = (text: string): string => text.replace(/\b(de|a) el /gi, '$1l ').replace(/\b(de|a) El /g, '$1l ');

interface Template {
  pattern: RegExp;
  names: string[];
  spanish: string;
  /** How many letters of it are its own. */
  letters: number;
}

const PLACE = /\{(\w+)\}/g;
const plain = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** The templates of the core, those that say most first. */
const templates: Template[] = Object.entries<string | readonly string[]>({ ...sheets, ...core })
  .filter((it): it is [string, string] => it[0].includes('{') && typeof it[1] === 'string')
  .map(([english, spanish]) => {
    const parts = english.split(PLACE);
    const names: string[] = [];
    const pattern = parts.map((part, i) => {
      if (i % 2 === 0) return plain(part);
      const met = names.indexOf(part);
      if (met >= 0) return `\\${met + 1}`;
      names.push(part);
      return '([^]*?)';
    });
    const letters = parts.filter((_, i) => i % 2 === 0).join('').replace(/\P{L}/gu, '').length;
    return { pattern: new RegExp(`^${pattern.join('')}$`), names, spanish, letters };
  })
  .sort((a, b) => b.letters - a.letters);

/** A template with fewer letters of its own fits what it was not made for: it counts only where all its values are known words. */
const FEW = 9;

const met = new Map<string, string>();

/** What the core said, in Spanish: the text as it is, else by the template that it was made from. What fits none is
    somebody's own, or has no Spanish yet: it stays. */
function heard(text: string): string {
  const known = met.get(text);
  if (known !== undefined) return known;
  const found = listen(text);
  if (met.size > 4000) met.clear();
  met.set(text, found);
  return found;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function exact(text: string): string | undefined {
  const said = words[text];
  if (typeof said === 'string') return said;
  const low = text.charAt(0).toLowerCase() + text.slice(1);
  const small = low !== text && words[low];
  return typeof small === 'string' ? capital(small) : undefined;
}

/** Whether a text is no words at all, but a figure. */
const figure = (text: string): boolean => !/\p{L}{3}/u.test(text);

function listen(text: string): string {
  const said = exact(text);
  if (said !== undefined || figure(text)) return said ?? text;
  for (const { pattern, names, spanish, letters } of templates) {
    if (letters === 0) break;
    const values = pattern.exec(text)?.slice(1);
    if (!values) continue;
    if (letters < FEW && !values.every((it) => figure(it) || exact(it) !== undefined)) continue;
    const put = (_: string, name: string): string => heard(values[names.indexOf(name)] ?? '');
    const whole = mend(spanish.replace(PLACE, put));
    // A sentence begins as the English one does.
    return /^\p{Lu}/u.test(text) ? capital(whole) : whole;
  }
  return text;
}

export const spanish: Tongue = { words, mend, heard };
