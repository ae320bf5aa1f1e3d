import type { Limit, Part, Seat, TypedLength, Unit } from '../api/schema';
import { typed } from '../controls/length_field';
import { typedLength } from '../show/length';
import { words } from '../words';
import { showLimit } from './figures';
import type { LimitName } from './limit_doubts';

/** A figure with its unit, and a limit with its source too, is one thing: it is never put together from two hands. */
export const isWhole = (path: string) =>
  /^(?:limits|seat)\./.test(path) || /^(?:band_width|lining_radius|outer_diameter|hub_reading_diameter)$/.test(path);

const leafOf = (path: string) => path.slice(path.lastIndexOf('.') + 1);

/** A field of a part in words, for where two people changed it. */
export function nameOfField(path: string): string {
  const name = leafOf(path);
  const { limits, mount, arrival } = words;
  const known: Record<string, string> = {
    ...mount.seat.names,
    seat: mount.seat.change,
    band_width: limits.sizes.band_width,
    lining_radius: limits.sizes.lining_radius,
    lining_arc_deg: limits.sizes.lining_arc_deg,
    vented: `${arrival.rotors.vented.yes}, ${arrival.rotors.vented.no}`,
    known_part_id: limits.known.part,
  };
  return (path.startsWith('limits.') ? limits.names[name as LimitName] : known[name]) ?? path;
}

const isLength = (value: unknown): value is TypedLength =>
  typeof value === 'object' && value !== null && 'text' in value && 'unit' in value;

export function showField(path: string, value: unknown): string {
  if (path.startsWith('limits.')) return showLimit(leafOf(path) as LimitName, value as Limit | null);
  if (value === null || value === undefined || value === '') return words.limits.unknown;
  if (isLength(value)) return typedLength(value);
  if (path === 'seat') return seatInWords(value as Seat);
  if (path === 'lining_arc_deg') return `${value}°`;
  if (path === 'vented') return value ? words.arrival.rotors.vented.yes : words.arrival.rotors.vented.no;
  if (path === 'known_part_id') return words.limits.known.filled_from;
  return String(value);
}

const seatInWords = (seat: Seat) =>
  Object.entries(seat)
    .flatMap(([name, size]) => (isLength(size) ? [`${nameOfField(name)}: ${typedLength(size)}`] : []))
    .join('; ');

export const DRUM_LENGTHS = ['band_width', 'lining_radius'] as const;
export type DrumLength = (typeof DRUM_LENGTHS)[number];

/** What of a drum's sizes was typed and is not kept yet; a field that is not named was not touched. */
export interface TouchedSizes {
  band_width?: string;
  lining_radius?: string;
  arc?: string;
  units: Partial<Record<DrumLength, Unit>>;
}

export const UNTOUCHED: TouchedSizes = { units: {} };

/** The sizes as the form shows them: what was typed, else what is stored. */
export function shownSizes(part: Part, touched: TouchedSizes, start: Unit) {
  const stored = part.lining_arc_deg == null ? '' : String(part.lining_arc_deg);
  const length = (name: DrumLength) => ({
    text: touched[name] ?? part[name]?.text ?? '',
    unit: touched.units[name] ?? part[name]?.unit ?? start,
  });
  return {
    band_width: length('band_width'),
    lining_radius: length('lining_radius'),
    arc: touched.arc ?? stored,
  };
}

const ARC = { least: 10, most: 170 };

/** Whole or broken degrees within the range, null for nothing, NaN for what is none. */
export function arcOf(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace(/°$/, '');
  if (plain === '') return null;
  const degrees = /^[0-9]{1,3}(\.[0-9]+)?$/.test(plain) ? Number(plain) : Number.NaN;
  return degrees >= ARC.least && degrees <= ARC.most ? degrees : Number.NaN;
}

/** The part with the sizes that were touched; all others stay as they are stored. */
export function withSizes(part: Part, touched: TouchedSizes, start: Unit): Part {
  const shown = shownSizes(part, touched, start);
  const changed: Partial<Pick<Part, DrumLength | 'lining_arc_deg'>> = {};
  for (const name of DRUM_LENGTHS) {
    if (touched[name] === undefined && touched.units[name] === undefined) continue;
    const { text, unit } = shown[name];
    const old = part[name] ?? null;
    const same = old !== null && old.text === text.trim() && old.unit === unit;
    changed[name] = text.trim() === '' ? null : same ? old : typed(text, unit);
  }
  if (touched.arc !== undefined) changed.lining_arc_deg = arcOf(touched.arc);
  return { ...part, ...changed };
}
