// The lot: its sides and their kinds, a picture to trace it from, and the rules that apply.
import type { Site } from '../core/types.ts';
import { Later, later } from '../job/Later.tsx';
import { Fold } from '../fields/Fold.tsx';
import { phrase } from '../words/words.ts';
import { BasisPart } from './BasisPart.tsx';
import { BringPart } from './BringPart.tsx';
import { DeedPart } from './DeedPart.tsx';
import { DrawLot } from './DrawLot.tsx';
import { PicturePart } from './PicturePart.tsx';
import { Sides } from './Sides.tsx';

const rules = later(() => import('../rules/RuleTable.tsx').then((it) => it.RuleTable));
const shares = later(() => import('../rules/Shares.tsx').then((it) => it.Shares));
const barrier = later(() => import('../rules/Barrier.tsx').then((it) => it.Barrier));

export function LotStep({ site }: { site: Site }) {
  return (
    <>
      <details class="part" open data-entry="lot">
        <summary>{phrase('Sides of the lot')}</summary>
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
        <summary>{phrase('Clearance rules ({number})', { number: site.rules.length })}</summary>
        <div class="part-body">
          <Later of={rules} given={{ rules: site.rules }} />
        </div>
      </details>
      <Fold class="part" head={phrase('Covered ground ({number})', { number: site.shares?.length ?? 0 })}>
        {() => (
          <div class="part-body">
            <Later of={shares} given={{ shares: site.shares ?? [] }} />
          </div>
        )}
      </Fold>
      <Fold class="part" head={phrase('Barrier round the water')}>
        {() => (
          <div class="part-body">
            <Later of={barrier} given={{ barrier: site.barrier }} />
          </div>
        )}
      </Fold>
    </>
  );
}
