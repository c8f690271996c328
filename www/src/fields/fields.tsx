// Fields for each sort of value. Text is read and written by the core, so that a figure means on every form
// what it means in the report.
import { ask } from '../core/planner.ts';
import type { Finding, Measure, Reading } from '../core/types.ts';
import { display } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';
import { Field } from './Field.tsx';

interface Props {
  label: string;
  measure: Measure;
  value: number | undefined;
  commit: (value: number) => Finding[];
  hint?: string;
  placeholder?: string;
  disabled?: boolean;
  /** What an emptied box means, where it may be emptied. */
  clear?: () => Finding[];
}

/** What a field says of a text while there is no planner. */
export const unread = (): Reading => ({ ok: false, message: phrase('The planner is restarting.'), remedy: phrase('Try again in a moment.'), from: 0, to: 0 });

/** What a form says when the core would not have a value. */
export function told(findings: Finding[]): string | undefined {
  if (findings.length === 0) return undefined;
  return findings.map((finding) => `${heard(finding.message)} ${heard(finding.remedy)}`.trim()).join(' ');
}

export function read(text: string, measure: Measure): Reading {
  return ask((p) => p.read_measure(text, measure), unread());
}

export function show(value: number, measure: Measure): string {
  return ask((p) => p.show_measure(value, measure), '');
}

/** A figure in any unit of its kind. */
export function Figure({ measure, value, commit, clear, ...rest }: Props) {
  void display.value; // Shown anew when the units change.
  return (
    <Field
      {...rest}
      text={value === undefined ? '' : show(value, measure)}
      read={(text) => read(text, measure)}
      commit={(figure) => told(commit(figure))}
      clear={clear && (() => told(clear()))}
    />
  );
}
