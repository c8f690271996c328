// The section under the plan: its canvas, what is read on it, and where it is cut.
import { useEffect, useRef } from 'preact/hooks';
import { Figure } from '../fields/fields.tsx';
import type { Finding, SectionLine } from '../core/types.ts';
import { ask } from '../core/planner.ts';
import { askForFrame } from '../plan/frame.ts';
import { edit } from '../state/actions.ts';
import { exaggeration, openSection, sectionFigures, sectionOpen } from '../state/section.ts';
import { sectionOn } from '../plan/painter.ts';
import { heard, phrase } from '../words/words.ts';

export function SectionPanel() {
  return sectionOpen.value ? <Open /> : null;
}

/** Opens the section, or closes it. */
export function SectionButton() {
  const open = sectionOpen.value;
  return (
    <button type="button" class="section-button" aria-pressed={open} onClick={() => openSection(!open)}>
      {phrase('Section A–A′')}
    </button>
  );
}

function Open() {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const it = canvas.current;
    if (!it) return;
    const stop = sectionOn(it);
    const sizes = new ResizeObserver(() => askForFrame());
    sizes.observe(it);
    return () => {
      sizes.disconnect();
      stop();
    };
  }, []);
  const figures = sectionFigures.value;
  const words = figures
    ? phrase('Section from A to A prime. {dimensions}.', { dimensions: figures.dimensions.map((d) => `${heard(d.label)} ${d.text}`).join(', ') })
    : phrase('Section: there is nothing to cut yet.');
  return (
    <section class="section" aria-label={phrase('Section')}>
      <header class="section-head">
        <h2>{phrase('Section A–A′')}</h2>
        <div class="section-scale" role="group" aria-label={phrase('How heights are drawn')}>
          {([1, 2, 5] as const).map((times) => (
            <button
              key={times}
              type="button"
              aria-pressed={exaggeration.value === times}
              onClick={() => {
                exaggeration.value = times;
                askForFrame();
              }}
            >
              {times === 1 ? phrase('Heights true') : `× ${times}`}
            </button>
          ))}
        </div>
        <button type="button" class="section-close" aria-label={phrase('Close the section')} onClick={() => openSection(false)}>
          ×
        </button>
      </header>
      <canvas ref={canvas} class="section-canvas" role="img" aria-label={words} />
      {figures ? (
        <details class="section-more">
          <summary>{phrase('Figures and line')}</summary>
          <dl class="section-figures">
            {figures.dimensions.map((d, i) => (
              <div key={i}>
                <dt>{heard(d.label)}</dt>
                <dd>{d.text}</dd>
              </div>
            ))}
          </dl>
          <Line />
        </details>
      ) : (
        <p class="section-none">{phrase('Place a shell, and the section runs along it.')}</p>
      )}
    </section>
  );
}

/** Where the section is cut, for those who type. */
function Line() {
  const figures = sectionFigures.value;
  if (!figures) return null;
  const { from, to } = figures;
  // The line as it is by now: another field may have been committed since this was painted.
  const ends = (change: (now: SectionLine) => SectionLine): Finding[] => {
    const now = ask((p) => p.section(), undefined);
    return now ? edit({ 'set-section': change({ from: now.from, to: now.to }) }) : [];
  };
  const laid = (bearing: number, length: number): Finding[] => {
    const line = ask((p) => p.laid_section(bearing, length), undefined);
    return line ? edit({ 'set-section': line }) : [];
  };
  return (
    <>
      <div class="pairs section-line">
        <Figure label={phrase('Direction from A to A′')} measure="heading" value={figures.bearing} commit={(v) => laid(v, figures.length)} />
        <Figure label={phrase('Length')} measure="length" value={figures.length} commit={(v) => laid(figures.bearing, v)} />
        <Figure label={phrase('A, to the east')} measure="long-length" value={from[0]} commit={(v) => ends((now) => ({ ...now, from: [v, now.from[1]] }))} />
        <Figure label={phrase('A, to the north')} measure="long-length" value={from[1]} commit={(v) => ends((now) => ({ ...now, from: [now.from[0], v] }))} />
        <Figure label={phrase('A′, to the east')} measure="long-length" value={to[0]} commit={(v) => ends((now) => ({ ...now, to: [v, now.to[1]] }))} />
        <Figure label={phrase('A′, to the north')} measure="long-length" value={to[1]} commit={(v) => ends((now) => ({ ...now, to: [now.to[0], v] }))} />
      </div>
      <p class="field-hint">{phrase('On the plan, pull the line by its ends, or beside the shell to move the whole.')}</p>
      <button type="button" disabled={!figures.given} onClick={() => edit({ 'set-section': null })}>
        {phrase('Back along the shell')}
      </button>
    </>
  );
}
