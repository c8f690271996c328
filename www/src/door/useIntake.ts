// Text read by the intake while a panel is open: what it says of the newest text, and whether that is still
// being read.
import { useEffect, useState } from 'preact/hooks';
import { intake, type Intake } from './intake.ts';

/** `reading` while the module loads, `failed` where it could not be had or died of the text. */
export type Standing = 'done' | 'reading' | 'failed';

interface Answer<T> {
  of: unknown;
  value: T;
  standing: Standing;
}

/**
 * What `call` gives, asked anew whenever one of `inputs` changes. Until the answer is there the last one stays,
 * and `standing` says that it is not of these inputs. `call` is `null` where there is nothing to ask: the module
 * is not loaded for that, and the answer is `nothing`.
 */
export function useIntake<T>(
  call: ((intake: Intake) => T) | null,
  inputs: unknown[],
  nothing: T,
): { value: T; standing: Standing } {
  const [answer, setAnswer] = useState<Answer<T>>({ of: null, value: nothing, standing: 'done' });
  const key = JSON.stringify(inputs);
  useEffect(() => {
    if (!call) return setAnswer({ of: key, value: nothing, standing: 'done' });
    let wanted = true;
    const take = (value: T, standing: Standing) => wanted && setAnswer({ of: key, value, standing });
    intake().then(
      (it) => {
        try {
          take(call(it), 'done');
        } catch {
          take(nothing, 'failed');
        }
      },
      () => take(nothing, 'failed'),
    );
    return () => {
      wanted = false;
    };
  }, [key, call === null]);
  return { value: answer.value, standing: answer.of === key ? answer.standing : 'reading' };
}
