// Which figures of the register are meant, and the list of changes as it is written. Pure.

import { everyWord } from '../find/words.ts';

interface Told {
  group: string;
  name: string;
  source: string;
}

/** The figures in whose name, heading or source every typed word stands. */
export function found<T extends Told>(all: readonly T[], typed: string): T[] {
  const has = everyWord(typed);
  return all.filter(({ group, name, source }) => has(`${group} ${name} ${source}`));
}

/** Figures under their headings, in the order in which they come. */
export function grouped<T extends Told>(all: readonly T[]): [string, T[]][] {
  const groups = new Map<string, T[]>();
  for (const it of all) groups.set(it.group, [...(groups.get(it.group) ?? []), it]);
  return [...groups];
}

/** The headings of a list of changes, each with its rows: `## heading` and `- row`, a row running on in lines that are set in. */
export function readChanges(text: string): [string, string[]][] {
  const all: [string, string[]][] = [];
  for (const line of text.split('\n')) {
    const rows = all.at(-1)?.[1];
    if (line.startsWith('## ')) all.push([line.slice(3), []]);
    else if (line.startsWith('- ')) rows?.push(line.slice(2));
    else if (line.startsWith('  ') && rows && rows.length > 0) rows.push(`${rows.pop()} ${line.trim()}`);
  }
  return all;
}
