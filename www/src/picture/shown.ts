// The data of the site's images as the page holds it outside the core: to be kept on the device, shown, and, of the picture
// under the plan, decoded for the painter. It is large and seldom changes, so it is fetched only when its number has changed.
import { ask } from '../core/planner.ts';
import { askForFrame } from '../plan/frame.ts';

let stamp = -1;
let data = '';
let showing: symbol | undefined;
let shown = '';

/** Follows the images of the document; gives their data: the picture's on the first line, each photograph's behind its id on
    a line of its own. */
export function followPicture(): string {
  const now = ask((p) => p.images_stamp(), stamp);
  if (now === stamp) return data;
  stamp = now;
  data = ask((p) => p.images_data(), '');
  const [picture = ''] = data.split('\n', 1);
  if (picture !== shown || !showing) {
    shown = picture;
    void show(picture);
  }
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
