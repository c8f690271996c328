// The lot from somebody else's map or list.
import { chooseIncoming } from '../bring/incoming.ts';
import { phrase } from '../words/words.ts';

export function BringPart() {
  return (
    <details class="part">
      <summary>{phrase('From a map or a list of points')}</summary>
      <div class="part-body">
        <p class="field-hint">
          {phrase("An office's map of parcels (GeoJSON), a surveyor's list of points, or pasted coordinates. Lines of a map are no survey: have them staked before anything is built by them.")}
        </p>
        <button type="button" onClick={chooseIncoming}>
          {phrase('Bring in a map, list or survey')}
        </button>
      </div>
    </details>
  );
}
