// Why something could not be kept on this device, in the words of who reads it.
import { english, type English } from '../words/words.ts';

export type TroubleKind = 'full' | 'refused' | 'failed';

/** What kind of trouble an error of the browser's database is. */
export function kindOf(error: unknown): TroubleKind {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  const inner = typeof error === 'object' && error !== null && 'inner' in error ? kindOf(error.inner) : undefined;
  if (name === 'QuotaExceededError' || inner === 'full') return 'full';
  if (REFUSED.has(name) || error instanceof ReferenceError || error instanceof TypeError) return 'refused';
  return 'failed';
}

const REFUSED = new Set(['SecurityError', 'InvalidStateError', 'NotAllowedError', 'UnknownError', 'VersionError']);

export const TROUBLE_WORDS: Record<TroubleKind, English> = {
  full: english('The storage on this device is full: the latest work is not kept. Save it as a file, or delete jobs you no longer need.'),
  refused:
    english('This browser keeps nothing on this device (a private window, or storage is turned off). Close the tab and the work is gone: save it as a file.'),
  failed: english('The latest work could not be kept on this device. Save it as a file.'),
};
