// All jobs as one file, the door to it: a file is known at once, what writes and reads one is fetched when it is first wanted.
import { say } from '../state/refresh.ts';
import { phrase } from '../words/words.ts';

export const FORMAT = 'batterboard-jobs';

/** Whether a text is a file of jobs; it need not be whole. */
export const isJobsFile = (text: string): boolean =>
  new RegExp(`^\\s*\\{\\s*"format"\\s*:\\s*"${FORMAT}"`).test(text.slice(0, 400));

/** Gives the user every job in one file. */
export const saveAll = async (): Promise<void> => (await fetched())?.saveAll();

/** Takes the jobs of a file into the list. */
export const bringIn = async (text: string, called: string): Promise<void> => (await fetched())?.bringIn(text, called);

async function fetched() {
  try {
    return await import('./exchange.ts');
  } catch (error) {
    console.warn('what writes and reads files of jobs could not be loaded', error);
    say(phrase('This part of the planner could not be loaded. Connect once, then try again.'), 'bad');
    return undefined;
  }
}
