// The sides of the lot while they are being typed. Courses that do not make a lot yet (one is missing, one still
// has the wrong bearing) are kept here, and the lot in use stays as it was until they do.
import { signal } from '@preact/signals';
import type { Course, Finding, LotRecord } from '../core/types.ts';
import { edit } from '../state/actions.ts';
import { site } from '../state/store.ts';

interface Draft {
  /** The lot it began from: another lot in use ends the draft. */
  from: LotRecord;
  lot: LotRecord;
  /** Why it is not in use yet. */
  findings: Finding[];
}

const draft = signal<Draft | null>(null);

/** The draft, unless the lot in use has changed under it. */
export function openDraft(): Draft | null {
  const now = draft.value;
  return now && now.from === site.value?.lot ? now : null;
}

/** Drops what is not in use. */
export function dropDraft(): void {
  draft.value = null;
}

/** Puts a lot in use, or keeps it as a draft when it makes no lot yet. Never refuses: what bars it is told
    with the draft. */
export function put(lot: LotRecord): void {
  const findings = edit({ 'set-lot': lot });
  const from = site.value?.lot;
  draft.value = findings.length > 0 && from ? { from, lot, findings } : null;
}

/** The same with other courses. */
export function putCourses(lot: LotRecord, courses: Course[]): void {
  put({ ...lot, courses });
}
