// How much of the lot or of its rear yard may be covered: what counts, how much at most, and who says so.
import { useState } from 'preact/hooks';
import { COVERS } from '../core/lists.ts';
import type { Cover, GroundPart, ShareRule } from '../core/types.ts';
import { Choice } from '../fields/Choice.tsx';
import { Figure } from '../fields/fields.tsx';
import { TextField } from '../fields/TextField.tsx';
import { Tick } from '../fields/Tick.tsx';
import { edit, editOrTell } from '../state/actions.ts';
import { MakeButton, stillMissing } from '../steps/MakeButton.tsx';
import { english, heard, phrase, phrased, type English } from '../words/words.ts';

const GROUND = [
  { value: 'lot', text: english('the lot') },
  { value: 'rear-yard', text: english('the rear yard') },
] as const satisfies readonly { value: GroundPart; text: English }[];

const COVERED: Record<Cover, English> = {
  structures: english('Houses and outbuildings'),
  paving: english('Driveway and walks'),
  shell: english('Water and coping'),
  deck: english('Deck and steps'),
  pad: english('Equipment pad'),
};

export function Shares({ shares }: { shares: ShareRule[] }) {
  const put = (index: number, change: Partial<ShareRule>) =>
    edit({ 'set-shares': shares.map((it, i) => (i === index ? { ...it, ...change } : it)) });
  return (
    <>
      <p class="field-hint">
        {phrase('Each piece of ground is counted once, in plan, and only on the lot. What counts, and how much may be covered, is for the local authority to say.')}
      </p>
      <ul class="cards">
        {shares.map((share, index) => (
          <li key={index}>
            <details class="card">
              <summary>{heard(share.name)}</summary>
              <TextField label={phrase('Rule')} value={share.name} commit={(name) => put(index, { name })} />
              <Choice label={phrase('Share of')} value={share.of} options={phrased(GROUND)} choose={(of) => put(index, { of })} />
              <Counts counts={share.counts} put={(counts) => put(index, { counts })} />
              <Figure label={phrase('At most')} measure="fraction" value={share.most} commit={(most) => put(index, { most })} />
              <TextField label={phrase('Source')} value={share.source} commit={(source) => put(index, { source })} />
              <button
                type="button"
                onClick={() => editOrTell({ 'set-shares': shares.filter((_, i) => i !== index) }, phrase('The rule was not removed.'))}
              >
                {phrase('Remove this rule')}
              </button>
            </details>
          </li>
        ))}
      </ul>
      <NewShare shares={shares} />
    </>
  );
}

function Counts({ counts, put }: { counts: Cover[]; put: (counts: Cover[]) => unknown }) {
  return (
    <fieldset class="bare">
      <legend>{phrase('Counts as covered')}</legend>
      {COVERS.map((cover) => (
        <Tick
          key={cover}
          label={phrase(COVERED[cover])}
          on={counts.includes(cover)}
          set={(on) => put(COVERS.filter((it) => (it === cover ? on : counts.includes(it))))}
        />
      ))}
    </fieldset>
  );
}

function NewShare({ shares }: { shares: ShareRule[] }) {
  const [draft, setDraft] = useState<Partial<ShareRule>>({});
  const { name, of = 'lot', counts = [], most, source } = draft;
  const keep = (change: Partial<ShareRule>) => {
    setDraft((now) => ({ ...now, ...change }));
    return [];
  };
  const missing = stillMissing([
    [phrase('what counts as covered'), counts[0]],
    [phrase('the greatest share'), most],
    [phrase('its source'), source],
  ]);
  function make(): void {
    if (most === undefined || !source) return;
    const usual = of === 'lot' ? phrase('Covered share of the lot') : phrase('Covered share of the rear yard');
    const share: ShareRule = { name: name || usual, of, counts, most, source };
    if (editOrTell({ 'set-shares': [...shares, share] }, phrase('The rule was not added.'))) setDraft({});
  }
  return (
    <details class="card">
      <summary>{phrase('Add a rule about covered ground')}</summary>
      <Choice label={phrase('Share of')} value={of} options={phrased(GROUND)} choose={(value) => keep({ of: value })} />
      <Counts counts={counts} put={(value) => keep({ counts: value })} />
      <Figure label={phrase('At most')} measure="fraction" value={most} commit={(value) => keep({ most: value })} />
      <TextField
        label={phrase('Source')}
        value={source ?? ''}
        placeholder={phrase('Who requires it, and where it says so')}
        commit={(value) => keep({ source: value })}
      />
      <TextField label={phrase('Name of the rule')} value={name ?? ''} commit={(value) => keep({ name: value })} />
      <MakeButton text={phrase('Add this rule')} missing={missing} make={make} />
    </details>
  );
}
