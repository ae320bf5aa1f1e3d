import type { Limits } from '../api/schema';
import { EdgeScale, type ScaleRung, type ScaleZone } from '../pictures/edge_scale';
import { NM_PER_MM, typedLength } from '../show/length';
import { words } from '../words';
import { type LimitName, limitDoubts } from './limit_doubts';

/** A part of no vehicle: what the picture is shaped like while figures are unknown. Invented. */
const SHAPE_MM = {
  disc: { nominal: 22, machine_to: 20.4, discard: 20 },
  drum: { nominal: -254, machine_to: -255.5, discard: -256.3 },
};

interface Props {
  limits: Limits;
  drum: boolean;
  active: LimitName | null;
  /** The figure that is being typed, before it is kept. */
  typing_nm: number | null;
}

type Size = 'nominal' | 'machine_to' | 'discard';
const SIZES: readonly Size[] = ['nominal', 'machine_to', 'discard'];

/**
 * Which of the two limits is meant: the rotor's edge, or the drum's inside, to scale, with what a cut may take and what
 * must stay to wear. A drum's diameters have a minus here: it grows as it wears.
 */
export function LimitsPicture({ limits, drum, active, typing_nm }: Props) {
  const { picture } = words.limits;
  const way = drum ? -1 : 1;
  const invented = SHAPE_MM[drum ? 'drum' : 'disc'];
  const known = (name: Size) =>
    ((active === name && typing_nm !== null ? typing_nm : (limits[name]?.value.nm ?? Number.NaN)) * way) / NM_PER_MM;
  const anyKnown = SIZES.some((name) => Number.isFinite(known(name)));
  const shape = (name: Size): number => {
    if (Number.isFinite(known(name))) return known(name);
    const other = SIZES.find((one) => Number.isFinite(known(one)));
    return other ? known(other) + invented[name] - invented[other] : invented[name];
  };
  const label = { nominal: picture.new, machine_to: picture.machine_to, discard: picture.discard };
  const rungs: ScaleRung[] = SIZES.map((name) => ({
    name,
    mm: shape(name),
    label: label[name],
    digits: digitsOf(limits, name, active === name ? typing_nm : null),
    kind: Number.isFinite(known(name)) ? (name === 'nominal' ? 'surface' : name) : 'ghost',
    active: active === name,
  }));
  const inOrder = shape('nominal') > shape('machine_to') && shape('machine_to') > shape('discard');
  const zones: ScaleZone[] = inOrder
    ? [
        { from_mm: shape('machine_to'), to_mm: shape('nominal'), look: 'stock', label: picture.stock },
        { from_mm: shape('discard'), to_mm: shape('machine_to'), look: 'room', label: picture.room },
        { from_mm: drum ? shape('discard') - BEYOND_MM : 0, to_mm: shape('discard'), look: 'scrap' },
      ]
    : [{ from_mm: drum ? shape('discard') - BEYOND_MM : 0, to_mm: Math.max(...SIZES.map(shape)), look: 'metal' }];
  const summary = rungs.map((rung) => `${rung.label}: ${rung.digits}`).join('; ');
  return (
    <figure class="limits-picture">
      <figcaption>{picture.title}</figcaption>
      <EdgeScale
        summary={`${picture.title}. ${summary}.`}
        rungs={rungs}
        zones={zones}
        whole_mm={drum ? null : shape('nominal')}
      />
      {anyKnown && limitDoubts(limits, drum).length === 0 ? null : (
        <p class="small soft">{anyKnown ? '' : picture.invented}</p>
      )}
    </figure>
  );
}

const BEYOND_MM = 100;

function digitsOf(limits: Limits, name: Size, typing_nm: number | null): string {
  if (typing_nm !== null) return `${(typing_nm / NM_PER_MM).toFixed(2)} mm`;
  const limit = limits[name];
  return limit ? typedLength(limit.value) : words.limits.picture.unknown;
}
