// The picture's data as the page holds it outside the core: to be kept on the device, and decoded for the
// painter. It is large and seldom changes, so it is fetched only when its number has changed.
import { ask } from '../core/planner.ts';
import { askForFrame } from '../plan/frame.ts';

let stamp = -1;
let data = '';
let showing: symbol | undefined;

/** Follows the picture of the document; gives its data. */
export function followPicture(): string {
  const now = ask((p) => p.picture_stamp(), stamp);
  if (now === stamp) return data;
  stamp = now;
  const fresh = ask((p) => p.picture_data(), '');
  if (fresh === data && showing) return data;
  data = fresh;
  void show(data);
  return data;
}

/** A new core knows nothing of the picture: it is given it again. */
export function forgetPicture(): void {
  stamp = -1;
  showing = undefined;
}

async function show(text: string): Promise<void> {
  const mine = Symbol();
  showing = mine;
  // What was there is taken off first: it is another picture.
  ask((p) => p.show_picture(undefined), undefined);
  if (text === '') return;
  try {
    const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes]));
    if (showing !== mine) return bitmap.close();
    ask((p) => p.show_picture(bitmap), undefined);
    askForFrame();
  } catch (error) {
    console.warn('the picture under the plan cannot be decoded', error);
  }
}
