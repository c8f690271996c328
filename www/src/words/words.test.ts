import { afterEach, expect, test } from 'vitest';
import { chosenLanguage, fetchWords, language } from './language.ts';
import { languageOf, unitsOf } from './region.ts';
import { count, english, heard, phrase, phrased, tag, woven } from './words.ts';

afterEach(() => {
  chosenLanguage.value = 'en';
});

const inSpanish = async (): Promise<void> => {
  chosenLanguage.value = 'es';
  await fetchWords();
};

test('English is the text itself, with its values', () => {
  expect(phrase('Try again')).toBe('Try again');
  expect(phrase('Page {number} of {all}', { number: 1, all: 3 })).toBe('Page 1 of 3');
  expect(heard('Septic tank')).toBe('Septic tank');
  expect(tag()).toBe('en-US');
});

test('another language says the same texts, and going back says English again', async () => {
  await inSpanish();
  expect(language.value).toBe('es');
  expect(phrase('Try again')).toBe('Probar otra vez');
  expect(phrase('Page {number} of {all}', { number: 1, all: 3 })).toBe('Página 1 de 3');
  expect(phrase(english('Sunlight'))).toBe('Luz de sol');
  expect(phrased([{ value: 1, text: english('Sunlight') }])).toEqual([{ value: 1, text: 'Luz de sol' }]);
  expect(heard('Septic tank')).toBe('Fosa séptica');
  chosenLanguage.value = 'en';
  expect(phrase('Try again')).toBe('Try again');
});

test('what counts follows the rule of the language', async () => {
  const pages = (n: number): string => count(n, '{n} page', '{n} pages');
  expect([0, 1, 2, 1200].map(pages)).toEqual(['0 pages', '1 page', '2 pages', '1,200 pages']);
  await inSpanish();
  expect([0, 1, 2, 1200].map(pages)).toEqual(['0 páginas', '1 página', '2 páginas', '1,200 páginas']);
});

test('a place may hold more than words', () => {
  const bold = { type: 'b' } as never;
  expect(woven('On {mark}, {elevation}: height of instrument {instrument}.', { mark: 'nail', elevation: '100 ft', instrument: bold })).toEqual([
    'On ', 'nail', ', ', '100 ft', ': height of instrument ', bold, '.',
  ]);
});

test('a value with braces stays as it is', () => {
  expect(phrase('{name} was deleted.', { name: '{name} {n}' })).toBe('{name} {n} was deleted.');
});

test('the language of the page is the first that it knows of those the device asks for', () => {
  expect(languageOf(['es-MX', 'en-US'])).toBe('es');
  expect(languageOf(['en-US', 'es-MX'])).toBe('en');
  expect(languageOf(['fr-CA', 'es'])).toBe('es');
  expect(languageOf(['fr-CA'])).toBe('en');
  expect(languageOf([])).toBe('en');
});

test('units follow the region: feet in the United States, Liberia and Myanmar, meters elsewhere', () => {
  expect(['en-US', 'es-US', 'en-LR', 'my-MM', 'my'].map(unitsOf)).toEqual(Array(5).fill('feet'));
  expect(['es-MX', 'es-ES', 'de', 'en-GB', 'fr-CA', 'en-AU'].map(unitsOf)).toEqual(Array(6).fill('metres'));
  // A language that names no region.
  expect(['en', 'es', '', 'no tag at all'].map(unitsOf)).toEqual(Array(4).fill('feet'));
});
