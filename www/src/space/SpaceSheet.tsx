// The job in the round: a sheet with one canvas, the stages of the work, and what there is to say of each. It is fetched when it
// is first wanted; closed, it leaves nothing behind.
import { useEffect, useRef, useState } from 'preact/hooks';
import { Sheet } from '../job/Sheet.tsx';
import { ask } from '../paper/press.ts';
import { bareText } from '../state/document.ts';
import { sheet } from '../state/store.ts';
import { english, phrase, type English } from '../words/words.ts';
import { SpaceStage } from './SpaceStage.tsx';
import type { SpaceModel } from './model.ts';
import { whatDraws } from './view.ts';
import './space.css';

type State = 'building' | 'stopped' | 'no-drawing' | 'lost' | { model: SpaceModel; site: string };

const WHY: Record<'building' | 'stopped' | 'no-drawing' | 'lost', English> = {
  building: english('The job is being built in three dimensions.'),
  stopped: english('That part of the planner stopped. Nothing is lost.'),
  'no-drawing':
    english('This browser does not draw in three dimensions here (WebGL is off or missing). The plan and the section A–A′ show the same job.'),
  lost: english('The device took back what three dimensions are drawn with. Nothing is lost, and the plan stays.'),
};

export function SpaceSheet() {
  const close = (): void => {
    sheet.value = null;
  };
  const [drawing] = useState(whatDraws);
  const [state, setState] = useState<State>(drawing === 'nothing' ? 'no-drawing' : 'building');
  const open = useRef(true);
  const build = (): void => {
    setState('building');
    const site = bareText();
    ask('space', { site }).then(
      (model) => open.current && setState({ model, site }),
      () => open.current && setState('stopped'),
    );
  };
  useEffect(() => {
    if (drawing !== 'nothing') build();
    return () => {
      open.current = false;
    };
  }, []);
  const name = typeof state === 'object' ? state.model.record.name : '';
  return (
    <Sheet label={phrase('In the round')} class="space" close={close}>
      <header class="space-head">
        <h2>{phrase('In the round')}</h2>
        <p>{name}</p>
        <button type="button" class="space-close" aria-label={phrase('Close')} onClick={close}>
          ×
        </button>
      </header>
      {typeof state === 'object' ? (
        <SpaceStage
          model={state.model}
          site={state.site}
          byProcessor={drawing === 'processor'}
          lost={() => setState('lost')}
        />
      ) : (
        <div class="space-why">
          <p role={state === 'building' ? 'status' : 'alert'}>{phrase(WHY[state])}</p>
          {(state === 'lost' || state === 'stopped') && (
            <button type="button" onClick={build}>
              {phrase('Try again')}
            </button>
          )}
        </div>
      )}
      <p class="space-caution">
        {phrase('Planning aid, not a survey. Stand clear of an unsupported bank. Call the utility-locating service before digging.')}
      </p>
    </Sheet>
  );
}
