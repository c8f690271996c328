// What the device's languages say of the language, the units and the paper to begin with. Pure.
import type { System } from '../core/types.ts';

export type Language = 'en' | 'es';

export const isLanguage = (value: unknown): value is Language => value === 'en' || value === 'es';

/** Spanish where the device asks for it before English. */
export function languageOf(wanted: readonly string[]): Language {
  const known = wanted.map((it) => it.slice(0, 2).toLowerCase()).find(isLanguage);
  return known ?? 'en';
}

/** Where feet and letter paper are in daily use: the United States, Liberia, Myanmar (CLDR, supplemental data, `measurementSystem`
    and `paperSize`, from memory). */
const FEET = /^(US|LR|MM)$/;

/** The region of a language tag, as the device has it; a language alone is taken for where most people speak it. */
function regionOf(tag: string): string | undefined {
  try {
    return new Intl.Locale(tag).maximize().region;
  } catch {
    return undefined;
  }
}

/** The units of a new job. A device that names no region is taken to be in the United States, where this is made for; so is one that
    speaks Spanish without saying where. */
export function unitsOf(tag: string): System {
  const region = /^es$/i.test(tag) ? 'US' : regionOf(tag);
  return region === undefined || FEET.test(region) ? 'feet' : 'metres';
}
