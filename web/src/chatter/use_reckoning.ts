import { useMemo } from 'preact/hooks';
import { ask, place } from '../route/router';
import { numberOf } from '../shop/numbers';
import { useAnswer } from '../state/answer';
import { words } from '../words';
import { askedSpeeds, SHOWN_MM } from './chart_geometry';
import { typedFigures } from './counted';
import { depthsOf, nearest } from './depths';
import { FIGURE_NAMES, isRing, toldFigures } from './figures';
import { reckon, ringBySize } from './reckon';
import { wayHere } from './ring';
import { type Cutting, speedsOf } from './scene';
import { aloneHeard, bandHeard, ringOf } from './tones';
import { useMarks } from './use_marks';
import { useTaps } from './use_taps';

const AROUND = 1.25;
const STILL_MS = 150;

/** Everything that the page shows, from what is known of the cut and what was typed, tapped and read here. */
export function useReckoning(cutting: Cutting, confidence: number) {
  const { query } = place.value;
  const { told, figures } = toldFigures(typedFigures(FIGURE_NAMES), cutting.job, cutting.shop);
  const refusal = !isRing(figures)
    ? words.chatter.no_ring
    : figures.feed_mm_per_rev > 2 * figures.nose_mm
      ? words.chatter.too_coarse
      : '';
  const banded = query.band !== 'off';
  const way = wayHere();
  const speeds = speedsOf(cutting.lathe);

  const size = JSON.stringify([figures.outer_mm, figures.inner_mm, figures.thickness_mm]);
  const sized = useAnswer(() => (refusal ? Promise.resolve(null) : ringBySize(figures)), [size, refusal], STILL_MS);
  const taps = useTaps(cutting.kept, figures);
  const rpm = Number(query.rpm);
  const marks = useMarks(
    {
      gaps: query.gaps ?? '',
      radius: query.radius ?? '',
      rpm: speeds.rpm.includes(rpm) ? rpm : (speeds.rpm[Math.floor(speeds.rpm.length / 2)] ?? 100),
    },
    figures,
  );
  const with_band = aloneHeard(taps.taps) === null;
  const band_heard = taps.picked && !with_band ? bandHeard(taps.picked, taps.taps.on) : null;
  const ring = ringOf(
    way,
    {
      by_size_hz: sized.answer?.hz ?? null,
      tone: taps.picked,
      with_band,
      band_times: band_heard,
      marks_hz: marks.found && marks.found.diameters !== null ? marks.found.hz : null,
    },
    figures,
  );
  const { all } = askedSpeeds(speeds.rpm);
  const depths = useMemo(
    () => depthsOf(cutting.mark_um, Math.max(SHOWN_MM, AROUND * cutting.depth_mm)),
    [cutting.mark_um, cutting.depth_mm],
  );
  const question = ring && { ring, banded, confidence, rpm: all, depths_mm: depths };
  const { answer, trouble } = useAnswer(
    () => (question && !refusal ? reckon(figures, question) : Promise.resolve(null)),
    [JSON.stringify([figures, question]), refusal],
    STILL_MS,
  );
  const depth_mm = nearest(depths, numberOf(query.depth ?? '') ?? cutting.depth_mm);
  return {
    outlook: answer,
    trouble: trouble?.message ?? sized.trouble?.message ?? '',
    refusal,
    ring,
    band_heard,
    by_size: sized.answer,
    told,
    figures,
    taps,
    marks,
    way,
    speeds,
    banded,
    depths,
    depth_mm,
    setDepth: (mm: number) => ask({ depth: String(mm) }),
  };
}

export type Reckoning = ReturnType<typeof useReckoning>;
