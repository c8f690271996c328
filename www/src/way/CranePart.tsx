// The crane: where it stands and where the shell comes from, radius and weight to be read off to the crane company, what
// the shell passes over, wires, and what an outrigger puts on the ground.
import type { Lift, Site } from '../core/types.ts';
import { Fold } from '../fields/Fold.tsx';
import { Figure } from '../fields/fields.tsx';
import type { AccessFigures } from '../paper/messages.ts';
import { Line, Maybe } from '../steps/dig/shared.tsx';
import { FindingList } from '../ledger/FindingList.tsx';
import { heard, phrase, woven } from '../words/words.ts';
import { NAMES, put, spotAt, type Spot } from './spots.ts';

type Crane = AccessFigures['crane'];

export function CranePart({ site, figures }: { site: Site; figures: Crane | null }) {
  const lift = site.lift ?? {};
  return (
    <section aria-labelledby="crane-head">
      <h3 class="yard-kind" id="crane-head">
        {phrase('Crane')}
      </h3>
      <div class="buttons">
        <Place lift={lift} spot="crane" place={phrase('Place the crane')} move={phrase('Move the crane')} />
        <Place lift={lift} spot="delivery" place={phrase('Place the truck')} move={phrase('Move the truck')} />
      </div>
      {figures?.at && <Told now={figures} />}
      {(lift.crane || lift.delivery || lift.set_down) && (
        <Fold class="card" head={phrase('Places, typed')}>
          {() => (
            <>
              <Typed lift={lift} spot="crane" />
              {lift.crane && (
                <Figure label={phrase('Crane, bearing')} measure="heading" value={lift.crane.heading ?? 0} commit={put.heading} />
              )}
              <Typed lift={lift} spot="delivery" />
              <Typed lift={lift} spot="set_down" />
            </>
          )}
        </Fold>
      )}
      {lift.crane && <Settings site={site} />}
    </section>
  );
}

function Place({ lift, spot, place, move }: { lift: Lift; spot: Spot; place: string; move: string }) {
  const there = spotAt(lift, spot) !== undefined;
  return (
    <>
      <button type="button" onClick={() => void put.pick(spot)}>
        {there ? move : place}
      </button>
      {there && (
        <button type="button" aria-label={phrase('Remove: {spot}', { spot: phrase(NAMES[spot]) })} onClick={() => put.away(spot)}>
          {phrase('Remove')}
        </button>
      )}
    </>
  );
}

function Typed({ lift, spot }: { lift: Lift; spot: Spot }) {
  const at = spotAt(lift, spot);
  if (!at) return null;
  const [east, north] = at;
  return (
    <div class="pairs">
      <Figure label={phrase('{spot}, east', { spot: phrase(NAMES[spot]) })} measure="long-length" value={east} commit={(it) => put.at(spot, [it, north])} />
      <Figure label={phrase('{spot}, north', { spot: phrase(NAMES[spot]) })} measure="long-length" value={north} commit={(it) => put.at(spot, [east, it])} />
    </div>
  );
}

function Told({ now }: { now: Crane }) {
  const rows: [string, string | undefined][] = [
    [phrase('Radius to the shell in its place'), now.radius_to_place?.shown.text],
    [phrase('Radius to the truck'), now.radius_to_truck?.shown.text],
    [phrase('Shell'), now.shell_weight?.shown.text],
    [phrase('Shell and rigging'), now.load?.shown.text],
    [phrase('Boom tip above the ground'), now.tip?.shown.text],
    [phrase('Nearest pad to the top of the dig'), now.to_dig?.shown.text],
    [phrase('Under the pad of an outrigger'), now.bearing?.shown.text],
  ];
  return (
    <>
      {now.ask && (
        <p class="way-head" role="status">
          {woven('Ask the crane company for {load}.', { load: <b>{heard(now.ask)}</b> })}
        </p>
      )}
      <dl class="way-figures">
        {rows.map(
          ([name, text]) =>
            text && (
              <div key={name}>
                <dt>{name}</dt>
                <dd>{text}</dd>
              </div>
            ),
        )}
      </dl>
      {now.working && <p class="field-hint">{heard(now.working)}</p>}
      <ul class="way-list" aria-label={phrase('Under and beside the lift')}>
        {now.wires.map((it) => (
          <li key={it.name} data-short={it.room !== null && it.room.value < 0}>
            {heard(it.name)}: <b>{it.distance.shown.text}</b> {it.on_plan ? phrase('on the plan') : phrase('in space')}
            {it.required && `, ${phrase('least {required}', { required: it.required.shown.text })}`}
          </li>
        ))}
        {now.passed.map((it) => (
          <li key={it.name} data-short={it.room !== null && it.room.value < 0}>
            {it.room
              ? phrase('Over {thing}: {room} under the shell', { thing: heard(it.name), room: it.room.shown.text })
              : phrase('Over {thing}: height not entered', { thing: heard(it.name) })}
          </li>
        ))}
      </ul>
      <FindingList list={now.findings} label={phrase('About the lift')} />
    </>
  );
}

function Settings({ site: { works } }: { site: Site }) {
  const line = { works, part: 'crane' } as const;
  return (
    <Fold class="card" head={phrase('The crane that comes')}>
      {() => (
        <>
          <p class="field-hint">{phrase('What is entered here is common practice with no source: enter the crane company’s figures.')}</p>
          <div class="pairs">
            <Line {...line} member="outrigger_length" measure="length" label={phrase('Outriggers, along')} />
            <Line {...line} member="outrigger_width" measure="length" label={phrase('Outriggers, across')} />
            <Line {...line} member="pad" measure="length" label={phrase('Side of a pad')} />
            <Line {...line} member="weight" measure="weight" label={phrase('Weight of the crane')} />
            <Line {...line} member="rigging" measure="weight" label={phrase('Weight of the rigging')} />
            <Line {...line} member="share" measure="fraction" label={phrase('Most on one outrigger')} />
            <Maybe {...line} member="shell_weight" measure="weight" label={phrase('Weight of the shell')} placeholder={phrase('by the shell')} />
            <Line {...line} member="lift_height" measure="length" label={phrase('Shell lifted so high')} />
            <Line {...line} member="tip_above" measure="length" label={phrase('Boom tip above the shell')} />
            <Line {...line} member="swing" measure="length" label={phrase('Swing of the shell')} />
            <Line {...line} member="room_below" measure="length" label={phrase('Room under the shell')} />
          </div>
        </>
      )}
    </Fold>
  );
}
