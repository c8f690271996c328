// What courses close to and enclose, as a list of figures.
import type { LotClosing as DeedFigures } from '../core/types.ts';
import { heard, phrase } from '../words/words.ts';

export function Closing({ figures, label }: { figures: DeedFigures; label: string }) {
  const { area, direction, ratio, stated, difference, poorer_than } = figures;
  const rows: [string, string | undefined][] = [
    [phrase('Misclosure'), figures.misclosure.text],
    [phrase('Northing, easting'), `${figures.northing.text}, ${figures.easting.text}`],
    [phrase('Direction'), direction ? heard(direction.text) : undefined],
    [phrase('Precision'), ratio?.text ?? phrase('closes exactly')],
    [phrase('Perimeter'), figures.perimeter.text],
    [phrase('Area'), area ? `${area.feet.text}; ${area.metres.text}` : phrase('encloses none')],
    [phrase('Area stated'), stated?.text],
    [phrase('Computed less stated'), difference ? heard(difference.text) : undefined],
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
                  {weak && value !== stated?.text && <span class="weak"> (?)</span>}
                </dd>
              </div>
            ),
        )}
      </dl>
      {poorer_than && (
        <p class="caution">
          {phrase('The courses do not close within {ratio}. Every figure marked (?), here, on the plan and in the ledger, is weaker than it looks.', { ratio: poorer_than.text })}
        </p>
      )}
    </>
  );
}
