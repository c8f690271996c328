// What stands on and under the lot.
import type { Site } from '../door/records.ts';
import { Features } from './Features.tsx';

export function YardStep({ site }: { site: Site }) {
  return <Features features={site.features} />;
}
