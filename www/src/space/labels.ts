// Figures over the canvas, each with a line to the place it belongs to. They keep off each other and within the box.
import type { SpaceLabel } from '../paper/messages.ts';
import type { SpaceView } from './view.ts';

const SVG = 'http://www.w3.org/2000/svg';
/** How far above its place a figure stands at least, css pixels. */
const ABOVE = 26;
/** Between two figures, and to the edge of the box. */
const APART = 5;

interface Shown {
  label: SpaceLabel;
  words: HTMLParagraphElement;
  line: SVGLineElement;
  width: number;
  height: number;
}

export interface Labels {
  show: (stage: number) => void;
  /** Puts them where their places are now, or puts them away; called after every frame. */
  follow: (away: boolean) => void;
  end: () => void;
}

export function labelsOver(box: HTMLElement, view: SpaceView, all: readonly SpaceLabel[]): Labels {
  const layer = document.createElement('div');
  layer.className = 'space-labels';
  layer.setAttribute('aria-hidden', 'true');
  const lines = document.createElementNS(SVG, 'svg');
  layer.append(lines);
  box.append(layer);
  let shown: Shown[] = [];
  return {
    show: (stage) => {
      for (const { words, line } of shown) {
        words.remove();
        line.remove();
      }
      shown = all
        .filter(({ from, to }) => from <= stage && stage <= to)
        .map((label) => {
          const words = document.createElement('p');
          words.textContent = label.text;
          const line = document.createElementNS(SVG, 'line');
          layer.append(words);
          lines.append(line);
          return { label, words, line, width: words.offsetWidth, height: words.offsetHeight };
        });
    },
    follow: (away) => {
      layer.hidden = away;
      if (away) return;
      const taken: { left: number; top: number; right: number; bottom: number }[] = [];
      const [wide, high] = [box.clientWidth, box.clientHeight];
      for (const { label, words, line, width, height } of shown) {
        const at = view.onCanvas(label.at);
        const seen = at && at.x > 0 && at.y > 0 && at.x < wide && at.y < high;
        words.hidden = !seen;
        line.style.visibility = seen ? '' : 'hidden';
        if (!seen) continue;
        const left = Math.max(APART, Math.min(wide - width - APART, at.x - width / 2));
        const clear = (top: number): boolean =>
          taken.every((it) => left + width + APART < it.left || it.right + APART < left || top + height + APART < it.top || it.bottom + APART < top);
        let top = at.y - ABOVE - height;
        while (top > APART && !clear(top)) top -= 4;
        if (top <= APART) {
          top = Math.max(APART, at.y - ABOVE - height);
          while (top < high - height && !clear(top)) top += 4;
        }
        taken.push({ left, top, right: left + width, bottom: top + height });
        words.style.transform = `translate(${Math.round(left)}px, ${Math.round(top)}px)`;
        const foot = top > at.y ? top : top + height;
        const from = Math.max(left + 4, Math.min(left + width - 4, at.x));
        line.setAttribute('x1', String(from));
        line.setAttribute('y1', String(foot));
        line.setAttribute('x2', String(at.x));
        line.setAttribute('y2', String(at.y));
      }
    },
    end: () => layer.remove(),
  };
}
