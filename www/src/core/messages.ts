// What page and worker say to each other.
import type { Answer, Progress, Question } from './types.ts';

/** The module to instantiate; a question about a site's text; or that an earlier one is given up. */
export type ToWorker =
  | { module: WebAssembly.Module }
  | { id: number; site: string; question: Question }
  | { cancel: number };

/** How far a question is, its answer, or why there is none. */
export type FromWorker =
  | { id: number; progress: Progress }
  | { id: number; answer: Answer }
  | { id: number; failed: string };
