// The base's thickness under parts of the floor.
import { FACET_KINDS } from '../../core/lists.ts';
import type { FacetKind, ConstructionSettings } from '../../core/types.ts';
import { plain } from '../../fields/Choice.tsx';
import { Figure } from '../../fields/fields.tsx';
import { phrase } from '../../words/words.ts';
import { Part, put } from './shared.tsx';

export function BasesPart({ works }: { works: ConstructionSettings }) {
  const bases = works.dig.bases ?? [];
  const others = (kind: FacetKind) => bases.filter((it) => it.kind !== kind);
  return (
    <Part title={phrase('Base by part of the floor')}>
      <p class="field-hint">{phrase('Leave a part empty to lay the base as thick there as everywhere.')}</p>
      {FACET_KINDS.map((kind) => (
        <Figure
          key={kind}
          label={phrase('Base under: {part}', { part: plain(kind).toLowerCase() })}
          measure="length"
          value={bases.find((it) => it.kind === kind)?.thickness}
          placeholder={phrase('as everywhere')}
          commit={(thickness) => put(works, 'dig', { bases: [...others(kind), { kind, thickness }] })}
          clear={() => put(works, 'dig', { bases: others(kind) })}
        />
      ))}
    </Part>
  );
}
