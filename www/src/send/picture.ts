// One picture to send: the yard, and under it in words what is seen, whether it fits, and who decides. Its size is good for
// a print of 8 by 10 in and for a message.
import type { YardView } from '../paper/messages.ts';
import { phrase } from '../words/words.ts';

/** Pixels across: 300 to the inch on paper 8 in wide. */
const WIDE = 2400;
const EDGE = 96;
const INK = '#16222b';
const SOFT = '#46545e';
const SHORT = '#9c2107';
const PAPER = '#fffdf6';
const SERIF = "'Iowan Old Style', 'Palatino Linotype', Palatino, 'Noto Serif', Georgia, serif";
const SANS = "system-ui, 'Segoe UI', 'Noto Sans', 'DejaVu Sans', sans-serif";

/** A line of words: its font, its color, and the room above it, pixels. */
interface Words {
  text: string;
  font: string;
  high: number;
  color: string;
  above?: number;
}

const serif = (text: string, high: number, color: string, above = 0): Words => ({ text, font: `600 ${high}px ${SERIF}`, high, color, above });
const sans = (text: string, high: number, color: string, above = 0): Words => ({ text, font: `400 ${high}px ${SANS}`, high, color, above });

/** What the picture shows, the day, and whether it shows where else the water may lie. */
export interface Shown {
  name: string;
  day: string;
  room: boolean;
}

/** What stands over the picture and under it. */
function told(view: YardView, { name, day, room }: Shown): { over: Words[]; under: Words[] } {
  const aside = [name, day, ...view.firm.slice(0, 1)].filter(Boolean).join('  ·  ');
  const facts = view.facts.map(([name, value]) => `${name} ${value}`).join('   ·   ');
  const under = [
    ...(view.fits ? [serif(view.fits, 56, view.short ? SHORT : INK, 20)] : []),
    ...view.against.map((it) => sans(`•  ${it}`, 44, SHORT, 6)),
    ...(room && view.shell ? [sans(phrase('The pale field is where the water may lie at this angle, by the rules entered so far.'), 44, INK, 14)] : []),
    ...(facts ? [sans(facts, 48, INK, 26)] : []),
    ...(view.firm.length > 0 ? [sans(view.firm.join('  ·  '), 38, SOFT, 26)] : []),
    sans(view.caution, 38, SOFT, 12),
  ];
  return { over: [serif(view.title, 84, INK), sans(aside, 44, SOFT, 10)], under };
}

/** Words in as many lines as they take. A word longer than a line is cut. */
export function lines(text: string, most: number, width: (text: string) => number): string[] {
  const found: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const longer = line ? `${line} ${word}` : word;
    if (width(longer) <= most) {
      line = longer;
      continue;
    }
    if (line) found.push(line);
    line = word;
    while (width(line) > most && line.length > 1) {
      let fits = line.length - 1;
      while (fits > 1 && width(line.slice(0, fits)) > most) fits -= 1;
      found.push(line.slice(0, fits));
      line = line.slice(fits);
    }
  }
  return line ? [...found, line] : found;
}

/** The picture as PNG. `share` is the height of the yard's drawing over its width. */
export async function pictureOf(svg: string, share: number, view: YardView, shown: Shown): Promise<Blob> {
  const high = Math.round(WIDE * share);
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const yard = new Image(WIDE, high);
    yard.src = address;
    await yard.decode();
    const canvas = document.createElement('canvas');
    const context = canvas.getContext('2d');
    if (!context) throw new Error('nothing to draw on');
    const { over, under } = told(view, shown);
    const set = (all: Words[], top: number, draws: boolean): number => {
      let y = top;
      for (const { text, font, high: size, color, above = 0 } of all) {
        context.font = font;
        context.fillStyle = color;
        y += above;
        for (const line of lines(text, WIDE - 2 * EDGE, (it) => context.measureText(it).width)) {
          y += size * 1.25;
          if (draws) context.fillText(line, EDGE, y - size * 0.28);
        }
      }
      return y;
    };
    const top = Math.round(set(over, EDGE / 2, false) + EDGE / 2);
    canvas.width = WIDE;
    canvas.height = Math.round(set(under, top + high, false) + EDGE * 0.7);
    context.fillStyle = PAPER;
    context.fillRect(0, 0, canvas.width, canvas.height);
    set(over, EDGE / 2, true);
    context.drawImage(yard, 0, top, WIDE, high);
    set(under, top + high, true);
    const made = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
    if (!made) throw new Error('the picture could not be made');
    return made;
  } finally {
    URL.revokeObjectURL(address);
  }
}
