// What the parts of the dig step share: one setting edited, one part of the panel.
import type { ComponentChildren } from 'preact';
import type { ConstructionSettings, Entry, Finding, Measure } from '../../core/types.ts';
import { Figure } from '../../fields/fields.tsx';
import { edit } from '../../state/actions.ts';

/** The members of the works that are groups of settings. */
export type Group = Exclude<keyof ConstructionSettings, 'groundwater'>;

/** Sets some settings of one group. */
export function put<P extends Group>(works: ConstructionSettings, group: P, change: Partial<ConstructionSettings[P]>): Finding[] {
  return edit({ 'set-works': { ...works, [group]: { ...works[group], ...change } } });
}

/** Takes one setting out of its group. */
export function without<P extends Group>(works: ConstructionSettings, group: P, member: keyof ConstructionSettings[P]): Finding[] {
  const settings = { ...works[group] };
  delete settings[member];
  return edit({ 'set-works': { ...works, [group]: settings } });
}

interface LineProps<P extends Group> {
  works: ConstructionSettings;
  part: P;
  member: keyof ConstructionSettings[P] & string;
  label: string;
  measure: Measure;
  hint?: string;
}

/** One figure of a group. */
export function Line<P extends Group>({ works, part, member, ...rest }: LineProps<P>) {
  const value = (works[part] as Record<string, number | undefined>)[member];
  const commit = (it: number) => put(works, part, { [member]: it } as unknown as Partial<ConstructionSettings[P]>);
  return <Figure {...rest} value={value} commit={commit} />;
}

/** One figure of a group that may be left empty. */
export function Maybe<P extends Group>({
  placeholder,
  ...props
}: LineProps<P> & { placeholder: string }) {
  const { works, part, member, ...rest } = props;
  const value = (works[part] as Record<string, number | undefined>)[member];
  return (
    <Figure
      {...rest}
      value={value}
      placeholder={placeholder}
      commit={(it) => put(works, part, { [member]: it } as unknown as Partial<ConstructionSettings[P]>)}
      clear={() => without(works, part, member)}
    />
  );
}

interface PartProps {
  title: string;
  children: ComponentChildren;
  open?: boolean;
  /** What is entered here, for the buttons that lead to it. */
  entry?: Entry;
}

/** A part of the panel that opens and closes. */
export function Part({ title, children, open, entry }: PartProps) {
  return (
    <details class="part" open={open ?? false} data-entry={entry}>
      <summary>{title}</summary>
      <div class="part-body">{children}</div>
    </details>
  );
}
