// The clearance rules: from what, to what, how far, and who says so.
import type { MeasuredTo, Rule } from '../core/types.ts';
import { useMemo } from 'preact/hooks';
import { FromBook } from '../book/FromBook.tsx';
import { ask } from '../core/planner.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure, show } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { Tick } from '../fields/Tick.tsx';
import { edit, editOrTell } from '../state/actions.ts';
import { heard, phrase } from '../words/words.ts';
import { Conditions } from './Conditions.tsx';
import { NewRule } from './NewRule.tsx';
import { fromOptions, fromWord, toOptions, wordOf } from './ruleWords.ts';

const isWire = (to: MeasuredTo): boolean => 'feature' in to && to.feature.kind === 'overhead-line';

export function RuleTable({ rules }: { rules: Rule[] }) {
  const put = (index: number, change: Partial<Rule>) =>
    edit({ 'set-rules': rules.map((it, i) => (i === index ? { ...it, ...change } : it)) });
  const here = new Set(rules.map((rule) => JSON.stringify([rule.from, rule.to])));
  const examples = useMemo(() => ask((planner) => planner.example_rules(), []), []);
  const missing = examples.filter((rule) => !here.has(JSON.stringify([rule.from, rule.to])));
  const addExamples = () =>
    editOrTell({ 'set-rules': [...rules, ...missing] }, phrase('The examples were not added.'));
  return (
    <>
      <p class="field-hint">
        {phrase('Towns differ in what they measure and from where. The figures that come with a demo site are examples: put in those of the local authority, and name the source. A rule counts as confirmed once its source says who requires it here.')}
      </p>
      <ul class="cards">
        {rules.map((rule, index) => (
          <li key={index}>
            <details class="card" data-rule={index}>
              <summary>
                {heard(rule.name)}
                <span class="head-aside">{show(rule.distance, 'length')}</span>
              </summary>
              <TextField label={phrase('Rule')} value={rule.name} commit={(name) => put(index, { name })} />
              <Choice label={phrase('From')} value={rule.from} options={fromOptions()} choose={(from) => put(index, { from })} />
              <Choice
                label={phrase('To')}
                value={wordOf(rule.to)}
                options={toOptions()}
                choose={(word) => put(index, { to: fromWord(word) })}
              />
              <Figure
                label={phrase('At least')}
                measure="length"
                value={rule.distance}
                commit={(distance) => put(index, { distance })}
              />
              {isWire(rule.to) && (
                <Tick
                  label={phrase("Measured aslant, by the wire's height")}
                  on={rule.slant ?? false}
                  set={(slant) => put(index, { slant })}
                />
              )}
              <Conditions only={rule.only} put={(only) => put(index, { only })} />
              <TextField label={phrase('Source')} value={rule.source} commit={(source) => put(index, { source })} />
              <button
                type="button"
                onClick={() =>
                  editOrTell({ 'set-rules': rules.filter((_, i) => i !== index) }, phrase('The rule was not removed.'))
                }
              >
                {phrase('Remove this rule')}
              </button>
            </details>
          </li>
        ))}
      </ul>
      <NewRule rules={rules} />
      <FromBook kinds={['rules']} />
      <div class="buttons">
        <button type="button" disabled={missing.length === 0} onClick={addExamples}>
          {missing.length > 0 ? phrase('Add examples ({number})', { number: missing.length }) : phrase('Add examples')}
        </button>
      </div>
    </>
  );
}
