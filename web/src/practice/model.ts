/** A practice run as the shop tells it, under the names that the bench has for it. */
import type * as shop from '../api/schema';

export type Side = shop.PracticeSide;
export const SIDES: readonly Side[] = ['outboard', 'inboard'];
export type BenchAction = shop.PracticeAction;
export type Act = shop.PracticeAct;
export type ActAnswer = shop.PracticeActAnswer;
export type ActDone = shop.PracticeDone;
export type Outcome = shop.PracticeOutcome;
export type ToolView = shop.PracticeToolView;
export type BenchView = shop.PracticeView;
export type BenchPiece = shop.PracticePiece;
export type PieceKind = BenchPiece['kind'];
export type BenchInstrument = shop.PracticeInstrument;
export type BenchMake = shop.PracticeMake;
export type BenchLathe = shop.PracticeLathe;
export type Bench = shop.PracticeBench;
export type Mark = shop.PracticeMark;
export type PracticeRun = shop.PracticeRun;
export type RunLine = shop.PracticeRunLine;
export type PracticeSet = shop.PracticeSet;
export type Fault = shop.PracticeFault;
export type FacePicture = shop.PracticePicture;
