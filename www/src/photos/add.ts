// Photographs from the camera or from files, on their way into the job: each is made small, waits, and goes in once somebody
// has marked on the plan where it was taken and what it shows.
import { signal } from '@preact/signals';
import type { Finding, Photograph } from '../core/types.ts';
import { newId } from '../jobs/model.ts';
import { shrink, type Aim, type Refusal } from '../picture/shrink.ts';
import { pickStretch } from '../plan/pick.ts';
import { editOrTell } from '../state/actions.ts';
import { say } from '../state/refresh.ts';
import { sheet, site, trouble } from '../state/store.ts';
import { chosenPhotograph } from './door.ts';
import { toPlan } from './edits.ts';
import { whenTaken } from './exif.ts';
import { preview } from './preview.ts';
import { phrase } from '../words/words.ts';

/** Within what the core keeps of one (`site::photograph`), with what base64 may round up. */
const AIM: Aim = {
  bytes: 249_000,
  sides: [1600, 1280, 1024, 800, 640],
  qualities: [0.85, 0.75, 0.6, 0.45],
  forms: ['image/jpeg'],
};

/** As many as a job keeps (`site::limits`). */
export const MOST = 60;

/** What is small already, and waits for its place. */
export interface Waiting {
  id: string;
  name: string;
  when: string;
  data: string;
  width: number;
  height: number;
}

export const waiting = signal<readonly Waiting[]>([]);

/** How many files are being made small. */
export const reading = signal(0);

const notRead = (): Refusal => ({
  message: phrase('The photograph could not be read from the device.'),
  remedy: phrase('Check that it is still there, then add it again.'),
});

const tooMany = (): Refusal => ({
  message: phrase('A job keeps at most {most} photographs.', { most: MOST }),
  remedy: phrase('Remove those that show the least, then add it again.'),
});

const finding = (name: string, { message, remedy }: Refusal): Finding => ({
  severity: 'fault',
  code: 'photograph',
  pointer: name,
  topic: 'clearances',
  scope: 'site',
  at: null,
  message,
  remedy,
});

/** Takes files in, one after the other. */
export async function takeIn(files: readonly File[]): Promise<void> {
  const refused: Finding[] = [];
  reading.value += files.length;
  for (const file of files) {
    const came = await small(file);
    reading.value -= 1;
    if ('message' in came) refused.push(finding(file.name, came));
    else waiting.value = [...waiting.value, came];
  }
  if (refused.length > 0) trouble.value = { title: phrase('Not every photograph was taken in.'), findings: refused };
  if (waiting.value.length > 0) await placeWaiting();
}

async function small(file: File): Promise<Waiting | Refusal> {
  const there = (site.peek()?.photographs?.length ?? 0) + waiting.peek().length;
  if (there >= MOST) return tooMany();
  try {
    const when = whenTaken(new Uint8Array(await file.slice(0, 131_072).arrayBuffer()));
    const shrunk = await shrink(file, AIM);
    if ('message' in shrunk) return shrunk;
    const { data, width, height } = shrunk;
    return { id: newId(), name: file.name, when, data, width, height };
  } catch (error) {
    console.warn('a photograph could not be read', error);
    return notRead();
  }
}

/** Has every photograph that waits be put on the plan; those that nobody places go on waiting. */
export async function placeWaiting(): Promise<void> {
  const all = waiting.value.length;
  await toPlan();
  for (let done = 1; waiting.value.length > 0; done += 1) {
    const [next] = waiting.value;
    if (!next) break;
    const away = preview(next.data);
    const stretch = await pickStretch(
      all > 1
        ? phrase('Photograph {number} of {all}: mark where you stood, then what the photograph shows', { number: done, all })
        : phrase('Mark where you stood, then what the photograph shows'),
    );
    away();
    if (!stretch) {
      sheet.value = 'photographs';
      return;
    }
    if (!put(next, stretch)) return;
  }
  say(phrase('The photographs are pinned to the plan. A tap on a pin shows one.'), 'good');
}

function put({ name: _, ...of }: Waiting, { at, bearing }: Pick<Photograph, 'at'> & { bearing: number }): boolean {
  const added = editOrTell({ photographs: { add: [{ ...of, at, bearing, note: '' }] } }, phrase('The photograph was not added.'));
  if (added) {
    waiting.value = waiting.value.filter((it) => it.id !== of.id);
    chosenPhotograph.value = of.id;
  }
  return added;
}

/** Lets go of what waits. */
export function discardWaiting(): void {
  waiting.value = [];
}
