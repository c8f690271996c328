// How the page is arranged on this device: how wide its columns are, what is folded, what is pinned.
import { isFlag, isNumber, isWords, remembered } from './device.ts';

/** Width of the open step's panel and of the ledger beside the plan, css pixels. */
export const panelWidth = remembered('panel-width', 300, isNumber);
export const ledgerWidth = remembered('ledger-width', 332, isNumber);

/** Narrowest and widest that a column is dragged to, css pixels. */
export const COLUMN = { least: 260, most: 520 } as const;

/** Where the screen is wide, the ledger is folded away and the plan has its room. */
export const ledgerFolded = remembered('ledger-folded', false, isFlag);

/** Clear ground is shown on the plan, and not only while the shell is in the hand. */
export const clearGroundShown = remembered('clear-ground-shown', false, isFlag);

/** The groups of quantities that are open, by name. */
export const openGroups = remembered('open-groups', [], isWords);

/** The figures in the band, by key, in their order. */
export const pins = remembered('pinned-figures', ['least-room', 'bank-cut', 'loads', 'stone', 'concrete', 'cost'], isWords);

/** So many figures find room in the band. */
export const MOST_PINS = 8;
