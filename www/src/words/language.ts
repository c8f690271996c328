// The language of the page: as chosen on this device, or as the device has it. Words in Spanish are fetched when Spanish is
// first wanted; until they are there the page stays English. Before the first painting `public/theme.js` has told the browser.
import { computed, effect, signal } from '@preact/signals';
import { remembered } from '../state/device.ts';
import { isLanguage, languageOf, type Language } from './region.ts';

/** What Spanish brings along: see `spanish.ts`. */
export interface Tongue {
  /** The wording of each English text; of one that counts, for one and for many. */
  words: Readonly<Record<string, string | readonly string[]>>;
  /** A sentence with its values in it, as it is written. */
  mend: (text: string) => string;
  /** What the core said in English. */
  heard: (text: string) => string;
}

/** What may be chosen, each in its own words. */
export const LANGUAGES: readonly { value: Language; text: string }[] = [
  { value: 'en', text: 'English' },
  { value: 'es', text: 'Español' },
];

export const chosenLanguage = remembered<Language>('language', languageOf(globalThis.navigator?.languages ?? []), isLanguage);

const fetched = signal<Tongue | null>(null);

/** The words in use; `null` in English. */
export const tongue = computed(() => (chosenLanguage.value === 'es' ? fetched.value : null));

/** The language that the page speaks now. */
export const language = computed<Language>(() => (tongue.value ? 'es' : 'en'));

/** Fetches the words that are wanted; the page stays English where they cannot be had. */
export async function fetchWords(): Promise<void> {
  if (chosenLanguage.value !== 'es' || fetched.value) return;
  try {
    fetched.value = (await import('./spanish.ts')).spanish;
  } catch (why) {
    console.error(why);
    chosenLanguage.value = 'en';
  }
}

effect(() => void (chosenLanguage.value === 'es' && fetchWords()));
effect(() => {
  if (typeof document !== 'undefined') document.documentElement.lang = chosenLanguage.value;
});
