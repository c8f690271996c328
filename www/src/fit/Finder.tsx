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
import { count, english, heard, phrase, phrased, type English } from '../words/words.ts';
import { begin, failed, search, stop } from './search.ts';
import './fit.css';

const WANTED = [
  { value: 'most-room', text: english('the most room') },
  { value: 'near-door', text: english('the shortest way from a door') },
  { value: 'parallel', text: english('parallel or square to house or line') },
  { value: 'least-spoil', text: english('the least earth hauled away') },
  { value: 'least-fill', text: english('the least fill') },
  { value: 'most-sun', text: english('the most sun on the water') },
] as const satisfies readonly { value: FitAim; text: English }[];

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
      <Choice<FitAim> label={phrase('Best is')} value={wanted} options={phrased(WANTED)} choose={want} />
      {name !== undefined && (
        <Choice<'all' | 'this'>
          label={phrase('Shells')}
          value={shells}
          options={[
            { value: 'all', text: phrase('all of the catalogue') },
            { value: 'this', text: name },
          ]}
          choose={choose}
        />
      )}
      {sunny && <DayField />}
      {nowhere && (
        <>
          <p>{phrase('Say where on the earth the site lies, so that the sun over it is known.')}</p>
          <OriginField laid={() => {}} />
        </>
      )}
      <div class="buttons">
        {underWay ? (
          <button type="button" onClick={stop}>
            {phrase('Stop')}
          </button>
        ) : (
          <button type="button" disabled={nowhere} onClick={() => void begin(wish())}>
            {phrase('Look for places')}
          </button>
        )}
      </div>
      {it && underWay && (
        <p class="fit-progress">
          <progress value={it.done} max={it.of} aria-label={phrase('Shells tried')} />
          {phrase('{done} of {of} shells, every degree', { done: it.done, of: it.of })}
        </p>
      )}
      <p class="unseen" role="status">
        {it?.state === 'done' && count(cards.length, '{n} place found.', '{n} places found.')}
      </p>
      {failed.value !== '' && <p role="alert">{heard(failed.value)}</p>}
      {it?.state === 'done' && cards.length === 0 && <p>{phrase('No shell fits anywhere by the rules as entered.')}</p>}
      {stale && cards.length > 0 && <p class="field-hint">{phrase('Found before the last change: look again where rules, lot or yard have changed.')}</p>}
      <ol class="fit-cards">
        {cards.slice(0, more ? cards.length : SHOWN).map((card, index) => (
          <li key={index}>
            <Card card={card} around={it?.around} />
          </li>
        ))}
      </ol>
      {cards.length > SHOWN && !more && (
        <button type="button" onClick={() => showMore(true)}>
          {count(cards.length - SHOWN, '{n} more place', '{n} more places')}
        </button>
      )}
      {name !== undefined && <LargestPart />}
      <p class="field-hint">
        {phrase('By the rules as entered, on this plan: no survey and no permit. On sloping ground each place is measured with a hole of its own. The local authority governs; before anyone digs, the utility-locating service marks the lines.')}
      </p>
    </>
  );
}

function Card({ card, around }: { card: FitCard; around: SmallSite | undefined }) {
  const { fit } = card;
  const { shell, at, heading, mirrored, coping_elevation } = fit;
  const put = (): void => {
    const placement = { shell, at, heading, mirrored: mirrored ?? false, coping_elevation };
    if (editOrTell({ 'set-placement': placement }, phrase('{shell} was not placed.', { shell: fit.name }))) say(phrase('{shell} placed. Undo takes it back.', { shell: fit.name }));
  };
  return (
    <button type="button" class="fit-card" onClick={put}>
      {around && <Small around={around} rim={fit.rim} />}
      <span class="fit-name">
        {mirrored ? phrase('{shell}, flipped', { shell: fit.name }) : fit.name}
      </span>
      <span class="fit-room">{phrase('room {room}', { room: card.room })}</span>
      <span class="fit-figures">{heard(fit.tightest)}</span>
      {card.sun && <span class="fit-figures">{phrase('{sun} of sun on the water', { sun: card.sun })}</span>}
      {card.to_door && <span class="fit-figures">{phrase('{to_door} from house or door', { to_door: card.to_door })}</span>}
      <span class="fit-figures">
        {phrase('{water} water, {bank_cut} hole', { water: card.water, bank_cut: card.bank_cut })}
      </span>
      <span class="fit-figures">
        {phrase('{surplus}, {fill} fill', { surplus: heard(card.surplus), fill: card.fill })}
      </span>
      <span class="fit-figures">{phrase('fits at {headings}', { headings: heard(card.headings) })}</span>
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
