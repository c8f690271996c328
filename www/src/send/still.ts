// A still picture of the job in three dimensions, as it is first looked at.
import type { SpaceModel } from '../space/model.ts';
import { firstStage } from '../space/stages.ts';
import { finestOf, openView, whatDraws } from '../space/view.ts';

/** Its size, pixels. */
const WIDE = 1440;
const HIGH = 960;
const QUALITY = 0.7;

/** The picture as the address of its data; nothing where nothing draws here. */
export function stillOf(model: SpaceModel): Promise<string | undefined> {
  const drawing = whatDraws();
  if (drawing === 'nothing') return Promise.resolve(undefined);
  const byProcessor = drawing === 'processor';
  const ratio = finestOf(byProcessor);
  const box = document.createElement('div');
  Object.assign(box.style, { position: 'fixed', visibility: 'hidden', width: `${WIDE / ratio}px`, height: `${HIGH / ratio}px` });
  document.body.append(box);
  return new Promise((done) => {
    const end = (picture?: string): void => {
      done(picture);
      // Not while it paints.
      queueMicrotask(() => {
        view.end();
        box.remove();
      });
    };
    const view = openView(box, model, byProcessor, {
      // Read in the same turn, before the browser clears what was painted.
      painted: () => end(view.canvas.toDataURL('image/jpeg', QUALITY)),
      lost: () => end(),
    });
    view.light(null, false);
    view.show(firstStage(model.record), false);
  });
}
