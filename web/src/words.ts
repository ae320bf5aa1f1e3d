/**
 * Every word that the page says, in one place: `words.measure.lowest`. A room of the page has its own leaf. What is said
 * otherwise of a drum is laid over them while the part on the bench is one.
 */
import { signal } from '@preact/signals';
import { arrival } from './words/arrival';
import { beside } from './words/beside';
import { board } from './words/board';
import { car } from './words/car';
import { chatter } from './words/chatter';
import { check } from './words/check';
import { classes } from './words/class';
import { competences } from './words/competences';
import { conflict } from './words/conflict';
import { cut } from './words/cut';
import { detective } from './words/detective';
import { diagnosis } from './words/diagnosis';
import { dials } from './words/dials';
import { door } from './words/door';
import { back } from './words/drum/back';
import { before } from './words/drum/before';
import { inHat } from './words/drum/in_hat';
import { lathe } from './words/drum/lathe';
import { finish } from './words/finish';
import { guide } from './words/guide';
import { limits } from './words/limits';
import { look } from './words/look';
import { measure } from './words/measure';
import { mount } from './words/mount';
import { overlay } from './words/overlay';
import { pegboard } from './words/pegboard';
import { permit } from './words/permit';
import { pictures } from './words/pictures';
import { plan } from './words/plan';
import { practice } from './words/practice';
import { practice_bench } from './words/practice_bench';
import { practice_mark } from './words/practice_mark';
import { profile } from './words/profile';
import { queue } from './words/queue';
import { record } from './words/record';
import { refit } from './words/refit';
import { road } from './words/road';
import { saving } from './words/saving';
import { shell } from './words/shell';
import { shop } from './words/shop';
import { studies } from './words/studies';
import { trade } from './words/trade';
import { verdict } from './words/verdict';
import { week } from './words/week';
import { who } from './words/who';

export const rooms = {
  shell,
  trade,
  measure,
  pictures,
  arrival,
  beside,
  board,
  car,
  chatter,
  check,
  classes,
  competences,
  conflict,
  cut,
  detective,
  diagnosis,
  dials,
  door,
  finish,
  guide,
  limits,
  look,
  mount,
  pegboard,
  permit,
  plan,
  practice,
  practice_bench,
  practice_mark,
  profile,
  queue,
  record,
  refit,
  road,
  saving,
  shop,
  studies,
  verdict,
  week,
  who,
};

/** What is turned: a disc, a drum, or the drum in a disc's hat. */
export type PartKind = 'disc' | 'drum' | 'drum_in_hat';

const ofDrum = [before, lathe, back].reduce(overlay<typeof rooms>, rooms);
const KINDS: Record<PartKind, typeof rooms> = { disc: rooms, drum: ofDrum, drum_in_hat: overlay(ofDrum, inHat) };

export const wordsOf = (kind: PartKind): typeof rooms => KINDS[kind];

/** The kind of the part that the screen is about; whoever reads `words` follows it. */
export const spokenOf = signal<PartKind>('disc');

export const words = new Proxy(rooms, {
  get: (_, room) => KINDS[spokenOf.value][room as keyof typeof rooms],
});
