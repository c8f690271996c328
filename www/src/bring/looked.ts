// What is in a text on its way in, and what would happen: asked of the planner at once; of a survey in LandXML, asked of
// the press, which reads it.
import { useEffect, useState } from 'preact/hooks';
import { ask } from '../core/planner.ts';
import type { Finding, MapBrought, MapReading, MapSettings } from '../core/types.ts';
import { useAsked } from '../core/useAsked.ts';
import { ledger } from '../state/store.ts';
import { phrase } from '../words/words.ts';

const NOTHING: MapReading = { form: null, settings: null, items: [], findings: [] };
const NOT_BROUGHT: MapBrought = { told: [], findings: [], command: null };

const unread = (): Finding => ({
  severity: 'fault',
  code: 'not-loaded',
  pointer: '',
  topic: 'clearances',
  scope: 'site',
  at: null,
  message: phrase('The part of the planner that reads surveys could not be loaded or stopped.'),
  remedy: phrase('Nothing was changed: try again.'),
});

/** Whether a text is XML: no map and no list begins so. */
const isSurvey = (text: string): boolean => text.replace(/^\uFEFF/, '').trimStart().startsWith('<');

interface Looked {
  reading: MapReading;
  brought: MapBrought;
  settings: MapSettings | null;
  /** What each thing is to be. */
  roles: string[];
  busy: boolean;
}

/** Looks at a text with the settings that are wanted and the roles that were given. */
export function useLooked(text: string, wanted: MapSettings | null, given: ReadonlyMap<number, string>): Looked {
  const survey = isSurvey(text);
  const told = useAsked<MapReading>(survey ? null : (p) => p.read_map(text, wanted), [wanted], NOTHING);
  const [read, busy] = useSurvey<MapReading>(
    survey ? (press, onto) => press.ask('survey', { text, onto, settings: wanted }) : null,
    [wanted],
    { ...NOTHING, findings: [unread()] },
  );
  const reading = survey ? (read ?? NOTHING) : told;
  const settings = wanted ?? reading.settings;
  const roles = reading.items.map((item, i) => given.get(i) ?? item.proposed);
  const ready = settings !== null && reading.items.length > 0;
  const brings = useAsked<MapBrought>(
    ready && !survey ? (p) => p.bring_map(text, settings, roles) : null,
    [settings, roles],
    NOT_BROUGHT,
  );
  const [brought] = useSurvey<MapBrought>(
    ready && survey ? (press, onto) => press.ask('bring', { text, onto, settings, roles }) : null,
    [settings, roles.join()],
    { ...NOT_BROUGHT, findings: [unread()] },
  );
  return { reading, brought: survey ? (brought ?? NOT_BROUGHT) : brings, settings, roles, busy: survey && busy };
}

type Press = typeof import('../paper/press.ts');

/** What the press answers on the open site, and whether it is still at it; asked anew when `of` or the site changes. */
function useSurvey<T>(
  asks: ((press: Press, onto: string) => Promise<T>) | null,
  of: unknown[],
  failed: T,
): [found: T | null, busy: boolean] {
  const [found, setFound] = useState<T | null>(null);
  const [busy, setBusy] = useState(asks !== null);
  const revision = ledger.value?.revision;
  useEffect(() => {
    if (!asks) return;
    let gone = false;
    setBusy(true);
    const answered = (it: T) => {
      if (gone) return;
      setFound(it);
      setBusy(false);
    };
    import('../paper/press.ts')
      .then((press) => asks(press, ask((p) => p.save(), '')))
      .then(answered, () => answered(failed));
    return () => void (gone = true);
  }, [...of, asks === null, revision]);
  return [found, busy];
}
