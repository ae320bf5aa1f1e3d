/** A number as people type it here, comma or point, or null. */
export function numberOf(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return /^-?[0-9]*\.?[0-9]+$/.test(plain) ? Number(plain) : null;
}

/** A share from a percentage, without the noise of the division. */
export const shareOf = (percent: number) => Number((percent / 100).toFixed(6));
export const percentOf = (share: number) => String(Number((share * 100).toFixed(4)));
