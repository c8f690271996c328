// A site file made whole again where no planner is there to write it.
import type { Site } from '../core/types.ts';

/** The site file with its images' data in it. */
export function wholeText({ text, picture }: { text: string; picture: string }): string {
  if (picture === '') return text;
  const site = JSON.parse(text) as Site;
  const [under = '', ...lines] = picture.split('\n');
  if (site.picture) site.picture.data = under;
  const data = new Map(lines.map((line) => line.split(' ', 2) as [string, string]));
  for (const it of site.photographs ?? []) it.data = data.get(it.id) ?? it.data;
  return `${JSON.stringify(site, null, 2)}\n`;
}
