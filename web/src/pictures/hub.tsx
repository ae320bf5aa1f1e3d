import { words } from '../words';
import { Figure } from './figure';
import { spotAt, type Turning, wedge } from './ring_geometry';
import './hub.css';

/**
 * A rotor on its hub as it is seen from outside: the studs, the chalk mark of the hub at the top, that of the rotor where
 * the rotor is turned to, and an arrow from one to the other. Beside the studs stand numbers: how many studs from the
 * mark, or the order of the nuts.
 */
export interface HubPictureProps {
  name: string;
  says: string;
  studs: number;
  turning: Turning;
  /** By how many studs the rotor is turned, in the sense of the angles. */
  turned?: number;
  /** Which way the arrow goes; without it there is none. */
  arrow?: { by: number; sense: Turning } | null;
  /** Stud at which a tapered plate is thickest. */
  plate?: number | null;
  /** What stands beside each stud. */
  numbers?: readonly string[];
  /** Studs that are lit. */
  lit?: readonly number[];
  /** The bare flange, without the rotor. */
  bare?: boolean;
}

const OUTER = 92;
const RING = 56;
const HAT = 52;
const FLANGE = 46;
const PITCH = 29;
const BORE = 13;
const ARROW = 74;

export function HubPicture(props: HubPictureProps) {
  const { name, says, studs, turning, bare = false, plate = null } = props;
  const angle = (stud: number) => (360 * stud) / studs;
  return (
    <Figure name={name} kind="hub" says={says}>
      <svg class="hub" viewBox="-100 -110 200 206" aria-hidden="true">
        {bare ? null : (
          <g>
            <circle r={OUTER} class="ring-metal" />
            <circle r={RING} class="hub-hat" />
            <circle r={HAT} class="ring-hat" />
          </g>
        )}
        {bare ? <circle r={FLANGE} class="ring-metal" /> : null}
        {plate !== null ? <PlateOn at_deg={angle(plate)} turning={turning} /> : null}
        <circle r={BORE} class="ring-plate" />
        {Array.from({ length: studs }, (_, stud) => (
          <Stud key={stud} stud={stud} at_deg={angle(stud)} {...props} />
        ))}
        <Marks {...props} angle_deg={angle(props.turned ?? 0)} />
        {props.arrow && props.arrow.by > 0 ? <Arrow by_deg={angle(props.arrow.by)} sense={props.arrow.sense} /> : null}
      </svg>
      <Legend {...props} />
    </Figure>
  );
}

function Legend({ bare = false, plate = null }: HubPictureProps) {
  const { hub } = words.pictures;
  return (
    <figcaption class="hub-legend small">
      <span>
        <svg viewBox="-7 -11 14 12" width="14" height="12" aria-hidden="true">
          <path d="M0 0l-6 -10h12Z" class="hub-mark" />
        </svg>{' '}
        {hub.hub_mark}
      </span>
      {bare ? null : (
        <span>
          <svg viewBox="0 0 20 8" width="20" height="8" aria-hidden="true">
            <path d="M0 4H20" class="hub-chalk" />
          </svg>{' '}
          {hub.rotor_mark}
        </span>
      )}
      {plate === null ? null : (
        <span>
          <svg viewBox="0 0 20 8" width="20" height="8" aria-hidden="true">
            <path d="M0 1H20V7H0Z" class="hub-plate" />
          </svg>{' '}
          {hub.plate}
        </span>
      )}
      <span class="soft">{hub.seen}</span>
    </figcaption>
  );
}

function Stud({ stud, at_deg, ...props }: HubPictureProps & { stud: number; at_deg: number }) {
  const { x, y } = spotAt(at_deg, PITCH, props.turning);
  const look = props.lit?.includes(stud) ? 'hub-stud-lit' : stud === 0 ? 'hub-stud-chalk' : '';
  const text = props.numbers?.[stud] ?? '';
  return (
    <g transform={`translate(${x.toFixed(2)} ${y.toFixed(2)})`} class={`hub-stud ${look}`}>
      <circle r={text ? 8.5 : 5.5} />
      <text>{text}</text>
    </g>
  );
}

/** The hub's mark at the top, over the rotor; the rotor's own goes with it. */
function Marks({ turning, angle_deg, bare = false }: HubPictureProps & { angle_deg: number }) {
  const from = spotAt(angle_deg, RING + 3, turning);
  const to = spotAt(angle_deg, OUTER - 3, turning);
  return (
    <g>
      <path d={`M0 ${bare ? -FLANGE - 3 : -OUTER - 3}l-6 -10h12Z`} class="hub-mark" />
      {bare ? null : <path d={`M${from.x} ${from.y}L${to.x} ${to.y}`} class="hub-chalk" />}
    </g>
  );
}

function Arrow({ by_deg, sense }: { by_deg: number; sense: Turning }) {
  const gap = 7;
  const from = spotAt(gap, ARROW, sense);
  const to = spotAt(by_deg - gap - 4, ARROW, sense);
  const tip = spotAt(by_deg - gap, ARROW, sense);
  const back = spotAt(by_deg - gap - 9, ARROW - 7, sense);
  const out = spotAt(by_deg - gap - 9, ARROW + 7, sense);
  const sweep = sense === 'clockwise' ? 1 : 0;
  const large = by_deg - 2 * gap > 180 ? 1 : 0;
  return (
    <g class="hub-arrow">
      <path d={`M${from.x} ${from.y}A${ARROW} ${ARROW} 0 ${large} ${sweep} ${to.x} ${to.y}`} />
      <path d={`M${tip.x} ${tip.y}L${back.x} ${back.y}L${out.x} ${out.y}Z`} class="hub-arrow-head" />
    </g>
  );
}

const HALF_DEG = 60;

/** Where a tapered plate is thickest: a piece of the flange's edge that swells towards the middle of it. */
function PlateOn({ at_deg, turning }: { at_deg: number; turning: Turning }) {
  return (
    <g>
      <path d={wedge(at_deg - HALF_DEG, at_deg + HALF_DEG, FLANGE - 6, FLANGE, turning)} class="hub-plate" />
      <path d={wedge(at_deg - HALF_DEG / 3, at_deg + HALF_DEG / 3, FLANGE - 10, FLANGE, turning)} class="hub-plate" />
    </g>
  );
}
