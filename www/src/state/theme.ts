// How the page is colored: as chosen on this device, or as the device is set. Before the first painting `public/theme.js` has done the same.
import { computed, effect, signal } from '@preact/signals';
import { colorPlan } from '../core/planner.ts';
import { askForFrame } from '../plan/frame.ts';
import { english, type English } from '../words/words.ts';
import { remembered } from './device.ts';

export type Theme = 'light' | 'dark' | 'strong' | 'sunlight';
export type Colors = 'device' | Theme;

/** What may be chosen, in the words of the menu. */
export const COLORS: readonly { value: Colors; text: English }[] = [
  { value: 'device', text: english('As the device') },
  { value: 'light', text: english('Light') },
  { value: 'dark', text: english('Dark') },
  { value: 'strong', text: english('Strong contrast') },
  { value: 'sunlight', text: english('Sunlight') },
];

const isColors = (value: unknown): value is Colors => COLORS.some((it) => it.value === value);

export const colors = remembered<Colors>('colors', 'device', isColors);

/** Whether the device asks for something, as long as the page is open. */
function asked(query: string) {
  const media = matchMedia(query);
  const it = signal(media.matches);
  media.addEventListener('change', () => (it.value = media.matches));
  return it;
}

const dark = asked('(prefers-color-scheme: dark)');
const contrast = asked('(prefers-contrast: more)');

export const theme = computed<Theme>(() =>
  colors.value !== 'device' ? colors.value : contrast.value ? 'strong' : dark.value ? 'dark' : 'light',
);

effect(() => {
  document.documentElement.dataset['theme'] = theme.value;
  colorPlan(theme.value);
  askForFrame();
});
