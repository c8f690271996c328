// The day whose sun counts. Empty, it is the usual one.
import { useId } from 'preact/hooks';
import { phrase } from '../words/words.ts';
import { sun, wish } from './asked.ts';

export function DayField() {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{phrase('Day')}</label>
      <input
        id={id}
        type="date"
        min="1900-01-01"
        max="2100-12-31"
        value={wish.value.date || sun.value?.figures.date || ''}
        onChange={(event) => (wish.value = { ...wish.value, date: event.currentTarget.value })}
      />
      <p class="field-hint">{phrase('Left empty: 21 June, south of the equator 21 December.')}</p>
    </div>
  );
}
