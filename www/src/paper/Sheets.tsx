// Sheets to print: which one, on what paper, at what scale, as it will come out of the printer; saved as PDF, SVG or
// picture, or printed at its true size.
import { useEffect, useState } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import { Tick } from '../fields/Tick.tsx';
import { download } from '../job/download.ts';
import { fileName } from '../job/files.ts';
import { FindingList } from '../ledger/FindingList.tsx';
import { Sheet } from '../job/Sheet.tsx';
import { say } from '../state/actions.ts';
import { ledger, sheet } from '../state/store.ts';
import { Pages } from './Pages.tsx';
import { pdf, print, type Printed } from './press.ts';
import { picture, printAtSize } from './out.ts';
import { hasPlan, KINDS, languageFor, PAPERS, PARTS, pickLanguage, speaksSpanish, wish, wishFor, type Wish } from './wish.ts';
import licence from '../../../crate/paper/fonts/OFL.txt?url';
import { count, english, phrase, woven } from '../words/words.ts';
import './paper.css';

const FAILED = english('The sheet could not be made: that part of the planner stopped. Nothing is lost; try again.');

const close = (): void => void (sheet.value = null);

export function Sheets() {
  const [now, setNow] = useState<Printed | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [busy, setBusy] = useState(true);
  const wanted = wish.value;
  const revision = ledger.value?.revision;
  const make = () => {
    let gone = false;
    setBusy(true);
    print(ask((p) => p.save(), ''), wanted).then(
      (it) => {
        if (gone || !it) return;
        setNow(it);
        setTrouble(null);
        setBusy(false);
      },
      () => {
        if (gone) return;
        setTrouble(phrase(FAILED));
        setBusy(false);
      },
    );
    return () => void (gone = true);
  };
  useEffect(make, [wanted, revision]);
  // Another language of the page is that of a sheet for which none was picked.
  const language = languageFor(wanted.kind);
  useEffect(() => {
    if (wish.peek().language !== language) wishFor({ language });
  }, [language]);
  const there = now !== null && now.pages.length > 0;
  return (
    <Sheet label={phrase('Sheets to print')} class="paper" close={close}>
      <header class="jobs-head">
        <h2>{phrase('Sheets to print')}</h2>
        <button type="button" onClick={close}>
          {phrase('Close')}
        </button>
      </header>
      <div class="paper-body">
        <Wishes wanted={wanted} now={now} />
        <section class="paper-view" aria-label={phrase('The sheet as it prints')} aria-busy={busy}>
          <p class="paper-told" aria-live="polite">
            {trouble ?? (there ? told(now) : busy ? phrase('The sheet is being made.') : '')}
          </p>
          {trouble && (
            <button type="button" onClick={make}>
              {phrase('Try again')}
            </button>
          )}
          <FindingList list={now?.made.findings ?? []} />
          {there && <Pages now={now} />}
        </section>
      </div>
      <Ways now={there ? now : null} kind={wanted.kind} />
    </Sheet>
  );
}

function told({ made }: Printed): string {
  const pages = count(made.pages.length, '{n} page', '{n} pages');
  const scale = made.scales.find(([ratio]) => ratio === made.window?.ratio)?.[1];
  const { revision } = made;
  return scale ? phrase('{pages}, plan at {scale}, revision {revision}', { pages, scale, revision }) : phrase('{pages}, revision {revision}', { pages, revision });
}

