// The lot: its sides and their kinds, a picture to trace it from, and the rules that apply.
import type { Site } from '../core/types.ts';
import { BasisPart } from './BasisPart.tsx';
import { BringPart } from './BringPart.tsx';
import { DeedPart } from './DeedPart.tsx';
import { DrawLot } from './DrawLot.tsx';
import { PicturePart } from './PicturePart.tsx';
import { RuleTable } from './RuleTable.tsx';
import { Sides } from './Sides.tsx';

export function LotStep({ site }: { site: Site }) {
  return (
    <>
      <details class="part" open data-entry="lot">
        <summary>Sides of the lot</summary>
        <div class="part-body">
          <DrawLot />
          <Sides lot={site.lot} />
        </div>
      </details>
      <DeedPart lot={site.lot} />
      <BasisPart lot={site.lot} />
      <PicturePart site={site} />
      <BringPart />
      <details class="part" open data-entry="rules">
        <summary>Clearance rules ({site.rules.length})</summary>
        <div class="part-body">
          <RuleTable rules={site.rules} />
        </div>
      </details>
    </>
  );
}
