// The planner keeps stopping on this work: the work is handed out, and a blank lot is offered.
import { good } from '../core/planner.ts';
import type { Site } from '../core/types.ts';
import { goOnBlank } from '../state/actions.ts';
import { download, fileName } from './files.ts';
import { Sheet } from './Sheet.tsx';

/** The site file with its picture: no core is there to write it. */
function whole(): string {
  const { text, picture } = good();
  if (picture === '') return text;
  const site = JSON.parse(text) as Site;
  if (site.picture) site.picture.data = picture;
  return `${JSON.stringify(site, null, 2)}\n`;
}

export function StoppedSheet() {
  const text = whole();
  return (
    <Sheet label="The planner stopped" class="findings" close={() => {}}>
      <h2>The planner keeps stopping on this work</h2>
      <p>
        Nothing is lost: the work as it was after the last good step can be saved as a file. Then go on with a blank lot,
        or reload the page to try again.
      </p>
      <div class="buttons">
        <button
          type="button"
          class="main"
          disabled={text === ''}
          onClick={() => download(text, `${fileName()}.json`, 'application/json')}
        >
          Save the work as a file
        </button>
        <button type="button" onClick={goOnBlank}>
          Go on with a blank lot
        </button>
      </div>
    </Sheet>
  );
}
