// A sheet whose code is fetched when somebody first wants it.
import { sheet } from '../state/store.ts';
import { phrase } from '../words/words.ts';
import { begin, useLater, type LaterPart } from './Later.tsx';
import { Sheet } from './Sheet.tsx';

export function LaterSheet({ label, of }: { label: string; of: LaterPart }) {
  const found = useLater(of);
  if (found !== null && found !== 'failed') {
    const { part: Part } = found;
    return <Part />;
  }
  const close = (): void => {
    sheet.value = null;
  };
  return (
    <Sheet label={label} close={close}>
      <h2>{label}</h2>
      <p aria-live="polite">
        {found === 'failed' ? phrase('This part of the planner could not be loaded. Connect once, then try again.') : phrase('This part is being loaded.')}
      </p>
      <div class="buttons">
        {found === 'failed' && (
          <button type="button" onClick={() => begin(of)}>
            {phrase('Try again')}
          </button>
        )}
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </div>
    </Sheet>
  );
}
