import { words } from '../words';

const KM_PER_UNIT: Record<string, number> = { '10 000 km': 10_000 };

const figureOf = (value: number, unit: string) => {
  const km = KM_PER_UNIT[unit];
  return km ? grouped(rounded(value * km)) : String(rounded(value));
};

const unitOf = (unit: string) => {
  const { km, year } = words.trade.until_worn.unit;
  return KM_PER_UNIT[unit] ? km : unit === 'year' ? year : unit;
};

/** A distance or a time to discard, to two places: it is not known better than that. */
export const wearText = (value: number, unit: string): string => `${figureOf(value, unit)} ${unitOf(unit)}`;

/** The room to discard as a range. */
export const wearRange = ({ low95, high95, unit }: { low95: number; high95: number; unit: string }): string =>
  words.trade.until_worn.between(figureOf(low95, unit), wearText(high95, unit));

export function rounded(value: number): number {
  if (value <= 0) return 0;
  const place = 10 ** (Math.floor(Math.log10(value)) - 1);
  return Number((Math.round(value / place) * place).toPrecision(12));
}

export const grouped = (whole: number) => String(whole).replace(/\B(?=(\d{3})+(?!\d))/g, ' ');
