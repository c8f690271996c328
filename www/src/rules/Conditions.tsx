// Where alone a rule applies.
import type { Finding, RuleConditions } from '../core/types.ts';
import { Figure } from '../fields/fields.tsx';
import { Fold } from '../fields/Fold.tsx';
import { Tick } from '../fields/Tick.tsx';
import { english, phrase } from '../words/words.ts';

interface Props {
  only: RuleConditions | undefined;
  put: (only: RuleConditions) => Finding[];
}

const LIMITS = [
  { member: 'dig_deeper_than', label: english('Only where the dig is deeper than'), measure: 'length' },
  { member: 'lot_smaller_than', label: english('Only on lots smaller than'), measure: 'area' },
  { member: 'lot_at_least', label: english('Only on lots of at least'), measure: 'area' },
] as const;

export function Conditions({ only = {}, put }: Props) {
  const set = <M extends keyof RuleConditions>(member: M, value: RuleConditions[M]): Finding[] => {
    const { [member]: _, ...rest } = only;
    return put(value === undefined || value === false ? rest : { ...rest, [member]: value });
  };
  const limits = Object.keys(only).length;
  return (
    <Fold head={limits > 0 ? phrase('Applies only under conditions ({number})', { number: limits }) : phrase('Applies everywhere')} start={limits > 0}>
      {() => (
        <>
          {LIMITS.map(({ member, label, measure }) => (
            <Figure
              key={member}
              label={phrase(label)}
              measure={measure}
              value={only[member]}
              placeholder={phrase('any')}
              commit={(value) => set(member, value)}
              clear={() => set(member, undefined)}
            />
          ))}
          <Tick
            label={phrase('Only on the street side')}
            on={only.on_street_side ?? false}
            set={(on) => set('on_street_side', on)}
            hint={phrase('To a front or street-side line, or to a thing that no other line of the lot is nearer to.')}
          />
        </>
      )}
    </Fold>
  );
}
