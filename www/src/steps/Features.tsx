// What stands on, over and under the lot.
import { FEATURE_KINDS, UTILITIES, type Feature, type Site } from '../door/records.ts';
import { Choice, plain } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { edit, editOrTell } from '../state/actions.ts';
import { NewFeature } from './NewFeature.tsx';

const KINDS = FEATURE_KINDS.map((value) => ({ value, text: plain(value) }));
const RUNS = UTILITIES.map((value) => ({ value, text: plain(value) }));
const NOT_TOLD = { value: 'not-told', text: 'Not told' } as const;

export function Features({ features }: { features: Site['features'] }) {
  const put = (index: number, change: Partial<Feature>) =>
    edit({ 'set-features': features.map((it, i) => (i === index ? { ...it, ...change } : it)) });
  const remove = (index: number) =>
    editOrTell({ 'set-features': features.filter((_, i) => i !== index) }, 'It was not taken out.');
  return (
    <>
      <ul class="cards">
        {features.map((feature, index) => (
          <li key={feature.id}>
            <details class="card">
              <summary>
                {feature.name || plain(feature.kind)}
                <span class="head-aside">{feature.name ? plain(feature.kind).toLowerCase() : ''}</span>
              </summary>
              <Choice label="Kind" value={feature.kind} options={KINDS} choose={(kind) => put(index, { kind })} />
              <TextField label="Name" value={feature.name ?? ''} commit={(name) => put(index, { name })} />
              {feature.kind === 'buried-line' && (
                <Choice
                  label="What runs in it"
                  value={feature.facts?.utility ?? NOT_TOLD.value}
                  options={[NOT_TOLD, ...RUNS]}
                  choose={(run) => run !== NOT_TOLD.value && put(index, { facts: { ...feature.facts, utility: run } })}
                  hint="Drawn in the marking colour of its kind. Lines nobody told about are not drawn: call the utility-locating service."
                />
              )}
              <Figure
                label="Footing below the ground beside it"
                measure="length"
                value={feature.facts?.footing_depth}
                placeholder="not known"
                commit={(footing_depth) => put(index, { facts: { ...feature.facts, footing_depth } })}
              />
              <button type="button" onClick={() => remove(index)}>
                Take it off the lot
              </button>
            </details>
          </li>
        ))}
      </ul>
      <NewFeature features={features} />
    </>
  );
}
