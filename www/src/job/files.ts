// Files in and out. Nothing leaves the device except into a file that the user asked for.
import { isBroughtIn, lookAt } from '../bring/incoming.ts';
import { isBook, openBook } from '../book/shelf.ts';
import { ask, good } from '../core/planner.ts';
import { bringIn, isJobsFile } from '../jobs/together.ts';
import { wholeText } from '../jobs/whole.ts';
import { openText, refresh, say } from '../state/actions.ts';
import { ledger, trouble } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';
import { download } from './download.ts';

export { download };

/** A file larger than this is no site file of ours, bytes. */
const MOST_BYTES = 20_000_000;
/** And one larger than this no file of jobs that could be taken in at once. */
const MOST_BYTES_OF_JOBS = 400_000_000;

/** The text of a file; what bars it is told. */
export async function textOf(file: File): Promise<string | undefined> {
  const most = isJobsFile(await file.slice(0, 400).text().catch(() => '')) ? MOST_BYTES_OF_JOBS : MOST_BYTES;
  if (file.size > most) {
    refuse(file.name, phrase('The file is too large for a site.'), phrase('Open a file that this planner saved.'));
    return undefined;
  }
  const isPdf = (await file.slice(0, 5).text().catch(() => '')) === '%PDF-';
  if (isPdf) return siteOf(file);
  try {
    return await file.text();
  } catch {
    refuse(file.name, phrase('The file could not be read from the device.'), phrase('Check that it is still there, then open it again.'));
    return undefined;
  }
}

/** The site in a sheet that was saved as PDF. */
async function siteOf(file: File): Promise<string | undefined> {
  try {
    const { siteIn } = await import('../paper/press.ts');
    return await siteIn(new Uint8Array(await file.arrayBuffer()));
  } catch (why) {
    const message = why instanceof Error ? heard(why.message) : phrase('The PDF could not be read.');
    refuse(file.name, message, phrase('Open the site file itself, if it is at hand.'));
    return undefined;
  }
}

function refuse(name: string, message: string, remedy: string): void {
  trouble.value = {
    title: phrase('{name} was not opened. Your open work is as it was.', { name }),
    findings: [{ severity: 'fault', code: 'file', pointer: name, topic: 'clearances', scope: 'site', at: null, message, remedy }],
  };
}

/** Takes a file that was dropped, by what is in it: a site is opened, a map or a list is looked at. */
export async function takeDropped(file: File): Promise<void> {
  if (file.type.startsWith('image/')) {
    return refuse(file.name, phrase('This is a picture.'), phrase('Place it in the step Lot, at “Picture under the plan”.'));
  }
  const text = await textOf(file);
  if (text === undefined) return;
  if (isJobsFile(text)) await bringIn(text, file.name);
  else if (isBook(text)) await openBook(text, file.name);
  else if (isBroughtIn(text)) lookAt(text, file.name);
  else openText(text, file.name);
}

/** Opens a site file that was picked; of a file of jobs, all of them come into the list. */
export async function openFile(file: File): Promise<void> {
  const text = await textOf(file);
  if (text === undefined) return;
  if (isJobsFile(text)) await bringIn(text, file.name);
  else if (isBook(text)) await openBook(text, file.name);
  else openText(text, file.name);
}

/** Opens what was picked, and makes the picker ready to pick the same file again. */
export async function openPicked(input: HTMLInputElement): Promise<void> {
  const file = input.files?.[0];
  if (file) await openFile(file);
  input.value = '';
}

/** Opens a shell file that was picked. */
export async function openShellFile(input: HTMLInputElement): Promise<void> {
  const file = input.files?.[0];
  input.value = '';
  const text = file && (await textOf(file));
  if (!file || text === undefined) return;
  const outcome = ask((p) => p.open_shell(text), { ok: false, findings: [] });
  if (!outcome.ok) trouble.value = { title: phrase('{name} was not loaded.', { name: file.name }), findings: outcome.findings };
  refresh();
}

/** The job's name as the beginning of a file name. */
export function fileName(job = ledger.value?.name ?? ''): string {
  const name = job.toLowerCase().replace(/[^a-z0-9]+/g, '-');
  return name.replace(/^-+|-+$/g, '') || 'job';
}

/** Saves the site file. */
export function saveFile(): void {
  const text = ask((p) => p.save(), '') || wholeText(good());
  if (!text) return;
  download(text, `${fileName()}.json`, 'application/json');
  say(phrase('Saved as {name}', { name: `${fileName()}.json` }), 'good');
}
