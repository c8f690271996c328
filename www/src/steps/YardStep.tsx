// What stands on and under the lot, grouped by kind, with a card for each thing.
import { useEffect, useState } from 'preact/hooks';
import type { Feature, FeatureKind, Site } from '../core/types.ts';
import { Choice, plain } from '../fields/Choice.tsx';
import { TextField } from '../fields/TextField.tsx';
import { chosenFeature, highlight } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { FeatureCard } from './yard/FeatureCard.tsx';
import { kindForms, labelOf } from './yard/forms.ts';
import { NewFeature } from './yard/NewFeature.tsx';

/** From so many on, the list can be narrowed. */
const LONG = 6;

export function YardStep({ site }: { site: Site }) {
  const { features, lot } = site;
  const [kind, setKind] = useState<FeatureKind | 'all'>('all');
  const [sought, setSought] = useState('');
  useEffect(() => () => void (highlight.value = 'none'), []);
  const here = kindForms()
    .map((form) => ({ ...form, list: features.filter((it) => it.kind === form.kind) }))
    .filter((group) => group.list.length > 0);
  const chosen = features.find((it) => it.id === chosenFeature.value);
  const found = (it: Feature): boolean => it === chosen || hasWord(it, sought);
  const shown = here
    .filter((group) => kind === 'all' || group.kind === kind || group.list.some((it) => it === chosen))
    .map((group) => ({ ...group, list: group.list.filter(found) }))
    .filter((group) => group.list.length > 0);
  const long = features.length >= LONG;
  return (
    <>
      <NewFeature features={features} lot={lot} />
      {long && (
        <div class="pairs">
          <Choice
            label={phrase('List')}
            value={here.some((group) => group.kind === kind) ? kind : 'all'}
            options={[
              { value: 'all' as const, text: phrase('All ({number})', { number: features.length }) },
              ...here.map((group) => ({ value: group.kind, text: `${plain(group.words)} (${group.list.length})` })),
            ]}
            choose={setKind}
          />
          <TextField label={phrase('Find')} value={sought} commit={setSought} placeholder={phrase('name or note')} />
        </div>
      )}
      {features.length === 0 && (
        <p class="field-hint">
          {phrase('Nothing yet. Add whatever stands on, hangs over or lies under the lot and near it: every clearance is measured to what is drawn here, and to nothing else.')}
        </p>
      )}
      {shown.map((group) => (
        <section key={group.kind} aria-labelledby={`yard-${group.kind}`}>
          <h3 class="yard-kind" id={`yard-${group.kind}`}>
            {plain(group.words)} <span class="head-aside">{group.list.length}</span>
          </h3>
          <ul class="cards">
            {group.list.map((feature) => (
              <li key={feature.id}>
                <FeatureCard feature={feature} features={features} lot={lot} />
              </li>
            ))}
          </ul>
        </section>
      ))}
      {features.length > 0 && shown.length === 0 && <p class="field-hint">{phrase('Nothing by that name in this list.')}</p>}
    </>
  );
}

function hasWord(feature: Feature, sought: string): boolean {
  const text = `${labelOf(feature)} ${feature.kind} ${feature.note ?? ''}`.toLowerCase();
  return text.includes(sought.trim().toLowerCase());
}
