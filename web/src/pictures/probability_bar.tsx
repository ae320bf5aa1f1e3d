import { percent } from '../show/length';
import { words } from '../words';
import { Figure } from './figure';

export type Standing = 'within' | 'outside' | 'cannot tell';

/** What a probability says when `confidence` is asked for. */
export function standingOf(p: number, confidence: number): Standing {
  if (p >= confidence) return 'within';
  return p <= 1 - confidence ? 'outside' : 'cannot tell';
}

/** A dot inside, outside or on the edge of a bracket: the shape beside the word. */
export function StandingMark({ standing }: { standing: Standing }) {
  const x = standing === 'within' ? 10 : standing === 'outside' ? 23 : 17;
  return (
    <svg class="standing" viewBox="0 0 28 20" width="28" height="20" aria-hidden="true">
      <path d="M6 2.5H3V17.5H6M14 2.5H17V17.5H14" />
      <circle cx={x} cy="10" r="3.6" class={standing === 'cannot tell' ? 'standing-open' : ''} />
    </svg>
  );
}

/** A probability as a bar, with the marks that it has to reach: `confidence` for yes, the rest of it for no. */
export interface ProbabilityBarProps {
  name: string;
  p: number;
  confidence: number;
  /** Words for the three answers, where "within" is not what is asked. */
  answers?: Partial<Record<Standing, string>>;
}

export function ProbabilityBar({ name, p, confidence, answers = {} }: ProbabilityBarProps) {
  const standing = standingOf(p, confidence);
  const word = answers[standing] ?? words.pictures.standing[standing];
  return (
    <Figure
      name={name}
      kind="probability"
      says={words.pictures.probability.says(percent(p), percent(confidence), word)}
    >
      <p class="probability-word" aria-hidden="true">
        <StandingMark standing={standing} />
        <strong>{word}</strong>
        <span class="digits">{percent(p)}</span>
      </p>
      <ProbabilityTrack p={p} confidence={confidence} asked={words.pictures.probability.asked(percent(confidence))} />
    </Figure>
  );
}

/** The bar alone, where words beside it say what it is. */
export function ProbabilityTrack({ p, confidence, asked = '' }: { p: number; confidence: number; asked?: string }) {
  const x = (share: number) => `${100 * share}%`;
  return (
    <svg class="probability" width="100%" height={asked ? 30 : 16} aria-hidden="true">
      <rect x="0" y="4" width="100%" height="8" class="probability-track" />
      <rect x="0" y="4" width={x(p)} height="8" class="probability-fill" />
      <line x1={x(1 - confidence)} x2={x(1 - confidence)} y1="0" y2="16" class="probability-tick" />
      <line x1={x(confidence)} x2={x(confidence)} y1="0" y2="16" class="probability-tick" />
      <text x={x(confidence)} y="28" text-anchor="end" class="trace-word">
        {asked}
      </text>
    </svg>
  );
}
