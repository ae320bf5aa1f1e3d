import type { Unit } from '../api/schema';

/** A number as people type it here, comma or point, or null. */
export function numberOf(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return /^-?[0-9]*\.?[0-9]+$/.test(plain) ? Number(plain) : null;
}

/** A share from a percentage, without the noise of the division. */
export const shareOf = (percent: number) => Number((percent / 100).toFixed(6));
export const percentOf = (share: number) => String(Number((share * 100).toFixed(4)));

const NM_PER: Record<Unit, number> = { mm: 1e6, in: 25.4e6 };
const MOST_DIGITS = 6;

/** A length as it stands in a field to be changed; empty where there is none. */
export const textOfNm = (nm: number | null | undefined, unit: Unit): string =>
  nm === null || nm === undefined ? '' : String(Number((nm / NM_PER[unit]).toFixed(MOST_DIGITS)));

const MAY_BE_TWO = /^[1-9][0-9]*,[0-9]{3}$/;

export interface NumberList {
  values: number[];
  /** Pieces of the text that are no number over nought, or may be two. */
  wrong: string[];
}

/**
 * Numbers in one line, "60 90 130" or "0,05; 0,1": each once, in order. A comma with no blank after it is a decimal one,
 * unless there are two of them in one piece, or a point besides: "60,90,130" is three numbers, "0.05,0.1" is two. A piece
 * such as "100,150" may be either, so it is neither.
 */
export function numberList(text: string): NumberList {
  const pieces = text.split(/[\s;]+|,(?=\s|$)/).flatMap((piece) => {
    return piece.split(',').length > 2 || piece.includes('.') ? piece.split(',') : [piece];
  });
  const values: number[] = [];
  const wrong: string[] = [];
  for (const piece of pieces.filter((one) => one !== '')) {
    const value = MAY_BE_TWO.test(piece) ? null : numberOf(piece);
    if (value === null || value <= 0) wrong.push(piece);
    else if (!values.includes(value)) values.push(value);
  }
  return { values: values.sort((a, b) => a - b), wrong };
}
