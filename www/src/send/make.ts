// The three files to send, made on this device of the open job as it is shown: a picture, a sheet, and a page that turns.
import { ask as askPlanner } from '../core/planner.ts';
import { fileName } from '../job/files.ts';
import type { ShownYard, YardView } from '../paper/messages.ts';
import { ask, pdf, print } from '../paper/press.ts';
import { wish as sheetWish, type Wish } from '../paper/wish.ts';
import { picture as looked, pictured } from '../shown/asked.ts';
import { firstStage, stageWords, WORDS } from '../space/stages.ts';
import { bareText } from '../state/document.ts';
import { language } from '../words/language.ts';
import { lettersOf, setIn } from './drawings.ts';
import { FORMS, type Kind, type Wanted } from './forms.ts';
import { packed } from './packed.ts';
import { pageOf, type RoundOf } from './page.ts';
import { pictureOf } from './picture.ts';
import { SAYS } from './says.ts';
import script from './turned.ts?one-script';
import style from './page.css?raw';
import threeLicense from '../space/three-license.txt?raw';
import lettersLicense from '../../../crate/paper/fonts/OFL.txt?raw';
import { english, heard, inEnglish, phrase, tag } from '../words/words.ts';

/** How wide drawings of the yard are, millimeters: their letters are so large in a picture, and in a page that a phone shows. */
const WIDE_IN_PICTURE = 180;
const WIDE_IN_PAGE = 140;
/** How wide the section is, millimeters: as beside the plan on the homeowner's sheet. */
const WIDE_SECTION = 88;
/** Drawings are no narrower and no lower than this for their width. */
const LEAST_SHARE = 0.6;
const MOST_SHARE = 1.15;

const CAUTIONS = [
  english('Call the utility-locating service before anyone digs, and wait for the marks.'),
  english('Stand clear of an unsupported bank.'),
];

/** The day as a reader writes it. */
const today = (): string => new Date().toLocaleDateString(tag(), { dateStyle: 'long' });

/** The language of the page, as the press has it. */
const spoken = (): 'english' | 'spanish' => (language.value === 'es' ? 'spanish' : 'english');

/** The one with a pool: there is no sheet or model of the yard as it is. */
const withPool = (yard: ShownYard): ShownYard => (yard === 'as-it-is' ? 'placed' : yard);

/** A site's text with the shell where a yard has it. */
function placedText(text: string, yard: ShownYard): string {
  if (typeof yard === 'string') return text;
  const whole = JSON.parse(text) as { alternatives?: { placement: unknown }[] };
  const kept = whole.alternatives?.[yard.kept];
  return kept ? JSON.stringify({ ...whole, placement: kept.placement }) : text;
}

async function yardOf(yard: ShownYard, width: number, height: number, room = false): Promise<{ svg: string; view: YardView }> {
  const made = await pictured({ yard, room, width, height, language: spoken() });
  if ('refused' in made) throw new Error(made.refused);
  return made;
}

/** The height of a drawing for its width: that of what is shown, within bounds. What is looked at knows it. */
function shareOf(): number {
  const share = looked.value?.view.share ?? 1;
  return Math.min(MOST_SHARE, Math.max(LEAST_SHARE, share));
}

/** What is shown: the shell, and which place it has where several were kept. */
function nameOf(view: YardView, yard: ShownYard): string {
  const place = typeof yard === 'string' ? '' : (view.places[yard.kept + 1] ?? '');
  return [view.shell || phrase('The yard today'), place].filter(Boolean).join(', ');
}

async function picture({ yard, room }: Wanted): Promise<Blob> {
  const share = shareOf();
  const { svg, view } = await yardOf(yard, WIDE_IN_PICTURE, WIDE_IN_PICTURE * share, room);
  return pictureOf(svg, share, view, { name: nameOf(view, yard), day: today(), room });
}

/** The homeowner's sheet, printed by the press. */
async function sheet({ yard }: Wanted): Promise<Blob> {
  const text = placedText(askPlanner((p) => p.save(), ''), withPool(yard));
  const wanted: Wish = { ...sheetWish.value, kind: 'home', paper: null, lie: null, scale: null, centre: null, language: spoken(), without: [], price: false };
  const made = await print(text, wanted);
  if (!made || made.pages.length === 0) throw new Error(made?.made.findings[0]?.message ?? phrase('a newer sheet came first'));
  return new Blob([await pdf()], { type: FORMS.sheet[1] });
}

/** The model, its script and its picture. */
async function roundOf(yard: ShownYard): Promise<RoundOf> {
  const model = await ask('space', { site: placedText(bareText(), yard) });
  const { stillOf } = await import('./still.ts');
  const [still, code] = await Promise.all([
    stillOf(model).catch(() => undefined),
    fetch(script).then((it) => (it.ok ? it.text() : Promise.reject(new Error(`${it.status} ${script}`)))),
  ]);
  const { stages, labels, notes } = model.record;
  const record = {
    ...model.record,
    stages: stages.map((it) => ({ ...it, name: heard(it.name) })),
    labels: labels.map((it) => ({ ...it, text: heard(it.text) })),
    notes: notes.map(heard),
  };
  const said = Object.fromEntries([...Object.values(SAYS), ...WORDS].map((it) => [inEnglish(it), phrase(it)]));
  const words = stageWords(record, firstStage(record), phrase);
  return { inside: { record, packed: packed(model), said }, script: code, words, picture: still };
}

async function page(wanted: Wanted): Promise<Blob> {
  const yard = withPool(wanted.yard);
  const share = shareOf();
  const size = [WIDE_IN_PAGE, WIDE_IN_PAGE * share] as const;
  const pool = await yardOf(yard, ...size);
  const bare = await yardOf('as-it-is', ...size);
  const { view } = pool;
  const cut = await ask('yard-section', { yard, width: WIDE_SECTION });
  const text = await pageOf({
    title: view.title,
    firm: view.firm,
    shell: nameOf(view, yard),
    day: today(),
    fits: view.fits,
    short: view.short,
    against: view.against,
    facts: view.facts,
    yards: [
      { name: phrase('With the pool'), svg: setIn(pool.svg, 'pool', phrase('The yard with {shell}. {fits}', { shell: view.shell, fits: view.fits })) },
      { name: phrase('The yard today'), svg: setIn(bare.svg, 'bare', phrase('The yard as it is')) },
    ],
    section: cut ? { svg: setIn(cut, 'cut', phrase('Section through the pool. {facts}.', { facts: view.facts.map((it) => it.join(' ')).join(', ') })) } : undefined,
    round: await roundOf(yard),
    cautions: [view.caution, ...CAUTIONS.map((it) => phrase(it)), ...view.cautions.map(heard)],
    letters: lettersOf(pool.svg),
    style,
    licenses: [
      { of: phrase('The model is drawn with three.js, under the MIT license'), text: threeLicense },
      { of: phrase('The letters of the drawings are Barlow, under the SIL Open Font License'), text: lettersLicense },
    ],
  });
  return new Blob([text], { type: FORMS.page[1] });
}

const MAKERS: Record<Kind, (wanted: Wanted) => Promise<Blob>> = { picture, sheet, page };

/** Makes a file of what is looked at. */
export async function make(kind: Kind, wanted: Wanted): Promise<File> {
  const [ending, type] = FORMS[kind];
  const place = typeof wanted.yard === 'string' ? '' : `-place-${wanted.yard.kept + 2}`;
  return new File([await MAKERS[kind](wanted)], `${fileName()}${place}-yard.${ending}`, { type });
}
