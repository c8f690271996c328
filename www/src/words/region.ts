// What the device's languages say of the language and the units to begin with. Pure. Paper goes by the units of a job.
import type { System } from '../core/types.ts';

export type Language = 'en' | 'es';

export const isLanguage = (value: unknown): value is Language => value === 'en' || value === 'es';

/** The first language of those asked for that the page speaks. */
export const languageOf = (wanted: readonly string[]): Language => wanted.map((it) => it.slice(0, 2).toLowerCase()).find(isLanguage) ?? 'en';

/** Feet are in daily use there (CLDR, supplemental data `measurementSystem`, from memory). */
const FEET = /^(US|LR|MM)$/;

/** The region of a language tag, or the one where the language is spoken most. Neither English nor Spanish alone tells more than that
    the page is read in the United States, where it is made for. */
function regionOf(tag: string): string {
  try {
    const { language, region } = new Intl.Locale(tag);
    return region ?? (isLanguage(language) ? undefined : new Intl.Locale(tag).maximize().region) ?? 'US';
  } catch {
    return 'US';
  }
}

/** The units of a new job. */
export const unitsOf = (tag: string): System => (FEET.test(regionOf(tag)) ? 'feet' : 'metres');
