import { Figure } from '../pictures/figure';
import { shadeColour, wedge } from '../pictures/ring_geometry';
import { words } from '../words';
import type { FacePicture } from './model';
import { micrometres } from './numbers';
import { FULL_UM, heightSpan, meanHeight, shareOf } from './relief_grid';

const OUTER = 100;
const [ANGLES, RINGS] = [60, 8];

/** The face flat, coloured by height: for browsers that draw no relief. */
export function FlatFace({ picture }: { picture: FacePicture }) {
  const { face: said, um } = words.practice_bench;
  const outer_mm = picture.inner_radius_mm + picture.rings * picture.ring_step_mm;
  const middle = meanHeight(picture);
  const radius = (ring: number) =>
    (OUTER * (picture.inner_radius_mm + (ring / RINGS) * picture.rings * picture.ring_step_mm)) / outer_mm;
  const height = (ring: number, angle: number) => {
    const r = Math.min(picture.rings - 1, Math.round(((ring + 0.5) / RINGS) * picture.rings));
    const a = Math.round((angle / ANGLES) * picture.angles) % picture.angles;
    return picture.height_um[r * picture.angles + a] ?? middle;
  };
  const pieces = Array.from({ length: RINGS * ANGLES }, (_, i) => [Math.floor(i / ANGLES), i % ANGLES] as const);
  const step = 360 / ANGLES;
  return (
    <Figure name={said.relief} kind="flat-face" says={said.span(micrometres(heightSpan(picture)))}>
      <svg class="ring" viewBox="-110 -110 220 220" aria-hidden="true">
        {pieces.map(([ring, angle]) => (
          <path
            key={`${ring}-${angle}`}
            d={wedge((angle - 0.5) * step, (angle + 0.5) * step, radius(ring), radius(ring + 1), 'clockwise')}
            style={{ fill: shadeColour(shareOf(height(ring, angle) - middle)) }}
          />
        ))}
      </svg>
      <figcaption class="legend">
        <span class="legend-bar" />
        <span class="legend-words small">
          <span>
            {said.low} <span class="digits">−{FULL_UM}</span>
          </span>
          <span>{said.mid}</span>
          <span>
            {said.high} <span class="digits">+{FULL_UM}</span> {um}
          </span>
        </span>
      </figcaption>
    </Figure>
  );
}
