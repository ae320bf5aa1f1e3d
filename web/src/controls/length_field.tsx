import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { Refused, send } from '../api/client';
import type { TypedLength, Unit } from '../api/schema';
import { length } from '../show/length';
import { words } from '../words';
import { Field, type FieldProps } from './field';

/** What the shop makes of a typed length: the page itself reads none. */
export interface ReadLength {
  nm: number;
  unit: Unit;
  resolution_nm: number;
  ask?: Unit;
}

interface Props extends Omit<FieldProps, 'inputMode' | 'digits' | 'after' | 'note'> {
  unit: Unit;
  onUnit: (unit: Unit) => void;
  /** Called with what was read, or null while there is nothing to read. */
  onRead?: (length: ReadLength | null) => void;
  plausible_mm?: [number, number];
  note?: ComponentChildren;
}

const WAIT_MS = 180;

/** A length as people type it, in its own unit, read back in both as soon as it can be read. */
export function LengthField({ unit, onUnit, onRead, plausible_mm, note, ...field }: Props) {
  const [read, setRead] = useState<ReadLength | null>(null);
  const [refusal, setRefusal] = useState('');
  const asked = useRef(0);
  const text = field.value.trim();
  useEffect(() => {
    asked.current += 1;
    const mine = asked.current;
    const settle = (length: ReadLength | null, why = '') => {
      if (mine !== asked.current) return;
      setRead(length);
      setRefusal(why);
      onRead?.(length);
    };
    if (text === '') {
      settle(null);
      return undefined;
    }
    const timer = setTimeout(() => {
      readLength(text, unit, plausible_mm).then(
        (length) => settle(length),
        (cause) => settle(null, cause instanceof Refused ? cause.body.message : ''),
      );
    }, WAIT_MS);
    return () => clearTimeout(timer);
  }, [text, unit]);
  return (
    <Field
      {...field}
      digits
      inputMode="decimal"
      error={field.error ?? (refusal || undefined)}
      note={
        <>
          <span class="figures">{read ? bothUnits(read) : ''}</span>
          {read?.ask ? <span> {words.limits.ask_unit(read.ask)}</span> : null}
          {note ? <span class="length-note">{note}</span> : null}
        </>
      }
      after={<UnitSwitch label={field.label} unit={unit} onUnit={onUnit} />}
    />
  );
}

interface SwitchProps {
  label: string;
  unit: Unit;
  onUnit: (unit: Unit) => void;
  /** How the unit is written here, where it is not by its own name. */
  shown?: string;
}

export function UnitSwitch({ label, unit, onUnit, shown }: SwitchProps) {
  const other: Unit = unit === 'mm' ? 'in' : 'mm';
  return (
    <button
      type="button"
      class="unit-switch figures"
      aria-label={`${label}: ${words.saving.bare_unit(unit, other)}`}
      onClick={() => onUnit(other)}
    >
      {shown ?? unit}
    </button>
  );
}

/** "20.701 mm · 0.8150 in", each to the place that its own unit can still tell. */
export function bothUnits(read: Pick<ReadLength, 'nm' | 'unit' | 'resolution_nm'>): string {
  const other: Unit = read.unit === 'mm' ? 'in' : 'mm';
  const how = { resolution_nm: read.resolution_nm };
  return `${length(read.nm, { ...how, unit: read.unit })} = ${length(read.nm, { ...how, unit: other })}`;
}

export async function readLength(
  text: string,
  default_unit: Unit,
  plausible_mm?: [number, number],
): Promise<ReadLength> {
  const body = { text, default_unit, ...(plausible_mm ? { plausible_mm } : {}) };
  return (await send({ method: 'post', path: '/calc/length', body })) as ReadLength;
}

/**
 * Nanometres of a typed length, or null where nothing is typed. Asked for when saving: typing may be ahead of the
 * reading. A refusal names the field.
 */
export async function nmOf(text: string, unit: Unit, field: string): Promise<number | null> {
  if (text.trim() === '') return null;
  try {
    return (await readLength(text.trim(), unit)).nm;
  } catch (cause) {
    throw cause instanceof Refused ? new Refused(cause.status, { ...cause.body, field }) : cause;
  }
}

/** What was typed, as the API takes it. */
export const typed = (text: string, unit: Unit): TypedLength => ({ text: text.trim(), unit });
