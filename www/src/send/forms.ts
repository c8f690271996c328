// What is taken away: three kinds of file, of what is looked at.
import type { ShownYard } from '../paper/messages.ts';

export type Kind = 'picture' | 'sheet' | 'page';

/** What it ends in, and what a browser calls it. */
export const FORMS: Record<Kind, [ending: string, type: string]> = {
  picture: ['png', 'image/png'],
  sheet: ['pdf', 'application/pdf'],
  page: ['html', 'text/html'],
};

/** What is looked at. */
export interface Wanted {
  yard: ShownYard;
  /** Whether it shows where else the water may lie. */
  room: boolean;
}
