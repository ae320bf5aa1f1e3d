/** What the words of the bench are about. */
export type { BenchAction, PieceKind, Side } from './model';
export type { BenchStage } from './stage';
export type { Touch } from './touch';
