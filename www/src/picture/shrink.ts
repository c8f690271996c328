// A picture from outside, made small enough to be kept in a site file: decoded by the browser, drawn at a
// smaller size, and written again in the form that weighs least. Nothing is sent anywhere.
import type { Picture } from '../core/types.ts';
import { phrase } from '../words/words.ts';

/** What may come in, bytes and pixels; what goes into the site, bytes and pixels along the longer side. */
export const MOST_BYTES_IN = 25_000_000;
const MOST_PIXELS_IN = 100_000_000;
export const MOST_BYTES = 1_500_000;

const FORMS = { 'image/png': 'png', 'image/jpeg': 'jpeg', 'image/webp': 'webp' } as const;
type Form = keyof typeof FORMS;

/** How far an image is shrunk: sides and qualities are tried from the largest on, until one of the forms is light enough. */
export interface Aim {
  bytes: number;
  sides: readonly number[];
  qualities: readonly number[];
  forms: readonly Form[];
}

const UNDER_THE_PLAN: Aim = {
  bytes: MOST_BYTES,
  sides: [2000, 1600, 1200, 800],
  qualities: [0.9, 0.8, 0.65, 0.5],
  forms: ['image/png', 'image/jpeg', 'image/webp'],
};

export type Shrunk = Pick<Picture, 'media' | 'data' | 'width' | 'height'>;

/** Why a picture was not taken, and what to do. */
export interface Refusal {
  message: string;
  remedy: string;
}

/** The image with what is seen of it alone: it is drawn anew, so nothing that a camera noted beside it is left. */
export async function shrink(file: Blob, aim = UNDER_THE_PLAN): Promise<Shrunk | Refusal> {
  if (file.size > MOST_BYTES_IN) {
    return {
      message: phrase('The picture weighs {size}; at most {most} are read.', { size: megabytes(file.size), most: megabytes(MOST_BYTES_IN) }),
      remedy: phrase('Scan it coarser, or save a smaller copy of it, and add that.'),
    };
  }
  const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => null);
  if (!bitmap) {
    return {
      message: phrase('This is no picture that the browser can read.'),
      remedy: phrase('Add a PNG, JPEG or WebP file; of a document, a scan or a screenshot of its page.'),
    };
  }
  try {
    if (bitmap.width * bitmap.height > MOST_PIXELS_IN) {
      return {
        message: phrase('The picture is {width} by {height} pixels; at most 100 million are read.', { width: bitmap.width, height: bitmap.height }),
        remedy: phrase('Cut out the part that shows the lot, or save a smaller copy of it.'),
      };
    }
    for (const side of aim.sides) {
      const canvas = drawn(bitmap, side);
      for (const quality of aim.qualities) {
        const light = await lightest(canvas, quality, aim);
        if (light) return { ...light, width: canvas.width, height: canvas.height };
      }
    }
  } finally {
    bitmap.close();
  }
  return {
    message: phrase('The picture cannot be brought under {most}.', { most: megabytes(aim.bytes) }),
    remedy: phrase('Cut out the part that shows the lot, and add that.'),
  };
}

function megabytes(bytes: number): string {
  return phrase('{number} MB', { number: (bytes / 1_000_000).toFixed(1) });
}

/** The picture on white paper, its longer side no longer than `side`. */
function drawn(bitmap: ImageBitmap, side: number): HTMLCanvasElement {
  const shrinking = Math.min(1, side / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * shrinking));
  canvas.height = Math.max(1, Math.round(bitmap.height * shrinking));
  const context = canvas.getContext('2d');
  if (context) {
    context.fillStyle = '#fff';
    context.fillRect(0, 0, canvas.width, canvas.height);
    context.imageSmoothingQuality = 'high';
    context.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  }
  return canvas;
}

/** The form that weighs least, where any is light enough: line work as PNG, photographs as one of the others. */
async function lightest(canvas: HTMLCanvasElement, quality: number, { forms, bytes }: Aim): Promise<Pick<Picture, 'media' | 'data'> | null> {
  let best: Blob | null = null;
  for (const form of forms) {
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, form, quality));
    // A browser that cannot write a form gives another one.
    if (blob?.type === form && blob.size <= bytes && (!best || blob.size < best.size)) best = blob;
  }
  return best && { media: FORMS[best.type as Form], data: await base64(best) };
}

function base64(blob: Blob): Promise<string> {
  return new Promise((done, failed) => {
    const reader = new FileReader();
    reader.onload = () => done(String(reader.result).replace(/^[^,]*,/, ''));
    reader.onerror = () => failed(reader.error);
    reader.readAsDataURL(blob);
  });
}
