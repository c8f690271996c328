// A new clearance rule. It takes part once it has all it needs: from what, to what, how far, and who says so.
import { useRef, useState } from 'preact/hooks';
import type { MeasuredFrom, Rule } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { editOrTell } from '../state/actions.ts';
import { fromOptions, fromWord, toOptions } from './ruleWords.ts';
import { MakeButton, stillMissing } from '../steps/MakeButton.tsx';
import { phrase } from '../words/words.ts';

interface Draft {
  name?: string;
  from?: MeasuredFrom;
  /** As the list has it (see `fromWord`). */
  to?: string;
  distance?: number;
  source?: string;
}

/** Stands for what nobody has chosen yet. */
const nothing = () => ({ value: '' as const, text: phrase('Choose one') });

const textOf = (options: readonly { value: string; text: string }[], value: string): string =>
  options.find((it) => it.value === value)?.text ?? '';

/** What a rule is called that got no name: `Water's edge to side line`. */
const called = (from: string, to: string): string =>
  phrase('{from} to {to}', { from: textOf(fromOptions(), from), to: textOf(toOptions(''), to).toLowerCase() });

export function NewRule({ rules }: { rules: Rule[] }) {
  const card = useRef<HTMLDetailsElement>(null);
  const [draft, setDraft] = useState<Draft>({});
  const { name, from, to, distance, source } = draft;
  const keep = (change: Draft) => {
    setDraft((now) => ({ ...now, ...change }));
    return [];
  };
  const missing = stillMissing([
    [phrase('what it is measured from'), from],
    [phrase('what it is measured to'), to],
    [phrase('the distance'), distance],
    [phrase('its source'), source],
  ]);

  function make(): void {
    if (from === undefined || to === undefined || distance === undefined || !source) return;
    const rule: Rule = { name: name || called(from, to), from, to: fromWord(to), distance, source };
    if (!editOrTell({ 'set-rules': [...rules, rule] }, phrase('The rule was not added.'))) return;
    setDraft({});
    if (card.current) card.current.open = false;
  }
  return (
    <details ref={card} class="card new-rule">
      <summary>{phrase('Add a rule')}</summary>
      <Choice
        label={phrase('From')}
        value={from ?? ''}
        options={[nothing(), ...fromOptions()]}
        choose={(value) => value !== '' && keep({ from: value })}
      />
      <Choice label={phrase('To')} value={to ?? ''} options={[nothing(), ...toOptions()]} choose={(value) => value !== '' && keep({ to: value })} />
      <Figure label={phrase('At least')} measure="length" value={distance} commit={(value) => keep({ distance: value })} />
      <TextField
        label={phrase('Source')}
        value={source ?? ''}
        placeholder={phrase('Who requires it, and where it says so')}
        commit={(value) => keep({ source: value })}
      />
      <TextField
        label={phrase('Name of the rule')}
        value={name ?? ''}
        placeholder={from && to ? called(from, to) : ''}
        commit={(value) => keep({ name: value })}
      />
      <MakeButton text={phrase('Add this rule')} missing={missing} make={make} />
    </details>
  );
}
