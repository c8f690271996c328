// What an entry says of itself: its name, where it is from and of what day, and the figures that no job has.
import { useId } from 'preact/hooks';
import type { BookContent, BookEntry, BookShell, Machine, RuleSet, TitleBlock } from '../core/types.ts';
import { Figure } from '../fields/fields.tsx';
import { Tick } from '../fields/Tick.tsx';
import { TextField } from '../fields/TextField.tsx';
import { phrase } from '../words/words.ts';
import { kindOf, linesOf, SOURCE } from './pages.ts';
import { RateFields } from './RateFields.tsx';
import { putEntry } from './shelf.ts';

export function EntryFields({ entry }: { entry: BookEntry }) {
  const put = (change: Partial<BookEntry>) => void putEntry({ ...entry, ...change });
  const kind = kindOf(entry);
  const { content } = entry;
  return (
    <>
      <TextField label={phrase('Name')} value={entry.name} commit={(name) => put({ name })} />
      <div class="pairs">
        <TextField label={phrase(SOURCE[kind])} value={entry.source ?? ''} commit={(source) => put({ source })} />
        <DayField
          label={kind === 'rules' ? phrase('Checked on') : phrase('Of the day')}
          value={entry.dated ?? ''}
          commit={(day) => {
            const { dated: _, ...rest } = entry;
            void putEntry(day === '' ? rest : { ...rest, dated: day });
          }}
        />
      </div>
      {'rules' in content && <RuleFields set={content.rules} put={(rules) => put({ content: { rules } })} />}
      {'rates' in content && <RateFields list={content.rates} put={(rates) => put({ content: { rates } })} />}
      {'shell' in content && <ShellFields shell={content.shell} put={(shell) => put({ content: { shell } })} />}
      {'machine' in content && <MachineFields machine={content.machine} put={(machine) => put({ content: { machine } })} />}
      {'title-block' in content && <TitleFields title={content['title-block']} put={(content) => put({ content })} />}
      <TextField label={phrase('Note')} value={entry.note ?? ''} commit={(note) => put({ note })} />
      {kind !== 'shell' && (
        <Tick label={phrase('New jobs begin with it')} on={entry.for_new_jobs ?? false} set={(for_new_jobs) => put({ for_new_jobs })} />
      )}
    </>
  );
}

function DayField({ label, value, commit }: { label: string; value: string; commit: (day: string) => void }) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input id={id} type="date" value={value} onChange={(event) => commit(event.currentTarget.value)} />
    </div>
  );
}

function RuleFields({ set, put }: { set: RuleSet; put: (set: RuleSet) => void }) {
  return (
    <div class="pairs">
      <TextField label={phrase('Where it holds')} value={set.jurisdiction ?? ''} placeholder={phrase('County or town')} commit={(jurisdiction) => put({ ...set, jurisdiction })} />
      <TextField label={phrase('Checked by')} value={set.checked_by ?? ''} placeholder={phrase('Nobody yet')} commit={(checked_by) => put({ ...set, checked_by })} />
    </div>
  );
}

function ShellFields({ shell, put }: { shell: BookShell; put: (shell: BookShell) => void }) {
  const figure = (member: 'printed_length' | 'printed_width' | 'price', value: number | undefined) => {
    const { [member]: _, ...rest } = shell;
    put(value === undefined ? rest : { ...rest, [member]: value });
    return [];
  };
  const line = (member: 'printed_length' | 'printed_width' | 'price', label: string, measure: 'length' | 'money') => (
    <Figure
      label={label}
      measure={measure}
      value={shell[member]}
      commit={(value) => figure(member, value)}
      clear={() => figure(member, undefined)}
    />
  );
  return (
    <div class="pairs">
      {line('printed_length', phrase('Length inside, as printed'), 'length')}
      {line('printed_width', phrase('Width inside, as printed'), 'length')}
      {line('price', phrase('Price'), 'money')}
    </div>
  );
}

function MachineFields({ machine, put }: { machine: Machine; put: (machine: Machine) => void }) {
  const line = (member: keyof Machine, label: string, measure: 'length' | 'weight') => (
    <Figure
      label={label}
      measure={measure}
      value={machine[member]}
      commit={(value) => {
        put({ ...machine, [member]: value });
        return [];
      }}
    />
  );
  return (
    <div class="pairs">
      {line('width', phrase('Width over all'), 'length')}
      {line('height', phrase('Height as it travels'), 'length')}
      {line('weight', phrase('Weight'), 'weight')}
    </div>
  );
}

function TitleFields({ title, put }: { title: TitleBlock; put: (content: BookContent) => void }) {
  return (
    <>
      <Lines label={phrase('Lines: name, address, telephone, license')} value={title.lines ?? []} commit={(lines) => put({ 'title-block': { ...title, lines } })} />
      <Lines label={phrase('Cautions of your own, one to a line')} value={title.cautions ?? []} commit={(cautions) => put({ 'title-block': { ...title, cautions } })} />
    </>
  );
}

function Lines({ label, value, commit }: { label: string; value: string[]; commit: (lines: string[]) => void }) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <textarea id={id} rows={4} value={value.join('\n')} onChange={(event) => commit(linesOf(event.currentTarget.value))} />
    </div>
  );
}
