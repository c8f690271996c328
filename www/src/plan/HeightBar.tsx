// The bar over the plan that takes the elevation of a point just picked. Enter takes it, Escape gives up.
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { read } from '../fields/fields.tsx';
import { heard, phrase } from '../words/words.ts';
import { askedHeight, type AskedHeight } from './heights.ts';

export function HeightBar() {
  const asked = askedHeight.value;
  return asked && <Bar asked={asked} key={asked.prompt} />;
}

function Bar({ asked }: { asked: AskedHeight }) {
  const id = useId();
  const box = useRef<HTMLInputElement>(null);
  const [text, setText] = useState('');
  const [fault, setFault] = useState('');
  useEffect(() => box.current?.focus(), []);

  function take(): void {
    const reading = read(text, 'elevation');
    if (reading.ok) asked.done(reading.value);
    else setFault(`${heard(reading.message)} ${heard(reading.remedy)}`.trim());
  }

  return (
    <section
      class="draw-bar height-bar"
      aria-label={phrase('Elevation of the point')}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        asked.done(null);
      }}
    >
      <header class="draw-head">
        <h2>{asked.prompt}</h2>
      </header>
      <form
        class="draw-typing"
        onSubmit={(event) => {
          event.preventDefault();
          take();
        }}
      >
        <div class="draw-box">
          <label for={id}>{phrase('Elevation')}</label>
          <input
            ref={box}
            id={id}
            autocomplete="off"
            spellcheck={false}
            data-typing=""
            value={text}
            aria-invalid={fault !== ''}
            aria-describedby={`${id}-fault`}
            onInput={(event) => {
              setText(event.currentTarget.value);
              setFault('');
            }}
          />
        </div>
        <button type="submit" class="main">
          {phrase('Take it')}
        </button>
        <button type="button" onClick={() => asked.done(null)}>
          {phrase('Stop')}
        </button>
        <p class="draw-fault" id={`${id}-fault`} role="alert">
          {fault}
        </p>
      </form>
    </section>
  );
}
