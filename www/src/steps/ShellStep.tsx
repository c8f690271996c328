// The shell: which one, where it stands, and the pad for its equipment.
import type { Site } from '../core/types.ts';
import { FromBook } from '../book/FromBook.tsx';
import { catalogue, standing } from '../state/store.ts';
import { EquipmentPart } from './EquipmentPart.tsx';
import { OwnShell } from './OwnShell.tsx';
import { ShellCards } from './ShellCards.tsx';
import { Standing } from './Standing.tsx';

export function ShellStep({ site }: { site: Site }) {
  const shell = standing.value;
  return (
    <>
      {shell && <Standing shell={shell} at={site.placement?.at ?? [0, 0]} />}
      <details class="part" data-entry="shell" open={shell === null} key={shell === null ? 'none' : 'placed'}>
        <summary>{shell ? 'Choose another shell' : 'Choose a shell'}</summary>
        <div class="part-body">
          <ShellCards cards={catalogue.value} chosen={shell?.name ?? ''} />
        </div>
      </details>
      <FromBook kinds={['shell']} />
      <details class="part">
        <summary>A shell of your own</summary>
        <div class="part-body">
          <OwnShell />
        </div>
      </details>
      <details class="part" data-entry="equipment">
        <summary>Equipment pad</summary>
        <div class="part-body">
          <EquipmentPart pad={site.equipment ?? null} />
        </div>
      </details>
    </>
  );
}
