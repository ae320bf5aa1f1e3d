import { signal } from '@preact/signals';
import { numberOf } from '../shop/numbers';

/** What a new part and a cut cost here. Kept on this tablet; the shop works out the sum and remembers none of it. */
export interface Prices {
  part: string;
  cut: string;
  /** Whatever this shop's money is called. */
  money: string;
}

const KEY = 'brakewright/prices';
const NONE: Prices = { part: '', cut: '', money: '' };
const MOST = 100_000;

function kept(): Prices {
  try {
    const found = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<Prices>;
    return { part: found.part ?? '', cut: found.cut ?? '', money: found.money ?? '' };
  } catch {
    return NONE;
  }
}

export const prices = signal<Prices>(kept());

export function keepPrices(part: Partial<Prices>): void {
  prices.value = { ...prices.value, ...part };
  localStorage.setItem(KEY, JSON.stringify(prices.value));
}

/** As the shop takes it; nothing where nothing is typed, or no price. */
export function priceOf(text: string): number | null {
  const value = numberOf(text);
  return value !== null && value >= 0 && value <= MOST ? value : null;
}

/** Something stands there that is no price. */
export const isWrong = (text: string): boolean => text.trim() !== '' && priceOf(text) === null;

/** What is asked of the shop: nothing without the price of a part. A cut without a price counts as free. */
export function asked({ part, cut }: Prices): { part_price?: number; cut_cost?: number } {
  const [part_price, cut_cost] = [priceOf(part), priceOf(cut)];
  if (part_price === null) return {};
  return cut_cost === null ? { part_price } : { part_price, cut_cost };
}

export const sumText = (value: number, money: string): string => {
  const text = Math.abs(value).toFixed(Number.isInteger(value) ? 0 : 2);
  return `${value < 0 ? '−' : ''}${text}${money.trim() ? ` ${money.trim()}` : ''}`;
};
