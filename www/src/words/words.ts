// What the page says, in the language that is chosen. English stands at the place of use and is the key to every other
// wording (`words/es.po`); a text that has none stays English. Whatever is said while something is painted is said anew when
// another language is chosen.
import type { ComponentChildren } from 'preact';
import type { English, Places, Template } from './english.ts';
import { language, tongue } from './language.ts';

export { english, inEnglish, type English } from './english.ts';

type Value = string | number;
/** The values of places, where there are any. */
type Given<P extends string, V = Value> = [P] extends [never] ? [] : [values: Record<P, V>];

const PLACE = /\{(\w+)\}/g;

/** A text in the language chosen, with its values. */
export function phrase<const T extends string>(text: T, ...values: Given<Places<T>>): string;
export function phrase(text: English): string;
export function phrase<P extends string>(text: Template<P>, values: Record<P, Value>): string;
export function phrase(text: unknown, values?: Record<string, Value>): string {
  const said = tongue.value?.words[text as string];
  return put(typeof said === 'string' ? said : (text as string), values);
}

/** So many of something, by the language's own rule: `{n}` is how many. */
export function count<const T extends string>(n: number, one: string, many: T, ...values: Given<Exclude<Places<T>, 'n'>>): string;
export function count(n: number, one: string, many: string, values?: Record<string, Value>): string {
  const single = new Intl.PluralRules(language.value).select(n) === 'one';
  const said = tongue.value?.words[one];
  const text = Array.isArray(said) ? said[single ? 0 : 1] : single ? one : many;
  return put(text, { ...values, n: n.toLocaleString(tag()) });
}

/** What the core says, by its English. A text that is somebody's own comes back as it is. */
export const heard = (text: string): string => tongue.value?.heard(text) ?? text;

/** A text with more than words in its places: a figure in bold, a button. */
export function woven<const T extends string>(text: T, values: Record<Places<T>, ComponentChildren>): ComponentChildren[];
export function woven<P extends string>(text: Template<P>, values: Record<P, ComponentChildren>): ComponentChildren[];
export function woven(text: unknown, values: Record<string, ComponentChildren>): ComponentChildren[] {
  return phrase(text as English).split(PLACE).map((part, i) => (i % 2 ? values[part] : part));
}

/** What may be chosen, its words in the language chosen. */
export const phrased = <T extends { readonly text: English }>(options: readonly T[]): (Omit<T, 'text'> & { text: string })[] =>
  options.map((it) => ({ ...it, text: phrase(it.text) }));

/** The language as the browser's own formats want it. */
export const tag = (): string => `${language.value}-US`;

function put(text: string, values?: Record<string, Value>): string {
  if (!values) return text;
  const whole = text.replace(PLACE, (_, name: string) => String(values[name] ?? ''));
  return tongue.value?.mend(whole) ?? whole;
}
