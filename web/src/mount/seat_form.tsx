import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { JobFile, Part, TypedLength } from '../api/schema';
import { Conflict } from '../conflict/conflict';
import { LengthField } from '../controls/length_field';
import { wrongElsewhere, wrongWith } from '../controls/saving';
import { ask } from '../route/router';
import { Screen } from '../shell/screen';
import { typedLength } from '../show/length';
import { sealed } from '../state/job';
import { shop } from '../state/shop';
import { words } from '../words';
import { type SeatEditing, useSeatEditing } from './seat_editing';
import { PLAUSIBLE_MM, type SeatField, type SeatName, seatFields } from './seat_fields';
import { SeatPicture } from './seat_picture';

interface Props {
  file: JobFile;
  part: Part;
  /** What the shop says is missing for the stack; empty when a person came to change something. */
  missing: readonly string[];
  which: ComponentChildren;
}

const FORM = 'seat-form';

/** What the stack touches on the rotor, measured once. */
export function SeatForm({ file, part, missing, which }: Props) {
  const { seat } = words.mount;
  const editing = useSeatEditing(file, part, shop.value?.settings.default_unit ?? 'mm');
  const [active, setActive] = useState<SeatName | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const done = () => ask({ part: part.side, view: '' });
  const { saving, merge } = editing;
  /** A caliper's cable sends Enter after each size: on to the next one, and from the last one they are kept. */
  const next = (name: SeatName) => {
    const at = editing.fields.findIndex((field) => field.name === name);
    const to = editing.fields[at + 1];
    if (to) form.current?.querySelector<HTMLInputElement>(`[data-seat="${to.name}"] input`)?.focus();
    else form.current?.requestSubmit();
  };
  const bore = file.readings.filter(
    (one) => one.part_id === part.id && one.quantity === 'bore' && one.stage === 'before' && one.state === 'current',
  );
  const read = bore.at(-1)?.value ?? null;
  const wanted = seatFields(part).filter((field) => missing.includes(field.name));
  useLayoutEffect(() => {
    const first = wanted[0] ?? editing.fields[0];
    form.current?.querySelector<HTMLInputElement>(`[data-seat="${first?.name}"] input`)?.focus();
  }, []);
  return (
    <Screen
      name="mount"
      title={seat.title}
      next={
        sealed.value ? null : (
          <button type="submit" form={FORM} class="main" disabled={saving.busy}>
            {seat.save}
          </button>
        )
      }
      aside={
        missing.length === 0 ? (
          <button type="button" onClick={done}>
            {seat.back}
          </button>
        ) : null
      }
    >
      {which}
      <div class="seat-step">
        <form
          id={FORM}
          ref={form}
          class="fields"
          onSubmit={(event) => {
            event.preventDefault();
            if (!saving.busy && !sealed.value) void editing.save(done);
          }}
        >
          <p class="soft">{seat.lead}</p>
          {editing.fields.map((field) => (
            <SeatLine
              key={field.name}
              {...{ field, editing, read }}
              wanted={missing.includes(field.name)}
              onActive={() => setActive(field.name)}
              onEnter={() => next(field.name)}
            />
          ))}
          {file.parts.length > 1 ? (
            <label class="tick">
              <input
                type="checkbox"
                checked={editing.both}
                onChange={(event) => editing.setBoth(event.currentTarget.checked)}
              />
              <span>{seat.both}</span>
            </label>
          ) : null}
          {part.known_part_id ? <p class="small soft">{seat.known}</p> : null}
          {saving.trouble ? (
            <p class="trouble" role="alert">
              {wrongElsewhere(
                saving.trouble,
                editing.fields.map(({ name }) => name),
              )}
            </p>
          ) : null}
        </form>
        <SeatPicture part={part} active={active} />
      </div>
      {merge ? (
        <Conflict
          merge={merge}
          nameOf={(path) => seat.names[path.replace('seat.', '') as SeatName] ?? path}
          show={(_, value) => (value ? typedLength(value as TypedLength) : words.conflict.empty)}
          onClose={() => editing.setMerge(null)}
          onSettled={(settled) => void editing.settle(settled, done)}
        />
      ) : null}
    </Screen>
  );
}

interface LineProps {
  field: SeatField;
  editing: SeatEditing;
  /** The bore as it was read at the bench. */
  read: TypedLength | null;
  wanted: boolean;
  onActive: () => void;
  onEnter: () => void;
}

function SeatLine({ field, editing, read, wanted, onActive, onEnter }: LineProps) {
  const { seat } = words.mount;
  const { name, letter, needed } = field;
  const { texts, type, units, setUnits, saving } = editing;
  const note = [
    name === 'bore' && read ? seat.read(typedLength(read)) : '',
    wanted ? seat.needed : needed ? '' : seat.optional,
    seat.notes[name] ?? '',
  ];
  return (
    <div data-seat={name} class={wanted ? 'seat-wanted' : ''} onFocusIn={onActive}>
      <LengthField
        label={`${letter} · ${seat.names[name]}`}
        note={note
          .filter(Boolean)
          .map((one) => one.replace(/\.?$/, '.'))
          .join(' ')}
        value={texts[name] ?? ''}
        plausible_mm={PLAUSIBLE_MM[name]}
        unit={units[name] ?? 'mm'}
        error={wrongWith(saving.trouble, name)}
        onInput={(text) => type(name, text)}
        onUnit={(unit) => setUnits((now) => ({ ...now, [name]: unit }))}
        onEnter={onEnter}
      />
    </div>
  );
}
