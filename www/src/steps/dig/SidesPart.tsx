// Sides of the hole that are dug otherwise than the rest: wider, steeper against a house, a ramp at one end.
import { HOLE_SIDES } from '../../core/lists.ts';
import type { Finding, HoleSide, SideSettings, ConstructionSettings } from '../../core/types.ts';
import { Figure } from '../../fields/fields.tsx';
import { TextField } from '../../fields/TextField.tsx';
import { english, phrase, type English } from '../../words/words.ts';
import { Part, put } from './shared.tsx';

/** The sides as seen along the shell's length, from the shallow end. */
const WORDS: Record<HoleSide, English> = {
  ahead: english('Beyond the deep end'),
  left: english('Left side'),
  behind: english('Beyond the shallow end'),
  right: english('Right side'),
};

export function SidesPart({ works }: { works: ConstructionSettings }) {
  const sides = works.dig.sides ?? [];
  /** Puts a side's settings, and leaves out those that say nothing. */
  function set(side: HoleSide, change: Partial<SideSettings>): Finding[] {
    const before = sides.find((it) => it.side === side) ?? { side };
    const next = { ...before, ...change };
    const told = [...sides.filter((it) => it.side !== side), next].filter(
      (it) => it.over_dig !== undefined || it.slope !== undefined || it.note,
    );
    told.sort((a, b) => HOLE_SIDES.indexOf(a.side) - HOLE_SIDES.indexOf(b.side));
    return put(works, 'dig', { sides: told });
  }
  function drop(side: HoleSide, member: 'over_dig' | 'slope'): Finding[] {
    const next = sides.map((it) => {
      if (it.side !== side) return it;
      const rest = { ...it };
      delete rest[member];
      return rest;
    });
    const told = next.filter((it) => it.over_dig !== undefined || it.slope !== undefined || it.note);
    return put(works, 'dig', { sides: told });
  }
  return (
    <Part title={phrase('Side by side')}>
      <p class="field-hint">
        {phrase('As seen along the length, shallow end to deep end. A side that is steeper than its soil stands needs shoring or shielding; a ramp is a flat side at one end.')}
      </p>
      {HOLE_SIDES.map((side) => {
        const it = sides.find((one) => one.side === side);
        return (
          <fieldset key={side} class="opening">
            <legend>{phrase(WORDS[side])}</legend>
            <div class="pair">
              <Figure
                label={phrase('Over-dig there')}
                measure="length"
                value={it?.over_dig}
                placeholder={phrase('as all round')}
                commit={(over_dig) => set(side, { over_dig })}
                clear={() => drop(side, 'over_dig')}
              />
              <Figure
                label={phrase('Side slope there')}
                measure="slope"
                value={it?.slope}
                placeholder={phrase('by the soil')}
                commit={(slope) => set(side, { slope })}
                clear={() => drop(side, 'slope')}
              />
            </div>
            <TextField label={phrase('Why')} value={it?.note ?? ''} commit={(note) => void set(side, { note })} />
          </fieldset>
        );
      })}
    </Part>
  );
}
