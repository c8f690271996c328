// A sentence for the user. Bad news stays until it is dismissed.
import { useEffect } from 'preact/hooks';
import { notice } from '../state/store.ts';
import { phrase } from '../words/words.ts';

const SHOWN_FOR = 3500;

export function NoticeBar() {
  const now = notice.value;
  useEffect(() => {
    if (!now || now.kind === 'bad') return;
    const timer = setTimeout(() => (notice.value = null), SHOWN_FOR);
    return () => clearTimeout(timer);
  }, [now]);
  return (
    <div class="notice-place" role={now?.kind === 'bad' ? 'alert' : 'status'} aria-live="polite">
      {now && (
        <p class="notice" data-kind={now.kind}>
          {now.text}
          <button type="button" class="close" aria-label={phrase('Dismiss')} onClick={() => (notice.value = null)}>
            ×
          </button>
        </p>
      )}
    </div>
  );
}
