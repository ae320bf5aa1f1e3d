import { type HowShown, lengthOfMm } from '../show/length';
import { words } from '../words';
import { type Contact, gapShare } from './drum_geometry';
import { Figure } from './figure';

interface Props {
  contact: Contact;
  gap_um: number;
  arc_deg: number;
  how: HowShown;
}

const RADIUS = 128;
const MIDDLE = { x: 160, y: 142 };
const MOST_GAP = 13;
const BEYOND_DEG = 12;

const spot = (deg: number, radius: number) => {
  const t = (deg * Math.PI) / 180;
  return `${MIDDLE.x + radius * Math.sin(t)} ${MIDDLE.y - radius * Math.cos(t)}`;
};
const arc = (from: number, to: number, radius: (deg: number) => number) =>
  Array.from({ length: 41 }, (_, i) => from + ((to - from) * i) / 40)
    .map((deg) => spot(deg, radius(deg)))
    .join('L');

/** Where the lining touches the drum and where it does not, the gap enlarged. */
export function ShoeContact({ contact, gap_um, arc_deg, how }: Props) {
  const { drum } = words.pictures;
  const half = arc_deg / 2;
  const lining = (deg: number) => RADIUS - MOST_GAP * gapShare(contact, deg, arc_deg);
  const touches = contact === 'mid_shoe' ? [0] : contact === 'heel_and_toe' ? [-half, half] : [-half, 0, half];
  const gap = `${drum.gap_of[contact]} ${lengthOfMm(gap_um / 1000, how)}`;
  const says = contact === 'full' ? drum.contacts.full : `${drum.contacts[contact]}, ${gap}`;
  return (
    <Figure name={drum.shoe} kind="shoe" says={`${says}.`}>
      <svg class="shoe" viewBox="0 0 320 118" aria-hidden="true">
        <path class="shoe-gap" d={`M${arc(-half, half, () => RADIUS)}L${arc(half, -half, lining)}Z`} />
        <path class="shoe-drum" d={`M${arc(-half - BEYOND_DEG, half + BEYOND_DEG, () => RADIUS)}`} />
        <path class="shoe-lining" d={`M${arc(-half, half, lining)}`} />
        {touches.map((deg) => (
          <path
            key={deg}
            class="shoe-touch"
            d="M0 0L-5 11H5Z"
            transform={`translate(${spot(deg, RADIUS - 3)}) rotate(${deg})`}
          />
        ))}
        <text class="drum-word" x="160" y="108" text-anchor="middle">
          {contact === 'full' ? '' : gap}
        </text>
      </svg>
      <p class="small">
        {says}. <span class="soft">{contact === 'full' ? '' : drum.not_to_scale}</span>
      </p>
    </Figure>
  );
}
