// What can be found, and which of it a few typed words mean.

/** One thing that can be found. */
export interface Thing {
  name: string;
  /** Other words for it that may be typed, such as its English name. */
  also?: string;
  /** What sort of thing, or its value. */
  aside: string;
  /** What choosing it does. */
  does: () => void;
}

/** Small letters without accents, which few type. */
const bare = (text: string): string => text.toLowerCase().normalize('NFD').replace(/\p{M}/gu, '');

/** Those whose name has every word typed, begun at the start of a word; names that begin with the first word come first. */
export function matching(typed: string, things: Thing[]): Thing[] {
  const words = bare(typed).split(/\s+/).filter(Boolean);
  const first = words[0];
  if (first === undefined) return things;
  const found = things.filter(({ name, also = '' }) => {
    const parts = bare(`${name} ${also}`).split(/[^\p{L}\p{N}°]+/u);
    return words.every((word) => parts.some((part) => part.startsWith(word)));
  });
  const leads = ({ name }: Thing): boolean => bare(name).startsWith(first);
  return [...found.filter(leads), ...found.filter((it) => !leads(it))];
}
