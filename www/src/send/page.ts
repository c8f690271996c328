// The page that is sent: one file that opens anywhere, with the yard, the section, the model that turns, the facts, and what
// falls short. Whatever a job says is set in as text; a policy of its own lets nothing in it run or be fetched but the one
// script and the one style that it was saved with. Pure.
import { allowed, codeInScript, dataInScript, escaped } from './escape.ts';
import { language } from '../words/language.ts';
import { english, phrase, type English } from '../words/words.ts';
import { IDS, type Inside } from './inside.ts';

/** What it tells. `svg` is markup that was made by the press and escaped there; all the rest is text. */
export interface PageOf {
  title: string;
  firm: readonly string[];
  /** The shell, and the name of its place where it has one. */
  shell: string;
  day: string;
  fits: string;
  short: boolean;
  against: readonly string[];
  facts: readonly (readonly [string, string])[];
  /** The yards with their names, the one that is shown first at the head. */
  yards: readonly { name: string; svg: string }[];
  section: { svg: string } | undefined;
  round: RoundOf | undefined;
  cautions: readonly string[];
  /** The faces of the drawings' letters. */
  letters: string;
  style: string;
  licenses: readonly { of: string; text: string }[];
}

/** The model with the script that turns it, what it is said to be, and its picture for where nothing turns. */
export interface RoundOf {
  inside: Inside;
  script: string;
  words: string;
  picture: string | undefined;
}

/** The page's own words, set in as text. */
const said = (words: English): string => escaped(phrase(words));

const list = (of: readonly string[], name: string): string =>
  of.length === 0 ? '' : `<ul class="${name}">${of.map((it) => `<li>${escaped(it)}</li>`).join('')}</ul>`;

function yards(all: PageOf['yards']): string {
  const choice = ({ name }: { name: string }, i: number): string =>
    `<input type="radio" class="unseen" name="yard" id="yard-${i}"${i === 0 ? ' checked' : ''}><label for="yard-${i}">${escaped(name)}</label>`;
  const figure = ({ name, svg }: { name: string; svg: string }, i: number): string =>
    `<figure class="yard-${i}">${svg}<figcaption>${escaped(name)}</figcaption></figure>`;
  return `<fieldset class="yards"><legend class="unseen">${said(english('Which yard'))}</legend>${all.map(choice).join('')}${all.map(figure).join('')}</fieldset>`;
}

const verdict = ({ fits, short, against }: PageOf): string =>
  `<div class="verdict" data-short="${short}"><p>${escaped(fits)}</p>${list(against, 'against')}</div>`;

const facts = (of: PageOf['facts']): string =>
  `<dl class="facts">${of.map(([name, value]) => `<div><dt>${escaped(name)}</dt><dd>${escaped(value)}</dd></div>`).join('')}</dl>`;

function round({ picture, words, inside }: RoundOf): string {
  const still = picture
    ? `<img src="${escaped(picture)}" alt="${escaped(`${phrase('The job in three dimensions.')} ${words}`)}">`
    : `<p class="bare">${said(english('There is no still picture of this view: the device that saved the page does not draw in three dimensions.'))}</p>`;
  return `<section aria-labelledby="head-round">
<h2 id="head-round">${said(english('The hole and the work'))}</h2>
<div class="space-box" id="${IDS.box}">${still}</div>
<p id="${IDS.keys}" class="hint">${said(english('Turn it with a finger or the mouse. With keys: arrows turn it, with Shift they move it, plus and minus bring it nearer.'))}</p>
<noscript><p class="hint">${said(english('Scripts are off here, so the picture stands still. Everything else is as it should be.'))}</p></noscript>
<p id="${IDS.why}" class="hint" role="status"></p>
<div class="choices" id="${IDS.choices}"></div>
<p id="${IDS.words}" class="stage" aria-live="polite">${escaped(words)}</p>
<p class="printed">${escaped(words)}</p>
<details><summary>${said(english('Assumed in this view'))}</summary>${list(inside.record.notes, 'notes')}<p>${said(english('Roofs are flat and crowns round; wires hang without sag.'))}</p></details>
</section>`;
}

export async function pageOf(of: PageOf): Promise<string> {
  const style = `${of.style}${of.letters}`.replace(/\r\n?/g, '\n').replaceAll('</', '<\\/');
  const script = of.round && codeInScript(of.round.script);
  const policy = [
    "default-src 'none'",
    `script-src ${script ? await allowed(script) : "'none'"}`,
    `style-src ${await allowed(style)}`,
    'img-src data:',
    'font-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const [firm, ...more] = of.firm;
  return `<!doctype html>
<html lang="${language.value}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${escaped(of.title)}</title>
<style>${style}</style>
</head>
<body>
<header>
<div><h1>${escaped(of.title)}</h1><p>${escaped([of.shell, of.day].filter(Boolean).join(', '))}</p></div>
${firm === undefined ? '' : `<address><b>${escaped(firm)}</b>${more.map((it) => `<br>${escaped(it)}`).join('')}</address>`}
</header>
<main>
<section class="first" aria-labelledby="head-yard">
<h2 id="head-yard" class="unseen">${said(english('The yard'))}</h2>
${yards(of.yards)}
<div class="told">${verdict(of)}${facts(of.facts)}
<div class="cautions"><h2>${said(english('Before anyone digs'))}</h2>${list(of.cautions, 'notes')}</div></div>
</section>
${of.round ? round(of.round) : ''}
${of.section ? `<section aria-labelledby="head-section"><h2 id="head-section">${said(english('Cut through the pool'))}</h2><figure class="section">${of.section.svg}<figcaption>${said(english('True to scale, along the pool: the ground, the hole, and the shell in it.'))}</figcaption></figure></section>` : ''}
</main>
<footer>
<p>${escaped(phrase('Saved {day}. This page is one file; it fetches nothing and sends nothing.', { day: of.day }))}</p>
${of.licenses.map(({ of: what, text }) => `<details><summary>${escaped(what)}</summary><pre tabindex="0" aria-label="${escaped(what)}">${escaped(text)}</pre></details>`).join('\n')}
</footer>
${of.round && script ? `<script type="application/json" id="${IDS.data}">${dataInScript(of.round.inside)}</script>\n<script>${script}</script>` : ''}
</body>
</html>
`;
}
