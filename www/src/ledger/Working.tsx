// One quantity opened: formula, the numbers in it, where each comes from, waste and rounding.
import type { Workings } from '../door/tally.ts';

export function Working({ workings }: { workings: Workings }) {
  const { label, other, formula, arithmetic, inputs, waste, rounding, source } = workings;
  return (
    <div class="working" role="group" aria-label={`Working of ${label}`}>
      <p class="working-formula">{formula}</p>
      {arithmetic && <p class="working-arithmetic">{arithmetic}</p>}
      {inputs.length > 0 && (
        <table>
          <caption class="unseen">What goes into it</caption>
          <tbody>
            {inputs.map((input) => (
              <tr key={input.name}>
                <th scope="row">{input.name}</th>
                <td class="figure">{input.shown.text}</td>
                <td class="working-source">{input.source}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <dl>
        <Line term="In other units" text={other.text} />
        <Line term="Waste" text={waste} />
        <Line term="Rounding" text={rounding} />
        <Line term="Source" text={source} />
      </dl>
    </div>
  );
}

function Line({ term, text }: { term: string; text: string }) {
  if (!text) return null;
  return (
    <>
      <dt>{term}</dt>
      <dd>{text}</dd>
    </>
  );
}
