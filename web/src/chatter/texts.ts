import { digitsOfMm, lengthOfMm } from '../show/length';
import { shop } from '../state/shop';

/** Two figures: the step that is shown under each size. */
const STEPS = [
  { under_mm: 0.1, resolution_nm: 1000 },
  { under_mm: 1, resolution_nm: 10_000 },
];
const COARSE_NM = 100_000;

/** A depth with two figures, in the shop's unit. */
export const depthText = (mm: number): string =>
  lengthOfMm(mm, {
    unit: shop.value?.settings.default_unit ?? 'mm',
    resolution_nm: STEPS.find((one) => mm < one.under_mm)?.resolution_nm ?? COARSE_NM,
  });

/** A depth written beside the chart, without its unit. */
export const tickText = (mm: number): string =>
  digitsOfMm(mm, { unit: shop.value?.settings.default_unit ?? 'mm', resolution_nm: 10_000 });

/** How many times, with no more figures than it is known to. */
export const timesText = (times: number): string => String(Number(times.toPrecision(2)));
