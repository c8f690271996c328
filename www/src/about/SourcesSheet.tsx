// Every figure that the work rests on, where it comes from and how it was checked; what is built in of other people's work;
// and what is new. The figures and their words are the core's.
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { Sheet } from '../job/Sheet.tsx';
import type { SourceList } from '../paper/messages.ts';
import { ask } from '../paper/press.ts';
import { display, sheet } from '../state/store.ts';
import builtIn from '../wasm/built-in.json?raw';
import { english, heard, phrase } from '../words/words.ts';
import changes from './changes.md?raw';
import { found, grouped, readChanges } from './found.ts';
import './sources.css';

interface Library {
  name: string;
  version: string;
  license: string;
}

const STOPPED = english('The list could not be made: that part of the planner stopped. Nothing is lost; try again.');

export function SourcesSheet() {
  const close = (): void => {
    sheet.value = null;
  };
  const [list, setList] = useState<SourceList | 'stopped' | null>(null);
  const [typed, setTyped] = useState('');
  const open = useRef(true);
  const metres = display.value === 'metres';
  const get = (): void => {
    setList(null);
    ask('sources', { metres }).then(
      (it) => open.current && setList(it),
      () => open.current && setList('stopped'),
    );
  };
  useEffect(() => {
    get();
    return () => {
      open.current = false;
    };
  }, []);
  const libraries = useMemo(() => JSON.parse(builtIn) as Library[], []);
  const all = list === null || list === 'stopped' ? [] : list.figures;
  const groups = grouped(found(all, typed));
  return (
    <Sheet label={phrase('Sources and licenses')} class="sources" close={close}>
      <header>
        <h2>{phrase('Sources and licenses')}</h2>
        <p>
          {phrase('Every figure that the work rests on. What is from memory is to be looked up before anyone relies on it; local codes, the survey and licensed practice come before all of it.')}
        </p>
        <label for="sources-find">{phrase('Find a figure')}</label>
        <input id="sources-find" type="search" value={typed} onInput={({ currentTarget }) => setTyped(currentTarget.value)} />
      </header>
      <div class="sources-body" tabIndex={0} role="region" aria-label={phrase('Figures, licenses and what is new')}>
        {list === null && <p role="status">{phrase('The list is being made.')}</p>}
        {list === 'stopped' && (
          <p role="alert">
            {phrase(STOPPED)}{' '}
            <button type="button" onClick={get}>
              {phrase('Try again')}
            </button>
          </p>
        )}
        {all.length > 0 && groups.length === 0 && <p role="status">{phrase('No figure is called so.')}</p>}
        {groups.map(([group, figures]) => (
          <section key={group} aria-label={heard(group)}>
            <h3>{heard(group)}</h3>
            <table>
              <thead>
                <tr>
                  <th scope="col">{phrase('Figure')}</th>
                  <th scope="col">{phrase('Value')}</th>
                  <th scope="col">{phrase('Where from')}</th>
                  <th scope="col">{phrase('Checked by')}</th>
                </tr>
              </thead>
              <tbody>
                {figures.map((it) => (
                  <tr key={it.place ?? it.name} data-from={it.from.kind}>
                    <th scope="row">{heard(it.name)}</th>
                    <td>{it.figure?.shown.text ?? phrase('left open')}</td>
                    <td>{heard(it.source)}</td>
                    <td>{heard(it.checked)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        ))}
        {typed === '' && (
          <>
            <section aria-label={phrase('What is new')}>
              <h3>{phrase('What is new')}</h3>
              {readChanges(changes).map(([when, rows]) => (
                <div key={when}>
                  <h4>{when}</h4>
                  <ul>
                    {rows.map((row) => (
                      <li key={row}>{heard(row)}</li>
                    ))}
                  </ul>
                </div>
              ))}
            </section>
            <section aria-label={phrase('Built in')}>
              <h3>{phrase('Built in')}</h3>
              <p>{phrase('Work of others that this planner holds, each under the license that stands beside it.')}</p>
              <ul class="sources-libraries">
                {libraries.map(({ name, version, license }) => (
                  <li key={`${name} ${version}`}>
                    {name} {version} <span>{license}</span>
                  </li>
                ))}
                <li>
                  Barlow <span>SIL Open Font License 1.1</span>
                </li>
              </ul>
            </section>
          </>
        )}
      </div>
      <div class="buttons">
        {list !== null && list !== 'stopped' && <p class="sources-version">{`batterboard ${list.version}`}</p>}
        <button type="button" class="main" onClick={close}>
          {phrase('Close')}
        </button>
      </div>
    </Sheet>
  );
}
