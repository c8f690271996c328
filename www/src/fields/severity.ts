// How bad a finding is, in a word.
import type { Finding } from '../core/types.ts';
import { english, type English } from '../words/words.ts';

export const SEVERITY: Record<Finding['severity'], English> = { fault: english('Fault'), caution: english('Caution'), note: english('Note') };
