// What stays assumed: the list that goes with every result, with how far wrong each may be before a rule falls short.
import { ask } from '../core/planner.ts';
import { Fold } from '../fields/Fold.tsx';
import { ledger } from '../state/store.ts';
import { heard, phrase } from '../words/words.ts';

export function Assumed() {
  return (
    <Fold class="assumed" head={<h3>{phrase('What stays assumed')}</h3>}>
      {() => <List />}
    </Fold>
  );
}

function List() {
  void ledger.value; // Told anew with every change.
  const all = ask((planner) => planner.assumed(), []);
  return (
    <ul>
      {all.map(({ what, leeway, settled_by }, index) => (
        <li key={index}>
          {heard(what)} {leeway && <b>{heard(leeway)}</b>} {heard(settled_by)}
        </li>
      ))}
    </ul>
  );
}
