// Where a shell fits: what is wanted, the search, and a card to each place found.
import { useState } from 'preact/hooks';
import type { FitAim, FitCard, FitWish, SmallSite } from '../paper/messages.ts';
import { OriginField } from '../bring/OriginField.tsx';
import { Choice } from '../fields/Choice.tsx';
import { DayField } from '../sun/DayField.tsx';
import { wish as sunWish } from '../sun/asked.ts';
import { editOrTell, say } from '../state/actions.ts';
import { ledger, site, standing } from '../state/store.ts';
import { LargestPart } from './Largest.tsx';
import { pathOf } from '../steps/ShellCards.tsx';
import { begin, failed, search, stop } from './search.ts';
import './fit.css';

const WANTED = [
  { value: 'most-room', text: 'the most room' },
  { value: 'near-door', text: 'the shortest way from a door' },
  { value: 'parallel', text: 'parallel or square to house or line' },
  { value: 'least-spoil', text: 'the least earth hauled away' },
  { value: 'least-fill', text: 'the least fill' },
  { value: 'most-sun', text: 'the most sun on the water' },
] as const satisfies readonly { value: FitAim; text: string }[];

/** Cards shown before more are asked for. */
const SHOWN = 12;

export function Finder() {
  const [wanted, want] = useState<FitAim>('most-room');
  const [shells, choose] = useState<'all' | 'this'>('all');
  const [more, showMore] = useState(false);
  const name = standing.value?.name;
  const it = search.value;
  const underWay = it?.state === 'under way';
  const sunny = wanted === 'most-sun';
  const wish = (): FitWish => ({
    wanted,
    step: 1,
    shells: shells === 'this' && name !== undefined ? [name] : [],
    ...(sunny && sunWish.value.date !== '' && { sun_date: sunWish.value.date }),
  });
  const nowhere = sunny && !site.value?.origin;
  const stale = it !== null && it.state !== 'under way' && it.revision !== ledger.value?.revision;
  const cards = it?.cards ?? [];
  return (
    <>
      <Choice<FitAim> label="Best is" value={wanted} options={WANTED} choose={want} />
      {name !== undefined && (
        <Choice<'all' | 'this'>
          label="Shells"
          value={shells}
          options={[
            { value: 'all', text: 'all of the catalogue' },
            { value: 'this', text: name },
          ]}
          choose={choose}
        />
      )}
      {sunny && <DayField />}
      {nowhere && (
        <>
          <p>Say where on the earth the site lies, so that the sun over it is known.</p>
          <OriginField laid={() => {}} />
        </>
      )}
      <div class="buttons">
        {underWay ? (
          <button type="button" onClick={stop}>
            Stop
          </button>
        ) : (
          <button type="button" disabled={nowhere} onClick={() => void begin(wish())}>
            Look for places
          </button>
        )}
      </div>
      {it && underWay && (
        <p class="fit-progress">
          <progress value={it.done} max={it.of} aria-label="Shells tried" />
          {it.done} of {it.of} shells, every degree
        </p>
      )}
      <p class="unseen" role="status">
        {it?.state === 'done' && `${cards.length} places found.`}
      </p>
      {failed.value !== '' && <p role="alert">{failed.value}</p>}
      {it?.state === 'done' && cards.length === 0 && <p>No shell fits anywhere by the rules as entered.</p>}
      {stale && cards.length > 0 && <p class="field-hint">Found before the last change: look again where rules, lot or yard have changed.</p>}
      <ol class="fit-cards">
        {cards.slice(0, more ? cards.length : SHOWN).map((card, index) => (
          <li key={index}>
            <Card card={card} around={it?.around} />
          </li>
        ))}
      </ol>
      {cards.length > SHOWN && !more && (
        <button type="button" onClick={() => showMore(true)}>
          {cards.length - SHOWN} more places
        </button>
      )}
      {name !== undefined && <LargestPart />}
      <p class="field-hint">
        By the rules as entered, on this plan: no survey and no permit. On sloping ground each place is measured with a hole of its
        own. The local authority governs; before anyone digs, the utility-locating service marks the lines.
      </p>
    </>
  );
}

function Card({ card, around }: { card: FitCard; around: SmallSite | undefined }) {
  const { fit } = card;
  const { shell, at, heading, mirrored, coping_elevation } = fit;
  const put = (): void => {
    const placement = { shell, at, heading, mirrored: mirrored ?? false, coping_elevation };
    if (editOrTell({ 'set-placement': placement }, `${fit.name} was not placed.`)) say(`${fit.name} placed. Undo takes it back.`);
  };
  return (
    <button type="button" class="fit-card" onClick={put}>
      {around && <Small around={around} rim={fit.rim} />}
      <span class="fit-name">
        {fit.name}
        {mirrored && ', flipped'}
      </span>
      <span class="fit-room">room {card.room}</span>
      <span class="fit-figures">{fit.tightest}</span>
      {card.sun && <span class="fit-figures">{card.sun} of sun on the water</span>}
      {card.to_door && <span class="fit-figures">{card.to_door} from house or door</span>}
      <span class="fit-figures">
        {card.water} water, {card.bank_cut} hole
      </span>
      <span class="fit-figures">
        {card.surplus}, {card.fill} fill
      </span>
      <span class="fit-figures">fits at {card.headings}</span>
    </button>
  );
}

type Ring = readonly (readonly [number, number])[];

const path = (ring: Ring): string => pathOf(ring.flat());

/** Lot, buildings and the shell, north up. */
function Small({ around, rim }: { around: SmallSite; rim: Ring }) {
  const xs = around.lot.map(([x]) => x);
  const ys = around.lot.map(([, y]) => y);
  const [west, north] = [Math.min(...xs), Math.max(...ys)];
  const [wide, high] = [Math.max(...xs) - west, north - Math.min(...ys)];
  const edge = Math.max(wide, high) * 0.04;
  return (
    <svg class="fit-small" viewBox={`${west - edge} ${-north - edge} ${wide + 2 * edge} ${high + 2 * edge}`} aria-hidden="true">
      <path class="fit-lot" d={path(around.lot)} />
      {around.buildings.map((ring, i) => (
        <path key={i} class="fit-building" d={path(ring)} />
      ))}
      <path class="fit-shell" d={path(rim)} />
    </svg>
  );
}
