// What of the work is drawn on the plan: decks, openings, steps, trenches. Each is drawn and changed as what
// stands on the lot is, and listed here.
import type { FeatureKind, ShapeRecord } from '../../core/types.ts';
import { plain } from '../../fields/Choice.tsx';
import { editOrTell } from '../../state/actions.ts';
import { chosenFeature, site } from '../../state/store.ts';
import { heard, phrase } from '../../words/words.ts';
import { DrawButton } from '../DrawButton.tsx';
import { FeatureCard } from '../yard/FeatureCard.tsx';
import { formOf, freshId } from '../yard/forms.ts';

interface Props {
  kind: FeatureKind;
  /** What the button says. */
  text: string;
  hint?: string;
}

export function Planned({ kind, text, hint }: Props) {
  const now = site.value;
  if (!now) return null;
  const form = formOf(kind);
  const words = form?.words ?? kind;
  const here = now.features.filter((it) => it.kind === kind);
  function put(shape: ShapeRecord): void {
    // A drawing takes its time: what is there by now counts.
    const there = site.value?.features ?? [];
    const id = freshId(kind, there);
    if (editOrTell({ 'set-features': [...there, { id, kind, shape }] }, phrase('It was not put on the plan.'))) {
      chosenFeature.value = id;
    }
  }
  return (
    <>
      <div class="buttons">
        <DrawButton name={phrase('the {thing}', { thing: heard(words) })} form={form?.shapes[0] === 'track' ? 'track' : 'area'} text={text} take={put} />
      </div>
      {hint && <p class="field-hint">{hint}</p>}
      {here.length > 0 && (
        <ul class="cards" aria-label={plain(words)}>
          {here.map((feature) => (
            <li key={feature.id}>
              <FeatureCard feature={feature} features={now.features} lot={now.lot} />
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