function Wishes({ wanted, now }: { wanted: Wish; now: Printed | null }) {
  return (
    <form class="paper-wishes" onSubmit={(event) => event.preventDefault()}>
      <fieldset>
        <legend>{phrase('Which sheet')}</legend>
        {KINDS.map(([kind, name, words]) => (
          <label key={kind} class="paper-kind">
            <input
              type="radio"
              name="kind"
              checked={wanted.kind === kind}
              onChange={() => wishFor({ kind, paper: null, language: languageFor(kind) })}
            />
            <span>
              {phrase(name)}
              <small>{phrase(words)}</small>
            </span>
          </label>
        ))}
      </fieldset>
      <Pick
        label={phrase('Paper')}
        value={now?.made.paper ?? wanted.paper ?? ''}
        of={PAPERS.map(([paper, words]) => [paper, phrase(words)] as const)}
        pick={(paper) => wishFor({ paper: paper as Wish['paper'] })}
      />
      <Pick
        label={phrase('Orientation')}
        value={wanted.lie ?? ''}
        of={[['', phrase('As it fits best')], ['wide', phrase('Wide')], ['tall', phrase('Tall')]]}
        pick={(lie) => wishFor({ lie: lie === '' ? null : (lie as 'wide' | 'tall') })}
      />
      {hasPlan(wanted.kind) && wanted.kind !== 'home' && (
        <Pick
          label={phrase('Scale')}
          value={wanted.scale === null ? '' : String(wanted.scale)}
          of={[['', phrase('As large as it fits')], ...(now?.made.scales ?? []).map(([ratio, words]) => [String(ratio), words] as const)]}
          pick={(ratio) => wishFor({ scale: ratio === '' ? null : Number(ratio) })}
        />
      )}
      {speaksSpanish(wanted.kind) && (
        <Pick
          label={phrase('Language')}
          value={wanted.language}
          of={[['english', 'English'], ['spanish', 'Español']]}
          pick={(language) => pickLanguage(language as Wish['language'])}
        />
      )}
      <label class="paper-field">
        {phrase('Date on the sheet')}
        <input
          type="text"
          value={wanted.day ?? ''}
          onChange={(event) => wishFor({ day: event.currentTarget.value.trim() || null })}
        />
      </label>
      {wanted.kind === 'home' && (
        <Tick label={phrase('Tell the price')} on={wanted.price} set={(price) => wishFor({ price })} />
      )}
      {hasPlan(wanted.kind) && wanted.kind !== 'home' && (
        <fieldset>
          <legend>{phrase('On the plan')}</legend>
          {PARTS.map(([part, words]) => (
            <Tick
              key={part}
              label={phrase(words)}
              on={!wanted.without.includes(part)}
              set={(on) =>
                wishFor({ without: on ? wanted.without.filter((it) => it !== part) : [...wanted.without, part] })
              }
            />
          ))}
        </fieldset>
      )}
      {wanted.centre && (
        <button type="button" onClick={() => wishFor({ centre: null })}>
          {phrase('Put the plan back in the middle')}
        </button>
      )}
    </form>
  );
}

interface PickProps {
  label: string;
  value: string;
  of: readonly (readonly [string, string])[];
  pick: (value: string) => void;
}

function Pick({ label, value, of, pick }: PickProps) {
  return (
    <label class="paper-field">
      {label}
      <select value={value} onChange={(event) => pick(event.currentTarget.value)}>
        {of.map(([key, words]) => (
          <option key={key} value={key}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

/** The ways out of the page. */
function Ways({ now, kind }: { now: Printed | null; kind: string }) {
  const name = `${fileName()}-${kind}`;
  const tell = (does: Promise<void>) => does.catch(() => say(phrase(FAILED), 'bad'));
  const savePdf = async () => download(await pdf(), `${name}.pdf`, 'application/pdf');
  const saveSvg = () => now?.pages.forEach((page, at) => download(page, `${name}${at ? `-${at + 1}` : ''}.svg`, 'image/svg+xml'));
  const savePicture = async () => {
    const [first, size] = [now?.pages[0], now?.made.pages[0]];
    if (first && size) download(await picture(first, size), `${name}.png`, 'image/png');
  };
  return (
    <>
      <div class="buttons">
        <button type="button" class="main" disabled={!now} onClick={() => void tell(savePdf())}>
          {phrase('Save as PDF')}
        </button>
        <button type="button" disabled={!now} onClick={() => now && printAtSize(now.made.pages)}>
          {phrase('Print')}
        </button>
        <button type="button" disabled={!now} onClick={() => void tell(savePicture())}>
          {phrase('Save page 1 as a picture')}
        </button>
        <button type="button" disabled={!now} onClick={saveSvg}>
          {phrase('Save as SVG')}
        </button>
      </div>
      <p class="foot-words">
        {phrase('Print at full size, not fitted to the page: the square on the sheet proves it. The PDF holds the job itself, without photographs; opened in the planner it is there again.')}{' '}
        {woven('The letters are Barlow, under the {license}.', {
          license: (
            <a href={licence} target="_blank" rel="noreferrer">
              SIL Open Font License
            </a>
          ),
        })}
      </p>
    </>
  );
}
