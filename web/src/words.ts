/** Every word that the page says, in one place: `words.measure.lowest`. A room of the page has its own leaf. */
import { measure } from './words/measure';
import { pictures } from './words/pictures';
import { shell } from './words/shell';
import { trade } from './words/trade';

export const words = { shell, trade, measure, pictures };
