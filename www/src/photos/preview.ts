// The photograph that is being placed, small in a corner of the plan: whoever marks where it was taken sees it meanwhile.
import { phrase } from '../words/words.ts';

/** Shows it; gives what takes it away. */
export function preview(data: string): () => void {
  const sheet = document.querySelector('.plan-sheet');
  const bytes = Uint8Array.from(atob(data), (letter) => letter.charCodeAt(0));
  const address = URL.createObjectURL(new Blob([bytes], { type: 'image/jpeg' }));
  const it = document.createElement('img');
  it.className = 'photo-preview';
  it.alt = phrase('The photograph that is being placed');
  it.src = address;
  sheet?.append(it);
  return () => {
    it.remove();
    URL.revokeObjectURL(address);
  };
}
