// Where each finding stands: beside its number, and in sight where it must not be missed.
import type { Finding, Topic } from '../core/types.ts';

/** A conflict, or a caution about this very placement. */
const isPressing = ({ severity, scope }: Finding): boolean =>
  severity === 'fault' || (severity === 'caution' && scope === 'placement');

/** Every finding by the place it stands in, in their order. A group that is closed keeps what is true of the site and of
    every job; what presses stands under the verdict instead. What belongs beside a group that is not there stands under
    the clearances. */
export function places(findings: Finding[], groups: Topic[], open: readonly string[]): Map<Topic, Finding[]> {
  const found = new Map<Topic, Finding[]>();
  for (const finding of findings) {
    const place = placeOf(finding, groups, open);
    const there = found.get(place);
    if (there) there.push(finding);
    else found.set(place, [finding]);
  }
  return found;
}

function placeOf(finding: Finding, groups: Topic[], open: readonly string[]): Topic {
  const { topic } = finding;
  if (topic === 'verdict' || topic === 'clearances') return topic;
  if (!groups.includes(topic)) return 'clearances';
  const closed = topic !== 'cost' && !open.includes(topic);
  return closed && isPressing(finding) ? 'verdict' : topic;
}
