import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { Limit, LimitSource, Unit } from '../api/schema';
import { Field } from '../controls/field';
import { bothUnits, LengthField, type ReadLength, typed, UnitSwitch } from '../controls/length_field';
import { type Trouble, wrongWith } from '../controls/saving';
import { Choice } from '../shell/choice';
import { length } from '../show/length';
import { words } from '../words';
import { finishText, isSize, plausibleMm } from './figures';
import { type LimitName, twoUnits } from './limit_doubts';

interface Props {
  name: LimitName;
  drum: boolean;
  limit: Limit | null;
  unit: Unit;
  busy: boolean;
  trouble: Trouble | null;
  onTyping: (nm: number | null) => void;
  onKeep: (limit: Limit | null) => void;
  onClose: () => void;
}

const SOURCES: readonly LimitSource[] = [
  'cast_on_part',
  'service_information',
  'house_rule',
  'common_practice',
  'unknown',
];

/** What is typed of one figure. */
function useFigure({ name, limit, unit }: Pick<Props, 'name' | 'limit' | 'unit'>) {
  const [text, setText] = useState(() => editText(name, limit));
  const [itsUnit, setItsUnit] = useState<Unit>(limit?.value.unit ?? unit);
  const [source, setSource] = useState<LimitSource>(limit?.source ?? 'cast_on_part');
  const [note, setNote] = useState(limit?.source_note ?? '');
  const kept = (): Limit | null => {
    if (text.trim() === '') return null;
    const sent = name === 'finish_ra' ? finishText(text, itsUnit) : text;
    return { value: typed(sent, itsUnit), source, source_note: note.trim() };
  };
  return { name, text, setText, itsUnit, setItsUnit, source, setSource, note, setNote, kept };
}

type Figure = ReturnType<typeof useFigure>;

/** One figure: typed in its own unit, with where it comes from. Enter keeps it, Esc leaves it as it was. */
export function LimitEditor({ name, drum, limit, unit, busy, trouble, onTyping, onKeep, onClose }: Props) {
  const figure = useFigure({ name, limit, unit });
  const box = useRef<HTMLFormElement>(null);
  useLayoutEffect(() => {
    box.current?.querySelector('input')?.focus();
    box.current?.scrollIntoView({ block: 'nearest' });
    return () => onTyping(null);
  }, []);
  const keep = () => onKeep(figure.kept());
  const { meanings, which_of_two } = words.limits;
  const wrong = wrongWith(trouble, name) ?? (trouble?.field === '' ? trouble.message : undefined);
  return (
    <form
      class="limit-editor"
      ref={box}
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        onClose();
      }}
    >
      <p>{meanings[name]}</p>
      {name === 'machine_to' || name === 'discard' ? <p class="small soft">{which_of_two}</p> : null}
      {name === 'finish_ra' ? (
        <FinishField figure={figure} wrong={wrong} onEnter={keep} />
      ) : (
        <LengthFields figure={figure} drum={drum} wrong={wrong} onEnter={keep} onTyping={onTyping} />
      )}
      <Choice
        shown
        label={words.limits.source}
        value={figure.source}
        options={SOURCES.map((value) => ({ value, label: words.limits.sources[value] }))}
        onChange={figure.setSource}
      />
      <Field
        label={words.limits.note}
        hint={words.limits.note_hint}
        value={figure.note}
        onInput={figure.setNote}
        onEnter={keep}
      />
      <div class="row">
        <button type="submit" class="main" disabled={busy}>
          {figure.text.trim() === '' ? words.limits.clear : words.limits.save}
        </button>
        <button type="button" class="plain" onClick={onClose}>
          {words.limits.close}
        </button>
      </div>
    </form>
  );
}

interface FigureProps {
  figure: Figure;
  wrong: string | undefined;
  onEnter: () => void;
}

/** Roughness: micrometres or microinches. */
function FinishField({ figure, wrong, onEnter }: FigureProps) {
  const { value, value_hint } = words.limits;
  const { text, setText, itsUnit, setItsUnit } = figure;
  const shown = itsUnit === 'mm' ? 'µm' : 'µin';
  return (
    <Field
      label={value}
      hint={value_hint.finish}
      value={text}
      digits
      inputMode="decimal"
      error={wrong}
      onInput={setText}
      onEnter={onEnter}
      after={<UnitSwitch label={value} unit={itsUnit} shown={shown} onUnit={setItsUnit} />}
    />
  );
}

/** A length; and for a thickness the figure in the other unit too, where the part gives both. */
function LengthFields({ figure, drum, wrong, onEnter, onTyping }: FigureProps & Pick<Props, 'onTyping' | 'drum'>) {
  const { name, text, setText, itsUnit, setItsUnit } = figure;
  const [read, setRead] = useState<ReadLength | null>(null);
  const [other, setOther] = useState('');
  const [otherRead, setOtherRead] = useState<ReadLength | null>(null);
  const { value, value_hint, other_unit, other_unit_hint } = words.limits;
  const take = (taken: ReadLength) => {
    setText(other);
    setItsUnit(taken.unit);
    setOther(text);
  };
  return (
    <>
      <LengthField
        label={value}
        hint={isSize(name) ? value_hint.length : value_hint.small}
        value={text}
        unit={itsUnit}
        error={wrong}
        plausible_mm={plausibleMm(name, drum)}
        onInput={setText}
        onUnit={setItsUnit}
        onEnter={onEnter}
        onRead={(length_read) => {
          setRead(length_read);
          onTyping(length_read?.nm ?? null);
        }}
      />
      {isSize(name) && read ? (
        <LengthField
          label={other_unit}
          hint={other_unit_hint}
          value={other}
          unit={read.unit === 'mm' ? 'in' : 'mm'}
          onInput={setOther}
          onUnit={() => undefined}
          onEnter={onEnter}
          onRead={setOtherRead}
        />
      ) : null}
      {read && otherRead ? (
        <TwoUnits first={read} second={otherRead} drum={drum} onTake={() => take(otherRead)} />
      ) : null}
    </>
  );
}

interface TwoUnitsProps {
  first: ReadLength;
  second: ReadLength;
  drum: boolean;
  onTake: () => void;
}

/** Both units of one figure against each other; where they differ, the one that leaves more metal is one tap away. */
function TwoUnits({ first, second, drum, onTake }: TwoUnitsProps) {
  const { agreement, difference_nm } = twoUnits(first, second);
  const { two_units } = words.limits;
  if (agreement === 'agree') return <p class="small">{two_units.agree}</p>;
  const by = length(Math.abs(difference_nm), { unit: 'mm', resolution_nm: 1000 });
  return (
    <div class={agreement === 'disagree' ? 'trouble' : 'doubt'} role="status">
      <p>{two_units[agreement](by)}</p>
      {(drum ? difference_nm > 0 : difference_nm < 0) ? (
        <button type="button" onClick={onTake}>
          {two_units.take(bothUnits(second))}
        </button>
      ) : null}
    </div>
  );
}

function editText(name: LimitName, limit: Limit | null): string {
  if (!limit) return '';
  const { nm, unit, text } = limit.value;
  if (name !== 'finish_ra' || nm === undefined) return text;
  return unit === 'mm' ? `${nm / 1000}` : `${Number((nm / 25.4).toFixed(2))}`;
}
