/** What chatter is counted with, and what nobody said and is assumed; each assumed one has its basis in the words. */
export interface Figures {
  /** The ring: diameters, and how thick it is. */
  outer_mm: number;
  inner_mm: number;
  thickness_mm: number;
  feed_mm_per_rev: number;
  nose_mm: number;
  /** One tool with its holder, as the cut feels it. */
  holder_n_per_um: number;
  holder_hz: number;
  /** Of the disc without a damping band, per cent of critical. */
  damping_percent: number;
  /** What a damping band multiplies that by. */
  band_times: number;
}
export type FigureName = keyof Figures;

/** What the page counts with where neither the job nor the shop nor anybody here has said otherwise. */
export const ASSUMED: Figures = {
  outer_mm: 280,
  inner_mm: 170,
  thickness_mm: 22,
  feed_mm_per_rev: 0.1,
  nose_mm: 0.4,
  holder_n_per_um: 20,
  holder_hz: 250,
  damping_percent: 0.3,
  band_times: 5,
};

/** How far a figure may be typed. */
export const RANGES: Record<FigureName, readonly [least: number, most: number]> = {
  outer_mm: [100, 600],
  inner_mm: [50, 550],
  thickness_mm: [3, 60],
  feed_mm_per_rev: [0.01, 0.5],
  nose_mm: [0.1, 3],
  holder_n_per_um: [0.5, 1000],
  holder_hz: [20, 5000],
  damping_percent: [0.01, 20],
  band_times: [1, 50],
};
export const FIGURE_NAMES = Object.keys(RANGES) as FigureName[];

/** Where a figure comes from. */
export type From = 'typed' | 'job' | 'shop' | 'assumed';
export type Told = Record<FigureName, { value: number; from: From }>;

/** The hole of a ring that can be counted is neither next to nothing nor next to all of it. */
const INNER_SHARE = [0.05, 0.95] as const;

/** Each figure from whoever knows it best: typed here, of the job, of the shop, else assumed. */
export function toldFigures(
  typed: Partial<Figures>,
  job: Partial<Figures>,
  shop: Partial<Figures>,
): { told: Told; figures: Figures } {
  const told = Object.fromEntries(
    FIGURE_NAMES.map((name) => {
      const from: From =
        typed[name] !== undefined
          ? 'typed'
          : job[name] !== undefined
            ? 'job'
            : shop[name] !== undefined
              ? 'shop'
              : 'assumed';
      return [name, { value: typed[name] ?? job[name] ?? shop[name] ?? ASSUMED[name], from }];
    }),
  ) as Told;
  const figures = Object.fromEntries(FIGURE_NAMES.map((name) => [name, told[name].value])) as unknown as Figures;
  return { told, figures };
}

/** A number typed for a figure; null for nothing, 'wrong' for what cannot be. */
export function typedFigure(name: FigureName, value: number | null, text: string): number | null | 'wrong' {
  if (text.trim() === '') return null;
  const [least, most] = RANGES[name];
  return value !== null && value >= least && value <= most ? value : 'wrong';
}

/** Whether the two diameters make a ring. */
export const isRing = ({ outer_mm, inner_mm }: Figures): boolean =>
  inner_mm > INNER_SHARE[0] * outer_mm && inner_mm < INNER_SHARE[1] * outer_mm;
