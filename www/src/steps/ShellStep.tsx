// The shell: which one, where it stands, and the pad for its equipment.
import type { Site } from '../core/types.ts';
import { FromBook } from '../book/FromBook.tsx';
import { Fold } from '../fields/Fold.tsx';
import { Later, later } from '../job/Later.tsx';
import { catalogue, standing } from '../state/store.ts';
import { sunOpen } from '../sun/open.ts';
import { WayDoor } from '../way/WayDoor.tsx';
import { phrase } from '../words/words.ts';
import { EquipmentPart } from './EquipmentPart.tsx';
import { ShellCards } from './ShellCards.tsx';
import { Standing } from './Standing.tsx';

const ownShell = later(async () => (await import('./OwnShell.tsx')).OwnShell);
const sun = later(async () => (await import('../sun/SunPart.tsx')).SunPart);
const finder = later(async () => (await import('../fit/Finder.tsx')).Finder);

export function ShellStep({ site }: { site: Site }) {
  const shell = standing.value;
  return (
    <>
      {shell && <Standing shell={shell} at={site.placement?.at ?? [0, 0]} />}
      <details class="part" data-entry="shell" open={shell === null} key={shell === null ? 'none' : 'placed'}>
        <summary>{shell ? phrase('Choose another shell') : phrase('Choose a shell')}</summary>
        <div class="part-body">
          <ShellCards cards={catalogue.value} chosen={shell?.name ?? ''} />
        </div>
      </details>
      <Fold class="part" head={phrase('Find where it fits')}>
        {() => (
          <div class="part-body">
            <Later of={finder} given={{}} />
          </div>
        )}
      </Fold>
      <details class="part" open={sunOpen.value} onToggle={(event) => (sunOpen.value = event.currentTarget.open)}>
        <summary>{phrase('Sun on the water')}</summary>
        {sunOpen.value && (
          <div class="part-body">
            <Later of={sun} given={{}} />
          </div>
        )}
      </details>
      <FromBook kinds={['shell']} />
      <details class="part">
        <summary>{phrase('A shell of your own')}</summary>
        <div class="part-body">
          <Later of={ownShell} given={{}} />
        </div>
      </details>
      <details class="part" data-entry="equipment">
        <summary>{phrase('Equipment pad')}</summary>
        <div class="part-body">
          <EquipmentPart pad={site.equipment ?? null} />
        </div>
      </details>
      <WayDoor site={site} />
    </>
  );
}
