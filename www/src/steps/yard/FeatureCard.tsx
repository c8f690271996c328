// One thing on the lot: its facts, its shape in figures, and what can be done with it.
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Facts, Feature, FeatureKind, Finding, LotRecord, Point, ShapeRecord } from '../../core/types.ts';
import { Choice, plain } from '../../fields/Choice.tsx';
import { TextField } from '../../fields/TextField.tsx';
import { edit, editOrTell } from '../../state/actions.ts';
import { chosenFeature, dim, findings, highlight, light, site } from '../../state/store.ts';
import { ChangeShapeButton } from '../DrawButton.tsx';
import { FactFields } from './FactFields.tsx';
import { Fold } from '../../fields/Fold.tsx';
import { heard, phrase } from '../../words/words.ts';
import { formOf, kindForms, labelOf } from './forms.ts';
import { Openings } from './Openings.tsx';
import { ShapeFields } from './ShapeFields.tsx';

interface Props {
  feature: Feature;
  features: Feature[];
  lot: LotRecord;
}

export function FeatureCard({ feature, features, lot }: Props) {
  const { id, kind, shape, facts = {}, hidden = false, locked = false } = feature;
  const card = useRef<HTMLDetailsElement>(null);
  const form = formOf(kind);
  // What is there by now counts: a place picked on the plan comes late.
  const there = () => site.value?.features ?? features;
  const put = (change: Partial<Feature>): Finding[] =>
    edit({ 'set-features': there().map((it) => (it.id === id ? { ...it, ...change } : it)) });
  const putFacts = (next: Facts) => put({ facts: next });
  const lit = { feature: id };

  const [open, setOpen] = useState(false);

  // Tapped on the plan, or just put there.
  const chosen = chosenFeature.value === id;
  useEffect(() => {
    if (!chosen) return;
    if (!open) return setOpen(true);
    card.current?.scrollIntoView({ block: 'start' });
    card.current?.querySelector('summary')?.focus({ preventScroll: true });
    chosenFeature.value = null;
  }, [chosen, open]);

  function remove(): void {
    highlight.value = 'none';
    editOrTell({ 'set-features': there().filter((it) => it.id !== id) }, phrase('It was not deleted.'));
  }

  const body = () => (
    <>
      <Told index={features.indexOf(feature)} />
      {hidden && <p class="caution">{phrase('Hidden on the plan alone: it is measured and reported as ever.')}</p>}
      <div class="buttons feature-tools">
        <button type="button" aria-pressed={hidden} onClick={() => put({ hidden: !hidden })}>
          {hidden ? phrase('Show') : phrase('Hide')}
        </button>
        <button type="button" aria-pressed={locked} onClick={() => put({ locked: !locked })}>
          {locked ? phrase('Unlock') : phrase('Lock')}
        </button>
        <button type="button" onClick={() => editOrTell({ 'copy-feature': { id } }, phrase('It was not duplicated.'))}>
          {phrase('Duplicate')}
        </button>
        <button type="button" disabled={locked} onClick={remove}>
          {phrase('Remove it')}
        </button>
      </div>
      <TextField label={phrase('Name')} value={feature.name ?? ''} commit={(name) => put({ name })} />
      {form && <FactFields forms={form.facts} facts={facts} put={putFacts} />}
      <TextField label={phrase('Note')} value={feature.note ?? ''} commit={(note) => put({ note })} />
      <Fold head={phrase('Shape and place')}>
        {() => (
          <fieldset class="bare" disabled={locked}>
            <Choice
              label={phrase('Kind')}
              value={kind}
              options={kindForms().map((it) => ({ value: it.kind, text: plain(it.words) }))}
              choose={(next: FeatureKind) => put({ kind: next })}
            />
            {!('along' in shape) && !('compound' in shape) && (
              <div class="buttons">
                <ChangeShapeButton target={{ feature: id }} />
              </div>
            )}
            <ShapeFields shape={shape} lot={lot} put={(next) => put({ shape: next })} />
          </fieldset>
        )}
      </Fold>
      {form?.opening && (
        <Fold head={`${form.opening === 'door' ? phrase('Doors and windows') : phrase('Gates')} (${facts.openings?.length ?? 0})`} start={!!facts.openings?.length}>
          {() => (
            <fieldset class="bare" disabled={locked}>
              <Openings
                word={form.opening ?? ''}
                openings={facts.openings ?? []}
                start={startOf(shape)}
                put={(openings) => putFacts({ ...facts, openings })}
              />
            </fieldset>
          )}
        </Fold>
      )}
    </>
  );

  return (
    <details
      class="card feature"
      ref={card}
      data-feature={id}
      open={open}
      onToggle={(event) => event.target === event.currentTarget && setOpen(event.currentTarget.open)}
      onFocusIn={() => light(lit)}
      onFocusOut={() => dim(lit)}
    >
      <summary>
        <span>{labelOf(feature)}</span>
        <span class="head-aside">
          {[hidden ? phrase('hidden') : '', locked ? phrase('locked') : ''].filter(Boolean).join(', ')}
        </span>
      </summary>
      {open && body()}
    </details>
  );
}

/** What the planner has to say of this one. */
function Told({ index }: { index: number }) {
  const place = `/features/${index}`;
  const told = findings.value.filter((it) => it.pointer === place || it.pointer.startsWith(`${place}/`));
  return (
    <>
      {told.map((it, i) => (
        <p key={i} class="caution" data-severity={it.severity}>
          {heard(it.message)} {heard(it.remedy)}
        </p>
      ))}
    </>
  );
}

/** A place on the edge of a shape: its first corner. */
function startOf(shape: ShapeRecord): Point {
  const path = 'area' in shape ? shape.area : 'track' in shape ? shape.track : 'strip' in shape ? shape.strip.path : [];
  const [a, b] = path;
  if (a && b) return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  return 'disc' in shape ? shape.disc.at : [0, 0];
}
