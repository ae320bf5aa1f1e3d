import type { CalcDiscModesOutput } from '../api/schema';
import { numberOf } from '../shop/numbers';
import { useAnswerTo } from '../state/answer';
import type { Figures } from './figures';
import { type Marks, readMarks } from './reckon';

/** What is typed of marks on a spoilt face. */
export interface TypedMarks {
  gaps: string;
  radius: string;
  rpm: number;
}

export const GAPS = 10;
const U_LENGTH_MM = 0.5;
export const GAPS_RANGE = [1, 500] as const;

/** Where on the face marks can lie: on the ring. */
export const radiusRange = (figures: Figures): readonly [number, number] => [
  figures.inner_mm / 2,
  figures.outer_mm / 2,
];

const within = (text: string, [least, most]: readonly [number, number]): number | 'wrong' | null => {
  if (text.trim() === '') return null;
  const value = numberOf(text);
  return value !== null && value >= least && value <= most ? value : 'wrong';
};

export interface MarksTyped {
  gaps: number | 'wrong' | null;
  radius: number | 'wrong' | null;
  marks: Marks | null;
}

/** The middle of the ring is taken where nobody says how far out. */
export const middleRadius = (figures: Figures): number => (figures.inner_mm + figures.outer_mm) / 4;

export function marksTyped(typed: TypedMarks, figures: Figures): MarksTyped {
  const gaps = within(typed.gaps, GAPS_RANGE);
  const radius = within(typed.radius, radiusRange(figures));
  const marks =
    typeof gaps === 'number' && radius !== 'wrong'
      ? {
          spacing_mm: gaps / GAPS,
          u_spacing_mm: Math.min(gaps, U_LENGTH_MM) / GAPS,
          radius_mm: radius ?? middleRadius(figures),
          rpm: typed.rpm,
        }
      : null;
  return { gaps, radius, marks };
}

export interface MarksRead extends MarksTyped {
  typed: TypedMarks;
  figures: Figures;
  found: CalcDiscModesOutput['marks'] | null;
  trouble: string;
}

const WAIT_MS = 150;

/** The marks that the address tells, and what the shop makes of them. */
export function useMarks(typed: TypedMarks, figures: Figures): MarksRead {
  const read = marksTyped(typed, figures);
  const { marks } = read;
  const question = marks ? JSON.stringify([marks, figures]) : null;
  const { answer, trouble } = useAnswerTo(
    question,
    async () => (marks ? (await readMarks(figures, marks)).marks : null),
    WAIT_MS,
  );
  return { ...read, typed, figures, found: answer, trouble: trouble?.message ?? '' };
}
