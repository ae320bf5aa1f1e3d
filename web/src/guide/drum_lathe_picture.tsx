import { Figure } from '../pictures/figure';
import { words } from '../words';
import type { StepWord } from './sequence';

/** The drum cut through its axis, upper half, and the tool inside it; what the step moves is lit. */
interface Scene {
  /** How far the tool stands off the surface. */
  off: number;
  /** Where it is along the band: 0 at the closed end, 1 at the open edge. */
  along: number;
  lit: readonly ('band' | 'tool' | 'slide_in' | 'slide_out' | 'turning' | 'guards')[];
  turning: boolean;
}

const CLEAR = 30;
const NEAR = 10;

function sceneOf(word: StepWord): Scene {
  const open: Scene = { off: CLEAR, along: 1.25, lit: [], turning: false };
  const inside: Scene = { off: 0, along: -0.04, lit: [], turning: true };
  switch (word) {
    case 'edges':
      return { ...open, lit: ['tool'] };
    case 'band_on':
      return { ...open, lit: ['band'] };
    case 'guards':
      return { ...open, lit: ['guards'] };
    case 'machine_on':
      return { ...open, turning: true, lit: ['turning'] };
    case 'heads_open':
      return { ...open, turning: true, lit: ['tool'] };
    case 'run_in':
      return { ...open, off: NEAR, along: 0.5, turning: true, lit: ['slide_in'] };
    case 'touch_outboard':
    case 'dial_outboard':
      return { off: 0, along: 0.5, turning: true, lit: ['tool'] };
    case 'inner_edge':
      return { ...inside, lit: ['slide_in'] };
    case 'marks':
    case 'lock':
      return { ...inside, lit: ['tool'] };
    case 'feed_on':
    case 'pass':
      return { ...inside, along: 0.12, lit: ['slide_out'] };
    case 'feed_off':
      return { ...open, turning: true, lit: ['slide_out'] };
    default:
      return open;
  }
}

const WALL = { closed: 42, open: 128, outer: 46, inner: 60 };
const AXIS = 172;

export function DrumLathePicture({ word }: { word: StepWord }) {
  const { guide } = words;
  const scene = sceneOf(word);
  const lit = (what: Scene['lit'][number]) => (scene.lit.includes(what) ? ' lit' : '');
  const x = WALL.closed + scene.along * (WALL.open - WALL.closed);
  const y = WALL.inner + scene.off;
  const slide = scene.lit.includes('slide_in') ? -1 : scene.lit.includes('slide_out') ? 1 : 0;
  return (
    <Figure name={guide.picture.name} kind="lathe" says={guide.picture.says}>
      <svg class="lathe-picture" viewBox="10 16 180 182" aria-hidden="true">
        <rect x="14" y={AXIS - 5} width="172" height="10" class={`lathe-arbor${lit('turning')}`} />
        <path
          d={`M${WALL.closed - 12} ${WALL.outer}H${WALL.open}V${WALL.inner}H${WALL.closed}V${AXIS - 5}H${WALL.closed - 12}Z`}
          class="lathe-disc"
        />
        <rect
          x={WALL.closed - 6}
          y={WALL.outer - 8}
          width={WALL.open - WALL.closed - 6}
          height="8"
          class={`lathe-band${lit('band')}`}
        />
        {scene.lit.includes('guards') ? <path d="M24 26H150V112H24Z" class="lathe-guard lit" /> : null}
        <g class={`lathe-tool${lit('tool')}${slide ? ' lit' : ''}`}>
          <path d={`M${x} ${y}l-6 11v11h64v-11h-52Z`} />
        </g>
        {slide !== 0 ? (
          <path
            d={slide < 0 ? 'M150 136H92M101 129L91 136L101 143' : 'M92 136H150M141 129L151 136L141 143'}
            class="lathe-arrow"
          />
        ) : null}
        {scene.turning ? (
          <path d="M174 161a7 13 0 1 1 -3 22M169 176l1 8l8 -2" class={`lathe-turn${lit('turning')}`} />
        ) : null}
        <text x={WALL.closed - 6} y="194" class="lathe-word">
          {words.pictures.drum.closed_end}
        </text>
        <text x={WALL.open + 6} y={WALL.outer - 12} class="lathe-word">
          {words.pictures.drum.open_edge}
        </text>
      </svg>
    </Figure>
  );
}
