// The facts of one thing on the lot, as the core asks for them.
import type { FactForm, Facts, Finding } from '../../core/types.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Figure, show } from '../../fields/fields.tsx';
import { ask } from '../../core/planner.ts';
import { heard, phrase } from '../../words/words.ts';

interface Props {
  forms: FactForm[];
  facts: Facts;
  put: (facts: Facts) => Finding[];
}

const NOT_TOLD = 'not-told';

export function FactFields({ forms, facts, put }: Props) {
  return (
    <>
      {forms.map((form) => (
        <FactField key={form.fact} form={form} facts={facts} put={put} />
      ))}
    </>
  );
}

function FactField({ form, facts, put }: Omit<Props, 'forms'> & { form: FactForm }) {
  const { fact, label, measure, choices, hint } = form;
  const without = (): Facts => {
    const { [fact]: _, ...rest } = facts;
    return rest;
  };
  const withIt = (value: number | string): Facts => ({ ...facts, [fact]: value });
  const told = facts[fact];
  if (measure === null) {
    return (
      <Choice
        label={heard(label)}
        value={typeof told === 'string' ? told : NOT_TOLD}
        options={[{ value: NOT_TOLD, text: phrase('Not entered') }, ...choices.map(({ value, words }) => ({ value, text: heard(words) }))]}
        choose={(value) => put(value === NOT_TOLD ? without() : withIt(value))}
        hint={heard(hint)}
      />
    );
  }
  const usual = fact === 'protection' && facts.trunk ? usualProtection(facts.trunk) : undefined;
  return (
    <>
      <Figure
        label={heard(label)}
        measure={measure}
        value={typeof told === 'number' ? told : undefined}
        placeholder={phrase('not known')}
        hint={heard(hint)}
        clear={() => put(without())}
        commit={(value) => put(withIt(value))}
      />
      {usual !== undefined && usual !== told && (
        <button type="button" onClick={() => put(withIt(usual))}>
          {phrase('Use the usual {length}', { length: show(usual, 'length') })}
        </button>
      )}
    </>
  );
}

const usualProtection = (trunk: number): number | undefined => ask((p) => p.usual_protection(trunk), undefined);
