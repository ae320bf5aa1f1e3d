/** One mark on the thickness scale. */
export interface Rung {
  name: string;
  mm: number;
}

export interface PlacedRung extends Rung {
  /** Where the mark is, in the picture's own length. */
  at: number;
  /** Where its label goes, moved off its neighbours. */
  label_at: number;
}

export interface Scale {
  low_mm: number;
  high_mm: number;
  /** Position of a thickness along the scale. */
  at: (mm: number) => number;
  step_mm: number;
  ticks: number[];
}

const NICE = [1, 2, 5];

/** A round step that gives at most `most` intervals over `span_mm`. */
export function niceStep(span_mm: number, most: number): number {
  const rough = Math.max(span_mm, 1e-6) / most;
  const decade = 10 ** Math.floor(Math.log10(rough));
  const factor = NICE.find((nice) => nice * decade >= rough - 1e-12) ?? 10;
  return factor * decade;
}

/** A linear scale that holds all the values with a little room, drawn over `length`. */
export function thicknessScale(values_mm: readonly number[], length: number): Scale {
  const low = Math.min(...values_mm);
  const high = Math.max(...values_mm);
  const span = Math.max(high - low, 0.2);
  const low_mm = low - 0.12 * span;
  const high_mm = low + 1.12 * span;
  const at = (mm: number) => ((mm - low_mm) / (high_mm - low_mm)) * length;
  const step_mm = niceStep(high_mm - low_mm, 8);
  const ticks: number[] = [];
  for (let i = Math.ceil(low_mm / step_mm); i * step_mm <= high_mm; i += 1)
    ticks.push(Number((i * step_mm).toFixed(6)));
  return { low_mm, high_mm, at, step_mm, ticks };
}

/**
 * Puts labels beside their marks, at least `gap` apart and within [0, length], each as near to its own mark as the
 * others allow. Labels that must move are pushed apart as one block about the middle of their marks.
 */
export function placeLabels(
  rungs: readonly Rung[],
  at: (mm: number) => number,
  gap: number,
  length: number,
): PlacedRung[] {
  interface Block {
    members: PlacedRung[];
    centre: number;
  }
  const placed = rungs
    .map((rung) => ({ ...rung, at: at(rung.mm), label_at: at(rung.mm) }))
    .sort(
      (a, b) => a.at - b.at || rungs.findIndex((r) => r.name === a.name) - rungs.findIndex((r) => r.name === b.name),
    );
  const half = (block: Block) => ((block.members.length - 1) * gap) / 2;
  const settle = (block: Block): Block => {
    const mean = block.members.reduce((sum, member) => sum + member.at, 0) / block.members.length;
    const low = half(block);
    return { ...block, centre: Math.min(Math.max(mean, low), Math.max(length - low, low)) };
  };
  const blocks: Block[] = [];
  for (const member of placed) {
    let block = settle({ members: [member], centre: member.at });
    let before = blocks.at(-1);
    while (before && block.centre - half(block) - (before.centre + half(before)) < gap - 1e-9) {
      blocks.pop();
      block = settle({ members: [...before.members, ...block.members], centre: 0 });
      before = blocks.at(-1);
    }
    blocks.push(block);
  }
  for (const block of blocks) {
    for (const [i, member] of block.members.entries()) member.label_at = block.centre - half(block) + i * gap;
  }
  return placed;
}
