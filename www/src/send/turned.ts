// The script of a saved page: the model of the job that hands, fingers and keys turn, in place of its still picture. It is
// the page's own (`www/src/space`), bundled into one plain script; where nothing draws, the picture stays.
import { nearer, wholeLook, type Look } from '../space/camera.ts';
import { forHands, handsOn } from '../space/hands.ts';
import { labelsOver } from '../space/labels.ts';
import { firstStage, stageWords } from '../space/stages.ts';
import { openView, whatDraws } from '../space/view.ts';
import { inEnglish, type English } from '../words/english.ts';
import { IDS, type Inside } from './inside.ts';
import { unpacked } from './packed.ts';
import { SAYS } from './says.ts';

/** What the page was saved with, by its English. */
let said: Record<string, string> = {};
const say = (words: English): string => said[inEnglish(words)] ?? inEnglish(words);

const byId = (id: string): HTMLElement | null => document.getElementById(id);

function begin(): void {
  const box = byId(IDS.box);
  const choices = byId(IDS.choices);
  const text = byId(IDS.data)?.textContent;
  if (!box || !choices || !text) return;
  const still = (why: string): void => {
    delete box.dataset['turning'];
    box.querySelectorAll('canvas, .space-labels, .space-tools').forEach((it) => it.remove());
    choices.replaceChildren();
    const told = byId(IDS.why);
    if (told) told.textContent = why;
  };
  const drawing = whatDraws();
  try {
    const inside = JSON.parse(text) as Inside;
    said = inside.said;
    if (drawing === 'nothing') return still(say(SAYS.nothing));
    turning(box, choices, inside, drawing === 'processor', still);
  } catch (why) {
    console.error('nothing draws in three dimensions', why);
    still(say(SAYS.failed));
  }
}

function turning(box: HTMLElement, choices: HTMLElement, { record, packed }: Inside, byProcessor: boolean, still: (why: string) => void): void {
  const model = { record, ...unpacked(packed) };
  let stage = firstStage(record);
  let cut = false;
  let figures = false;
  const view = openView(box, model, byProcessor, {
    painted: (_, moving) => {
      labels.follow(byProcessor && moving);
      box.dataset['turning'] = 'yes';
      view.canvas.dataset['frames'] = String(Number(view.canvas.dataset['frames'] ?? 0) + 1);
    },
    lost: () => still(say(SAYS.lost)),
  });
  const { canvas } = view;
  forHands(canvas, IDS.keys);
  const labels = labelsOver(box, view, record.labels);
  // The wheel scrolls the page until somebody has the model in hand.
  box.addEventListener('wheel', (event) => document.activeElement !== canvas && event.stopPropagation(), { capture: true });
  canvas.addEventListener('pointerdown', () => canvas.focus({ preventScroll: true }));
  handsOn(canvas, view, record.reach);

  const show = (): void => {
    const words = stageWords(record, stage, say);
    view.show(stage, cut);
    labels.show(figures ? stage : -1);
    canvas.setAttribute('aria-label', words);
    const told = byId(IDS.words);
    if (told) told.textContent = words;
    stages.forEach((it, i) => it.setAttribute('aria-pressed', String(i === stage)));
  };
  const look = (next: (now: Look) => Look): void => view.setLook(next(view.look), true);
  const whole = (): Look => wholeLook(record, cut);

  const stages = record.stages.map(({ name }, i) =>
    button(name, () => {
      stage = i;
      show();
    }),
  );
  if (record.placed) choices.append(group(say(SAYS.stage), stages));
  const ways: HTMLButtonElement[] = [];
  const toggle = (name: string, does: (on: boolean) => void): void => {
    const it = button(name, () => {
      const on = it.getAttribute('aria-pressed') !== 'true';
      it.setAttribute('aria-pressed', String(on));
      does(on);
      show();
    });
    it.setAttribute('aria-pressed', 'false');
    ways.push(it);
  };
  if (record.section) {
    toggle(say(SAYS.cut), (on) => {
      cut = on;
      look(whole);
    });
  }
  toggle(say(SAYS.figures), (on) => (figures = on));
  choices.append(group(say(SAYS.ways), ways));
  const tools = group(say(SAYS.look), [
    button('+', () => look((it) => nearer(it, 0.8)), say(SAYS.nearer)),
    button('−', () => look((it) => nearer(it, 1.25)), say(SAYS.farther)),
    button('⌂', () => look(whole), say(SAYS.whole)),
  ]);
  tools.className = 'space-tools';
  box.append(tools);
  view.light(null, false);
  show();
}

function button(text: string, does: () => void, words?: string): HTMLButtonElement {
  const it = document.createElement('button');
  it.type = 'button';
  it.textContent = text;
  if (words) it.setAttribute('aria-label', words);
  it.addEventListener('click', does);
  return it;
}

function group(words: string, of: HTMLElement[]): HTMLDivElement {
  const it = document.createElement('div');
  it.setAttribute('role', 'group');
  it.setAttribute('aria-label', words);
  it.append(...of);
  return it;
}

begin();
