// The planner keeps stopping on this work: the work is handed out, and a blank lot is offered.
import { good } from '../core/planner.ts';
import { wholeText } from '../jobs/whole.ts';
import { goOnBlank } from '../state/actions.ts';
import { phrase } from '../words/words.ts';
import { download, fileName } from './files.ts';
import { Sheet } from './Sheet.tsx';

export function StoppedSheet() {
  const text = wholeText(good());
  return (
    <Sheet label={phrase('The planner stopped')} class="findings" close={() => {}}>
      <h2>{phrase('The planner keeps stopping on this work')}</h2>
      <p>
        {phrase('Nothing is lost: the work as it was after the last good step can be saved as a file. Then go on with a blank lot, or reload the page to try again.')}
      </p>
      <div class="buttons">
        <button
          type="button"
          class="main"
          disabled={text === ''}
          onClick={() => download(text, `${fileName()}.json`, 'application/json')}
        >
          {phrase('Save the work as a file')}
        </button>
        <button type="button" onClick={goOnBlank}>
          {phrase('Go on with a blank lot')}
        </button>
      </div>
    </Sheet>
  );
}
