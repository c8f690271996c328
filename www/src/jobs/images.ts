// The data of a site's images as one text, and as it is kept: line by line, each under a key of its own, so that versions and
// copies share what they have in common. The first line is the picture under the plan, which may be empty; each further one
// is a photograph's id and its data. The keys of a state are one text, too: with a space between them, in the order of the
// lines. Of a site without photographs both are what they were before there were any: its picture's data, and one key.

export const linesOf = (data: string): string[] => data.split('\n');

/** Keys of lines as one text. */
export const joinedKeys = (keys: readonly string[]): string => keys.join(' ');

const splitKeys = (keys: string): string[] => keys.split(' ');

/** The keys that name something. */
export const keysIn = (keys: string): string[] => splitKeys(keys).filter((key) => key !== '');

/** The data that keys name, of what is known; what is missing is left empty. */
export const imagesOf = (keys: string, known: Readonly<Record<string, string>>): string =>
  splitKeys(keys).map((key) => (key === '' ? '' : (known[key] ?? ''))).join('\n');

/** A place that keeps lines by their keys. */
export interface Lines {
  get: (key: string) => Promise<string | undefined>;
  put: (line: string, key: string) => Promise<unknown>;
}

/** The data that keys name. */
export async function readImages(keys: string, kept: Pick<Lines, 'get'>): Promise<string> {
  const lines = splitKeys(keys).map(async (key) => (key === '' ? '' : ((await kept.get(key)) ?? '')));
  return (await Promise.all(lines)).join('\n');
}

/** Keeps data whose lines may be there already; gives its keys. `before`: the keys of the same job's last state. */
export async function keepImages(data: string, before: string, kept: Lines, newKey: () => string): Promise<string> {
  const known = splitKeys(before);
  const keys = linesOf(data).map(async (line, at): Promise<string> => {
    if (line === '') return '';
    // A photograph's data never changes under its id; a picture has none.
    const key = at === 0 ? known[0] : `photograph-${line.slice(0, line.indexOf(' '))}`;
    const there = key ? await kept.get(key) : undefined;
    if (there === line && key) return key;
    const fresh = at === 0 || there !== undefined || !key ? newKey() : key;
    await kept.put(line, fresh);
    return fresh;
  });
  return joinedKeys(await Promise.all(keys));
}
