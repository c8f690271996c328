// Another language for the page, chosen by hand.
import { say } from '../state/actions.ts';
import { chosenLanguage, fetchWords, language } from '../words/language.ts';
import type { Language } from '../words/region.ts';
import { phrase } from '../words/words.ts';

/** Has the page speak a language; where its words cannot be had the page stays as it is, and says so. */
export async function speak(wanted: Language): Promise<void> {
  chosenLanguage.value = wanted;
  await fetchWords();
  if (language.value !== wanted) say(phrase('The words of this language could not be loaded. Connect once, then choose it again.'), 'bad');
}
