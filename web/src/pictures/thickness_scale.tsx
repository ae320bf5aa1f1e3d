import { type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';
import { Figure } from './figure';

/**
 * Thicknesses on one upright scale, true to each other: the limits, what the part has now and what a cut would leave.
 * A limit has a line through the bar, a state a point beside it; each has its word.
 */
export interface ScaleMark {
  key: string;
  word: string;
  value_mm: number;
  kind: 'limit' | 'now' | 'after';
  /** Where it comes from, in small. */
  note?: string;
}

export interface ThicknessScaleProps {
  name: string;
  marks: readonly ScaleMark[];
  how: HowShown;
  height?: number;
}

const LABEL_STEP = 40;
const PADDING = 24;

/** Moves places that stand closer than `step` apart, as little as need be, in order, within [low, high]. */
export function spread(places: readonly number[], step: number, low: number, high: number): number[] {
  const order = places.map((_, i) => i).sort((a, b) => (places[a] ?? 0) - (places[b] ?? 0));
  const result = [...places];
  let least = low;
  for (const i of order) {
    result[i] = Math.max(places[i] ?? 0, least);
    least = (result[i] ?? 0) + step;
  }
  let most = high;
  for (const i of order.reverse()) {
    result[i] = Math.min(result[i] ?? 0, most);
    most = (result[i] ?? 0) - step;
  }
  return result;
}

export function ThicknessScale({ name, marks, how, height = 320 }: ThicknessScaleProps) {
  const values = marks.map((mark) => mark.value_mm);
  const high = Math.max(...values);
  const low = Math.min(...values);
  const tall = Math.max(height, marks.length * LABEL_STEP + 2 * PADDING);
  const y = (mm: number) => PADDING + ((high - mm) / Math.max(high - low, 1e-6)) * (tall - 2 * PADDING);
  const labels = spread(
    marks.map((mark) => y(mark.value_mm)),
    LABEL_STEP,
    PADDING,
    tall - PADDING,
  );
  const sorted = [...marks].sort((a, b) => b.value_mm - a.value_mm);
  const says = sorted.map((mark) => `${mark.word} ${lengthOfMm(mark.value_mm, how)}.`).join(' ');
  const discard = marks.find((mark) => mark.key === 'discard');
  return (
    <Figure
      name={name}
      kind="scale"
      says={says}
      table={{
        head: [words.pictures.scale.what, words.pictures.value, words.pictures.scale.from],
        rows: sorted.map((mark) => [mark.word, lengthOfMm(mark.value_mm, how), mark.note ?? '']),
      }}
    >
      <svg class="scale" width="100%" height={tall} aria-hidden="true">
        <rect x="4" y={PADDING} width="28" height={tall - 2 * PADDING} class="scale-metal" />
        {discard && (
          <rect x="4" y={y(discard.value_mm)} width="28" height={tall - y(discard.value_mm)} class="scale-under" />
        )}
        {marks.map((mark, i) => {
          const at = y(mark.value_mm);
          const label = labels[i] ?? at;
          return (
            <g key={mark.key} class={`scale-${mark.kind}`}>
              {mark.kind === 'limit' ? (
                <path d={`M0 ${at}H36`} class="scale-line" />
              ) : (
                <path
                  d={`M36 ${at}L24 ${at - 7}V${at + 7}Z`}
                  class="scale-pointer"
                  transform={`rotate(180 30 ${at})`}
                />
              )}
              <path d={`M38 ${at}L56 ${label}H62`} class="scale-leader" />
              <text x="68" y={label} class="scale-word">
                <tspan class="scale-value">{lengthOfMm(mark.value_mm, how)}</tspan>
                <tspan dx="8">{mark.word}</tspan>
              </text>
              {mark.note && (
                <text x="68" y={label + 15} class="scale-note">
                  {mark.note}
                </text>
              )}
            </g>
          );
        })}
      </svg>
    </Figure>
  );
}
