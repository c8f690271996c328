// The crane: where it stands and where the shell comes from, radius and weight to be read off to the crane company, what
// the shell passes over, wires, and what an outrigger puts on the ground.
import type { Lift, Site } from '../core/types.ts';
import { Fold } from '../fields/Fold.tsx';
import { Figure } from '../fields/fields.tsx';
import type { AccessFigures } from '../paper/messages.ts';
import { Line, Maybe } from '../steps/dig/shared.tsx';
import { FindingList } from '../ledger/FindingList.tsx';
import { NAMES, put, spotAt, type Spot } from './spots.ts';

type Crane = AccessFigures['crane'];

export function CranePart({ site, figures }: { site: Site; figures: Crane | null }) {
  const lift = site.lift ?? {};
  return (
    <section aria-labelledby="crane-head">
      <h3 class="yard-kind" id="crane-head">
        Crane
      </h3>
      <div class="buttons">
        <Place lift={lift} spot="crane" place="Place the crane" move="Move the crane" />
        <Place lift={lift} spot="delivery" place="Place the truck" move="Move the truck" />
      </div>
      {figures?.at && <Told now={figures} />}
      {(lift.crane || lift.delivery || lift.set_down) && (
        <Fold class="card" head="Places, typed">
          {() => (
            <>
              <Typed lift={lift} spot="crane" />
              {lift.crane && (
                <Figure label="Crane, bearing" measure="heading" value={lift.crane.heading ?? 0} commit={put.heading} />
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
        <button type="button" aria-label={`Remove: ${NAMES[spot]}`} onClick={() => put.away(spot)}>
          Remove
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
      <Figure label={`${NAMES[spot]}, east`} measure="long-length" value={east} commit={(it) => put.at(spot, [it, north])} />
      <Figure label={`${NAMES[spot]}, north`} measure="long-length" value={north} commit={(it) => put.at(spot, [east, it])} />
    </div>
  );
}

function Told({ now }: { now: Crane }) {
  const rows: [string, string | undefined][] = [
    ['Radius to the shell in its place', now.radius_to_place?.shown.text],
    ['Radius to the truck', now.radius_to_truck?.shown.text],
    ['Shell', now.shell_weight?.shown.text],
    ['Shell and rigging', now.load?.shown.text],
    ['Boom tip above the ground', now.tip?.shown.text],
    ['Nearest pad to the top of the dig', now.to_dig?.shown.text],
    ['Under the pad of an outrigger', now.bearing?.shown.text],
  ];
  return (
    <>
      {now.ask && (
        <p class="way-head" role="status">
          Ask the crane company for <b>{now.ask}</b>.
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
      {now.working && <p class="field-hint">{now.working}</p>}
      <ul class="way-list" aria-label="Under and beside the lift">
        {now.wires.map((it) => (
          <li key={it.name} data-short={it.room !== null && it.room.value < 0}>
            {it.name}: <b>{it.distance.shown.text}</b> {it.on_plan ? 'on the plan' : 'in space'}
            {it.required && `, least ${it.required.shown.text}`}
          </li>
        ))}
        {now.passed.map((it) => (
          <li key={it.name} data-short={it.room !== null && it.room.value < 0}>
            Over {it.name}: {it.room ? `${it.room.shown.text} under the shell` : 'height not entered'}
          </li>
        ))}
      </ul>
      <FindingList list={now.findings} label="About the lift" />
    </>
  );
}

function Settings({ site: { works } }: { site: Site }) {
  const line = { works, part: 'crane' } as const;
  return (
    <Fold class="card" head="The crane that comes">
      {() => (
        <>
          <p class="field-hint">What is entered here is common practice with no source: enter the crane company’s figures.</p>
          <div class="pairs">
            <Line {...line} member="outrigger_length" measure="length" label="Outriggers, along" />
            <Line {...line} member="outrigger_width" measure="length" label="Outriggers, across" />
            <Line {...line} member="pad" measure="length" label="Side of a pad" />
            <Line {...line} member="weight" measure="weight" label="Weight of the crane" />
            <Line {...line} member="rigging" measure="weight" label="Weight of the rigging" />
            <Line {...line} member="share" measure="fraction" label="Most on one outrigger" />
            <Maybe {...line} member="shell_weight" measure="weight" label="Weight of the shell" placeholder="by the shell" />
            <Line {...line} member="lift_height" measure="length" label="Shell lifted so high" />
            <Line {...line} member="tip_above" measure="length" label="Boom tip above the shell" />
            <Line {...line} member="swing" measure="length" label="Swing of the shell" />
            <Line {...line} member="room_below" measure="length" label="Room under the shell" />
          </div>
        </>
      )}
    </Fold>
  );
}
