// What was found, by groups: one choice for all of a group, and one for each thing in it.
import type { MapItem } from '../core/types.ts';
import { Choice, plain } from '../fields/Choice.tsx';
import { heard, phrase } from '../words/words.ts';
import { rolesOf } from './roles.ts';

interface Props {
  items: MapItem[];
  roles: string[];
  held: number | null;
  give: (indices: number[], role: string) => void;
  hold: (index: number) => void;
}

/** More things of one group than this are chosen together only. */
const EACH = 150;

const MIXED = 'mixed';

export function Things({ items, roles, held, give, hold }: Props) {
  const groups = new Map<string, number[]>();
  items.forEach((item, i) => {
    const key = `${item.form} ${item.group}`;
    groups.set(key, [...(groups.get(key) ?? []), i]);
  });
  return (
    <ul class="bring-groups">
      {[...groups].map(([key, indices]) => {
        const first = items[indices[0] ?? 0];
        if (!first) return null;
        const given = new Set(indices.map((i) => roles[i]));
        const value = given.size === 1 ? (roles[indices[0] ?? 0] ?? '') : MIXED;
        const options = value === MIXED ? [{ value: MIXED, text: phrase('Various') }, ...rolesOf(first.form)] : rolesOf(first.form);
        const alone = indices.length === 1;
        const head = alone ? title(first) : `${plain(first.group)} (${indices.length})`;
        return (
          <li key={key} class="bring-group" data-held={alone && held === indices[0] ? '' : undefined}>
            <div class="bring-row">
              <span class="bring-name">
                {head}
                {alone && <small>{about(first)}</small>}
              </span>
              <Choice
                quiet
                label={alone ? phrase('{thing} is', { thing: head }) : phrase('All of {group} are', { group: plain(first.group) })}
                value={value}
                options={options}
                choose={(role) => role !== MIXED && give(indices, role)}
              />
            </div>
            {!alone && indices.length <= EACH && (
              <details open={value === MIXED || indices.includes(held ?? -1)}>
                <summary>{phrase('One by one')}</summary>
                <ul>
                  {indices.map((i) => {
                    const item = items[i];
                    if (!item) return null;
                    return (
                      <li key={i} class="bring-row" data-held={held === i ? '' : undefined} onFocusIn={() => hold(i)}>
                        <span class="bring-name">
                          {title(item)}
                          <small>{about(item)}</small>
                        </span>
                        <Choice
                          quiet
                          label={phrase('{thing} ({place}) is', { thing: title(item), place: heard(item.place) })}
                          value={roles[i] ?? ''}
                          options={rolesOf(item.form)}
                          choose={(role) => give([i], role)}
                        />
                      </li>
                    );
                  })}
                </ul>
              </details>
            )}
          </li>
        );
      })}
    </ul>
  );
}

function title(item: MapItem): string {
  if (item.name) return item.form === 'points' && /^\d+$/.test(item.name) ? phrase('Point {name}', { name: item.name }) : plain(item.name);
  return plain(item.group);
}

/** Size and words of a thing, or that it cannot be used. */
function about(item: MapItem): string {
  const parts = [item.usable ? item.size?.text : phrase('cannot be used: see below'), heard(item.words)];
  return parts.filter(Boolean).join(' · ');
}
