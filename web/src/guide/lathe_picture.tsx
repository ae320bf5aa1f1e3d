import { Figure } from '../pictures/figure';
import { words } from '../words';
import type { StepWord } from './sequence';

/** The disc from its edge and a tool on each side, seen from above the arbor; what the step moves is lit. */
interface Scene {
  /** How far each tool stands off its face. */
  outboard: number;
  inboard: number;
  /** Where the tools are along the face: 0 at the inner edge, 1 at the outer. */
  along: number;
  lit: readonly ('band' | 'outboard' | 'inboard' | 'slide_in' | 'slide_out' | 'turning' | 'guards')[];
  turning: boolean;
}

const OPEN = 34;
const NEAR = 12;

function sceneOf(word: StepWord, cuts: { outboard: boolean; inboard: boolean }): Scene {
  const open: Scene = { outboard: OPEN, inboard: OPEN, along: 1.15, lit: [], turning: false };
  const touched = { outboard: cuts.outboard ? 0 : OPEN, inboard: cuts.inboard ? 0 : OPEN };
  const both = (['outboard', 'inboard'] as const).filter((face) => cuts[face]);
  const inside: Scene = { ...touched, along: -0.12, lit: [], turning: true };
  switch (word) {
    case 'edges':
      return { ...open, lit: ['outboard', 'inboard'] };
    case 'band_on':
      return { ...open, lit: ['band'] };
    case 'guards':
      return { ...open, lit: ['guards'] };
    case 'machine_on':
      return { ...open, turning: true, lit: ['turning'] };
    case 'heads_open':
      return { ...open, turning: true, lit: ['outboard', 'inboard'] };
    case 'run_in':
      return { ...open, outboard: NEAR, inboard: NEAR, along: 0.5, turning: true, lit: ['slide_in'] };
    case 'touch_outboard':
    case 'dial_outboard':
      return { ...open, outboard: 0, inboard: NEAR, along: 0.5, turning: true, lit: ['outboard'] };
    case 'touch_inboard':
    case 'dial_inboard':
      return { ...open, ...touched, along: 0.5, turning: true, lit: ['inboard'] };
    case 'inner_edge':
      return { ...inside, lit: ['slide_in'] };
    case 'marks':
    case 'lock':
      return { ...inside, lit: both };
    case 'feed_on':
    case 'pass':
      return { ...inside, along: 0.1, lit: ['slide_out'] };
    case 'feed_off':
      return { ...open, turning: true, lit: ['slide_out'] };
    default:
      return open;
  }
}

const DISC = { left: 92, right: 108, top: 38, bottom: 150 };

export function LathePicture({ word, cuts }: { word: StepWord; cuts: { outboard: boolean; inboard: boolean } }) {
  const { guide } = words;
  const scene = sceneOf(word, cuts);
  const lit = (what: Scene['lit'][number]) => (scene.lit.includes(what) ? ' lit' : '');
  const y = DISC.bottom - scene.along * (DISC.bottom - DISC.top);
  const slide = scene.lit.includes('slide_in') ? 1 : scene.lit.includes('slide_out') ? -1 : 0;
  return (
    <Figure name={guide.picture.name} kind="lathe" says={guide.picture.says}>
      <svg class="lathe-picture" viewBox="10 12 180 194" aria-hidden="true">
        <rect x="14" y="176" width="172" height="10" class={`lathe-arbor${lit('turning')}`} />
        <rect
          x={DISC.left}
          y={DISC.top}
          width={DISC.right - DISC.left}
          height={DISC.bottom - DISC.top}
          class="lathe-disc"
        />
        <path d={`M${DISC.left} ${DISC.bottom}H${DISC.right}V164H128V176H86V160H${DISC.left}Z`} class="lathe-disc" />
        <rect
          x={DISC.left - 2}
          y={DISC.top - 7}
          width={DISC.right - DISC.left + 4}
          height="7"
          class={`lathe-band${lit('band')}`}
        />
        {scene.lit.includes('guards') ? <path d="M56 26H144V104H56Z" class="lathe-guard lit" /> : null}
        <g class={`lathe-tool${lit('inboard')}${slide ? ' lit' : ''}`}>
          <path d={`M${DISC.left - scene.inboard} ${y}l-12 -7h-26v14h26Z`} />
        </g>
        <g class={`lathe-tool${lit('outboard')}${slide ? ' lit' : ''}`}>
          <path d={`M${DISC.right + scene.outboard} ${y}l12 -7h26v14h-26Z`} />
        </g>
        {slide !== 0 ? (
          <path
            d={slide > 0 ? 'M176 64V122M169 113L176 123L183 113' : 'M176 122V64M169 73L176 63L183 73'}
            class="lathe-arrow"
          />
        ) : null}
        {scene.turning ? (
          <path d="M174 169a7 13 0 1 1 -3 22M169 184l1 8l8 -2" class={`lathe-turn${lit('turning')}`} />
        ) : null}
        <text x="44" y="202" class="lathe-word">
          {guide.inboard}
        </text>
        <text x="150" y="202" class="lathe-word">
          {guide.outboard}
        </text>
      </svg>
    </Figure>
  );
}
