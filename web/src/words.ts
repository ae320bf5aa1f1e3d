/** Every word that the page says, in one place: `words.measure.lowest`. A room of the page has its own leaf. */
import { arrival } from './words/arrival';
import { board } from './words/board';
import { car } from './words/car';
import { check } from './words/check';
import { conflict } from './words/conflict';
import { cut } from './words/cut';
import { dials } from './words/dials';
import { finish } from './words/finish';
import { guide } from './words/guide';
import { limits } from './words/limits';
import { look } from './words/look';
import { measure } from './words/measure';
import { mount } from './words/mount';
import { pegboard } from './words/pegboard';
import { pictures } from './words/pictures';
import { plan } from './words/plan';
import { record } from './words/record';
import { saving } from './words/saving';
import { shell } from './words/shell';
import { shop } from './words/shop';
import { trade } from './words/trade';
import { verdict } from './words/verdict';
import { who } from './words/who';

export const words = {
  shell,
  trade,
  measure,
  pictures,
  arrival,
  board,
  car,
  check,
  conflict,
  cut,
  dials,
  finish,
  guide,
  limits,
  look,
  mount,
  pegboard,
  plan,
  record,
  saving,
  shop,
  verdict,
  who,
};
