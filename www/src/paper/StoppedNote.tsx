// What is said where the worker of the sheets stopped over a question.
import { phrase } from '../words/words.ts';
interface Props {
  /** What the button says that asks again. */
  text: string;
  again: () => void;
}

export const StoppedNote = ({ text, again }: Props) => (
  <p class="caution" data-severity="caution">
    {phrase('That part of the planner stopped. Nothing is lost.')}{' '}
    <button type="button" onClick={again}>
      {text}
    </button>
  </p>
);
