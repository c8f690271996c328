// The clearance rules: from what, to what, how far, and who says so.
import { FEATURE_KINDS, FEATURE_PARTS, LINE_KINDS, MEASURED_FROM } from '../core/lists.ts';
import type { FeatureKind, LineKind, MeasuredFrom, MeasuredTo, Rule } from '../core/types.ts';
import { useMemo } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import { Choice, plain } from '../fields/Choice.tsx';
import { Figure, show } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { edit, editOrTell } from '../state/actions.ts';

const FROM_WORDS: Record<MeasuredFrom, string> = {
  'waters-edge': "Water's edge",
  rim: 'Rim, outside of the coping',
  'deck-edge': 'Deck edge',
  equipment: 'Equipment pad',
  dig: 'Top of the dig',
};
const FROM = MEASURED_FROM.map((value) => ({ value, text: FROM_WORDS[value] }));
const TO = [
  { value: 'line', text: 'Every lot line' },
  ...LINE_KINDS.map((kind) => ({ value: `line:${kind}`, text: `Lot line: ${plain(kind).toLowerCase()}` })),
  ...FEATURE_KINDS.map((kind) => ({ value: `feature:${kind}`, text: plain(kind) })),
  ...FEATURE_PARTS.map((part) => ({ value: `part:${part}`, text: plain(part) })),
];

/** What a rule measures to, as one word for the list. */
export function wordOf(to: MeasuredTo): string {
  if ('feature' in to) return `feature:${to.feature.kind}`;
  if ('part' in to) return `part:${to.part.part}`;
  const { kind } = to['lot-line'];
  return kind ? `line:${kind}` : 'line';
}

/** The other way. */
export function fromWord(word: string): MeasuredTo {
  const [what, kind] = word.split(':');
  if (what === 'part') return { part: { part: kind as (typeof FEATURE_PARTS)[number] } };
  if (what === 'feature') return { feature: { kind: kind as FeatureKind } };
  return { 'lot-line': kind ? { kind: kind as LineKind } : {} };
}

const FRESH: Rule = {
  name: 'New rule',
  from: 'waters-edge',
  to: { 'lot-line': {} },
  distance: 3,
  source: '',
};

export function RuleTable({ rules }: { rules: Rule[] }) {
  const put = (index: number, change: Partial<Rule>) =>
    edit({ 'set-rules': rules.map((it, i) => (i === index ? { ...it, ...change } : it)) });
  const here = new Set(rules.map((rule) => JSON.stringify([rule.from, rule.to])));
  const examples = useMemo(() => ask((planner) => planner.example_rules(), []), []);
  const missing = examples.filter((rule) => !here.has(JSON.stringify([rule.from, rule.to])));
  const addExamples = () =>
    editOrTell({ 'set-rules': [...rules, ...missing] }, 'The examples were not added.');
  return (
    <>
      <p class="field-hint">
        Towns differ in what they measure and from where. The figures that come with a demo site are examples: put in
        those of the local authority, and name the source. A rule counts as confirmed once its source says who requires
        it here.
      </p>
      <ul class="cards">
        {rules.map((rule, index) => (
          <li key={index}>
            <details class="card" data-rule={index}>
              <summary>
                {rule.name}
                <span class="head-aside">{show(rule.distance, 'length')}</span>
              </summary>
              <TextField label="Rule" value={rule.name} commit={(name) => put(index, { name })} />
              <Choice label="From" value={rule.from} options={FROM} choose={(from) => put(index, { from })} />
              <Choice
                label="To"
                value={wordOf(rule.to)}
                options={TO}
                choose={(word) => put(index, { to: fromWord(word) })}
              />
              <Figure
                label="At least"
                measure="length"
                value={rule.distance}
                commit={(distance) => put(index, { distance })}
              />
              <TextField label="Source" value={rule.source} commit={(source) => put(index, { source })} />
              <button
                type="button"
                onClick={() =>
                  editOrTell({ 'set-rules': rules.filter((_, i) => i !== index) }, 'The rule was not taken out.')
                }
              >
                Delete this rule
              </button>
            </details>
          </li>
        ))}
      </ul>
      <div class="buttons">
        <button type="button" onClick={() => editOrTell({ 'set-rules': [...rules, FRESH] }, 'The rule was not added.')}>
          Add a rule
        </button>
        <button type="button" disabled={missing.length === 0} onClick={addExamples}>
          Add examples{missing.length > 0 ? ` (${missing.length})` : ''}
        </button>
      </div>
    </>
  );
}
