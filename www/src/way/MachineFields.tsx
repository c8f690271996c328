// How large the machines are, how they turn, and how the shell is carried.
import type { ConstructionSettings, MachineSize } from '../core/types.ts';
import { Fold } from '../fields/Fold.tsx';
import { Figure } from '../fields/fields.tsx';
import { Line, put } from '../steps/dig/shared.tsx';
import { english, phrase, type English } from '../words/words.ts';

const MACHINES = [
  ['excavator', english('Excavator')],
  ['truck', english('Truck')],
  ['skid_loader', english('Skid loader')],
] as const;

const SIZES: [keyof MachineSize, English][] = [
  ['width', english('width')],
  ['wheelbase', english('wheelbase')],
  ['turning_radius', english('turning radius')],
  ['height', english('height')],
];

export function MachineFields({ works }: { works: ConstructionSettings }) {
  return (
    <Fold class="card" head={phrase('Sizes of machines and shell')}>
      {() => (
        <>
          <p class="field-hint">{phrase('What is entered here is common practice with no source until you enter your own.')}</p>
          {MACHINES.map(([name, label]) => (
            <fieldset class="field-group" key={name}>
              <legend>{phrase(label)}</legend>
              <div class="pairs">
                {SIZES.map(([member, words]) => (
                  <Figure
                    key={member}
                    label={`${phrase(label)}, ${phrase(words)}`}
                    measure="length"
                    value={works.access[name][member]}
                    commit={(value) => put(works, 'access', { [name]: { ...works.access[name], [member]: value } })}
                  />
                ))}
              </div>
            </fieldset>
          ))}
          <p class="field-hint">
            {phrase('A turning radius of 0 is that of a machine that turns on the spot; its wheelbase is then its whole length.')}
          </p>
          <fieldset class="field-group">
            <legend>{phrase('On the way')}</legend>
            <Line works={works} part="access" member="side_room" measure="length" label={phrase('Room on either side')} />
            <Line works={works} part="access" member="room_above" measure="length" label={phrase('Room above')} />
            <Line works={works} part="access" member="carried_at" measure="length" label={phrase('Shell carried so high')} />
            <Line works={works} part="access" member="handling" measure="length" label={phrase('Room to handle the shell on edge')} />
            <Line works={works} part="access" member="panel" measure="length" label={phrase('Length of a fence panel')} />
          </fieldset>
        </>
      )}
    </Fold>
  );
}
