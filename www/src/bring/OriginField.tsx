// Where the site's origin lies on the earth, and a way to say it.
import { useId, useState } from 'preact/hooks';
import type { PlaceReading } from '../core/types.ts';
import { useAsked } from '../core/useAsked.ts';
import { editOrTell } from '../state/actions.ts';
import { site } from '../state/store.ts';
import '../style/bring.css';
import { heard, phrase } from '../words/words.ts';

export function OriginField({ laid }: { laid: () => void }) {
  const id = useId();
  const origin = site.value?.origin;
  const [text, setText] = useState('');
  const place = useAsked<PlaceReading>(
    text.trim() === '' ? null : (p) => p.read_place(text),
    [text],
    { origin: null, text: '', message: '' },
  );
  function lay(): void {
    if (!place.origin || !editOrTell({ 'set-origin': place.origin }, phrase('The origin was not laid there.'))) return;
    setText('');
    laid();
  }
  return (
    <div class="field">
      <label for={id}>{phrase("Latitude and longitude of the site's origin")}</label>
      <div class="write-origin">
        <input
          id={id}
          type="text"
          autocomplete="off"
          value={text}
          placeholder={origin ? phrase('known; type another') : '36.451234, -84.307123'}
          aria-describedby={`${id}-word`}
          aria-invalid={place.message !== ''}
          onInput={(event) => setText(event.currentTarget.value)}
        />
        <button type="button" disabled={!place.origin} onClick={lay}>
          {phrase('Use this location')}
        </button>
      </div>
      <p class="field-word" id={`${id}-word`} data-kind={place.message ? 'fault' : 'reads'} aria-live="polite">
        {heard(place.message) || (place.text ? `= ${place.text}` : origin ? phrase('The site is georeferenced.') : '')}
      </p>
    </div>
  );
}
