// What this device remembers of how the page is arranged: sizes, folds, pinned figures. Nothing of a job.
import { effect, signal, type Signal } from '@preact/signals';

/** A signal that starts as this device remembers it and is remembered whenever it changes; `otherwise` where nothing,
    or nothing that `fits`, is remembered. Where storage is refused it is an ordinary signal. */
export function remembered<T>(name: string, otherwise: T, fits: (value: unknown) => value is T): Signal<T> {
  const it = signal(recalled(name, otherwise, fits));
  effect(() => {
    const text = JSON.stringify(it.value);
    try {
      if (text === JSON.stringify(otherwise)) localStorage.removeItem(name);
      else localStorage.setItem(name, text);
    } catch {
      // It holds until the page is left.
    }
  });
  return it;
}

function recalled<T>(name: string, otherwise: T, fits: (value: unknown) => value is T): T {
  try {
    const text = localStorage.getItem(name);
    const value: unknown = text === null ? otherwise : JSON.parse(text);
    return fits(value) ? value : otherwise;
  } catch {
    return otherwise;
  }
}

export const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
export const isFlag = (value: unknown): value is boolean => typeof value === 'boolean';
export const isWords = (value: unknown): value is string[] =>
  Array.isArray(value) && value.every((it) => typeof it === 'string');
