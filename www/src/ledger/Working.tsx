// One quantity opened: formula, the numbers in it, where each comes from, waste and rounding.
import type { CauseFigures, Workings } from '../core/types.ts';
import { heard, phrase } from '../words/words.ts';

export function Working({ workings }: { workings: Workings }) {
  const { label, shown, other, formula, arithmetic, inputs, waste, rounding, source, assumptions, range } = workings;
  return (
    <div class="working" role="group" aria-label={phrase('Calculation of {label}', { label: heard(label) })}>
      <p class="working-formula">{heard(formula)}</p>
      {arithmetic && <p class="working-arithmetic">{arithmetic}</p>}
      {inputs.length > 0 && (
        <table>
          <caption class="unseen">{phrase('Inputs')}</caption>
          <tbody>
            {inputs.map((input) => (
              <tr key={input.name}>
                <th scope="row">{heard(input.name)}</th>
                <td class="figure">
                  {input.shown.text}
                  {input.other.text !== input.shown.text && <small>{input.other.text}</small>}
                </td>
                <td class="working-source">{heard(input.source)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {range && (
        <Doubts
          caption={phrase('Uncertainty')}
          low={range.low.shown.text}
          expected={shown.text}
          high={range.high.shown.text}
          causes={range.causes}
          open={range.open}
        />
      )}
      <dl>
        <Line term={phrase('In other units')} text={other.text} />
        <Line term={phrase('Waste')} text={heard(waste)} />
        <Line term={phrase('Rounding')} text={heard(rounding)} />
        <Line term={phrase('Source')} text={heard(source)} />
        <Line term={phrase('Assumptions')} text={assumptions.map(heard).join(' ')} />
      </dl>
    </div>
  );
}

/** How far it may be out, and what each cause alone does to it. */
interface DoubtsProps {
  caption: string;
  low: string;
  expected: string;
  high: string;
  causes: CauseFigures[];
  open?: boolean;
}

export function Doubts({ caption, low: least, expected, high: most, causes, open }: DoubtsProps) {
  return (
    <table class="working-doubts">
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">{phrase('Cause')}</th>
          <th scope="col">{phrase('Low')}</th>
          <th scope="col">{phrase('Expected')}</th>
          <th scope="col">{phrase('High')}</th>
        </tr>
      </thead>
      <tbody>
        {causes.map(({ words, less, more }) => {
          const [low, high] = less.shown.value <= more.shown.value ? [less.shown, more.shown] : [more.shown, less.shown];
          return (
            <tr key={words}>
              <th scope="row">{heard(words)}</th>
              <td>{low.text}</td>
              <td>{expected}</td>
              <td>{high.text}</td>
            </tr>
          );
        })}
        <tr class="working-together">
          <th scope="row">{phrase('together')}</th>
          <td>{least}</td>
          <td>{expected}</td>
          <td>{most}</td>
        </tr>
      </tbody>
      {open && (
        <tfoot>
          <tr>
            <td colSpan={4}>{phrase('Part of the ground is unknown: nobody can say how far out it is there.')}</td>
          </tr>
        </tfoot>
      )}
    </table>
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
