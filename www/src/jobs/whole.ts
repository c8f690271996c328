// A site file made whole again where no planner is there to write it.
import type { Site } from '../core/types.ts';

/** The site file with its picture's data in it. */
export function wholeText({ text, picture }: { text: string; picture: string }): string {
  if (picture === '') return text;
  const site = JSON.parse(text) as Site;
  if (site.picture) site.picture.data = picture;
  return `${JSON.stringify(site, null, 2)}\n`;
}
