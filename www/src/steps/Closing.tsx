// What courses close to and enclose, as a list of figures.
import type { LotClosing as DeedFigures } from '../core/types.ts';

export function Closing({ figures, label }: { figures: DeedFigures; label: string }) {
  const { area, direction, ratio, stated, difference, poorer_than } = figures;
  const rows: [string, string | undefined][] = [
    ['Misclosure', figures.misclosure.text],
    ['Northing, easting', `${figures.northing.text}, ${figures.easting.text}`],
    ['Direction', direction?.text],
    ['Precision', ratio?.text ?? 'closes exactly'],
    ['Perimeter', figures.perimeter.text],
    ['Area', area ? `${area.feet.text}; ${area.metres.text}` : 'encloses none'],
    ['Area stated', stated?.text],
    ['Computed less stated', difference?.text],
  ];
  const weak = poorer_than !== null;
  return (
    <>
      <dl class="deed-figures" aria-label={label}>
        {rows.map(
          ([name, value]) =>
            value !== undefined && (
              <div key={name}>
                <dt>{name}</dt>
                <dd>
                  {value}
                  {weak && name !== 'Area stated' && <span class="weak"> (?)</span>}
                </dd>
              </div>
            ),
        )}
      </dl>
      {poorer_than && (
        <p class="caution">
          The courses do not close within {poorer_than.text}. Every figure marked (?), here, on the plan and in the
          ledger, is weaker than it looks.
        </p>
      )}
    </>
  );
}
