/** Numbers of a draw: whole, below 2^53, so that every program holds them. Those drawn here are short enough to be told. */
const LARGEST = Number.MAX_SAFE_INTEGER;
const DRAWN_BELOW = 1_000_000;

export function seedOf(text: string): number | null {
  const bare = text.replace(/\s/g, '');
  const value = /^\d{1,16}$/.test(bare) ? Number(bare) : Number.NaN;
  return value <= LARGEST ? value : null;
}

export function drawnSeed(random: (bytes: Uint32Array) => Uint32Array): number {
  return 1 + ((random(new Uint32Array(1))[0] ?? 0) % (DRAWN_BELOW - 1));
}
