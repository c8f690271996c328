// Something that is so or not: a box to tick, with its words beside it.
interface Props {
  label: string;
  on: boolean;
  set: (on: boolean) => void;
  hint?: string;
}

export function Tick({ label, on, set, hint }: Props) {
  return (
    <>
      <label class="tick">
        <input type="checkbox" checked={on} onChange={(event) => set(event.currentTarget.checked)} />
        <span>{label}</span>
      </label>
      {hint && <p class="field-hint">{hint}</p>}
    </>
  );
}
