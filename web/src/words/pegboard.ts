import type { BookingKind, PieceKind, PieceState } from '../api/schema';
import type { Column } from '../pegboard/columns';

const kind: Record<PieceKind, string> = {
  cone: 'cone',
  clamp: 'clamp',
  spring: 'spring',
  taper: 'taper',
  spacer: 'spacer',
  nut: 'nut',
};
const kinds: Record<PieceKind, string> = {
  cone: 'Cones',
  clamp: 'Clamps',
  spring: 'Springs',
  taper: 'Tapers',
  spacer: 'Spacers',
  nut: 'Nuts',
};
const states: Record<PieceState, string> = { on_board: 'On the board', in_use: 'In use', missing: 'Missing' };
const columns: Record<Column, string> = {
  name: 'Name',
  kind: 'Kind',
  hook: 'Hook',
  unit: 'Unit',
  bore: 'Bore',
  length: 'Length',
  small: 'Small end',
  large: 'Large end',
  ring_inner: 'Ring inner',
  ring_outer: 'Ring outer',
  cup_bore: 'Cup bore',
  cup_depth: 'Cup depth',
  solid: 'Pressed flat',
  free: 'Without load',
  outside: 'Outside the hub',
  is: 'Damping, weighted',
  runout_um: 'Runout, µm',
  note: 'Note',
};
const notes: Partial<Record<Column, string>> = {
  name: 'What is stamped or painted on it.',
  bore: 'It goes on an arbor of this diameter, within 0.1 mm.',
  small: 'Diameter of the small end.',
  large: 'Diameter of the large end.',
  ring_inner: 'Inner diameter of the ring that bears on the part.',
  ring_outer: 'Its outer diameter.',
  cup_bore: 'Room across for the cone. Empty: no cup.',
  cup_depth: 'Room in depth for spring and cone.',
  solid: 'Length of the spring when it is pressed flat.',
  free: 'Length of the spring without load.',
  outside: 'What stands outside the hub. Empty: worked out from the taper.',
  is: 'Words or first letters: damping, weighted, both, or nothing.',
  runout_um: 'Peak to valley as read on a true arbor. Empty: not read.',
};
const wrong: Partial<Record<Column, string>> = {
  kind: 'Cone, clamp, spring, taper, spacer or nut.',
  unit: 'mm or in.',
  is: 'Damping, weighted, both, or nothing.',
};
const ways: Record<BookingKind, string> = {
  taken: 'Take it',
  returned: 'Bring back',
  missing: 'Missing',
  found: 'Found',
};
const was: Record<BookingKind, string> = {
  taken: 'taken',
  returned: 'brought back',
  missing: 'said to be missing',
  found: 'found',
};

/** The pegboard and what hangs on it. */
export const pegboard = {
  kind,
  kinds,
  states,
  columns,
  notes,
  wrong,
  wrong_number: 'A number, such as 25.4 or 1-1/8.',
  needed: 'A piece of this kind needs it.',
  damping: 'damping',
  weighted: 'weighted',
  all: 'All',
  anywhere: 'Anywhere',
  by_kind: 'Kind of piece',
  by_state: 'Where it is',
  none: 'Nothing hangs here yet. A whole set goes in quickest row by row, or from a table.',
  none_such: 'No piece is both.',
  no_hook: 'no hook',
  enter_many: 'Enter pieces',
  to_board: 'To the pegboard',
  export: 'All pieces as CSV',
  retired: (n: number) => `No longer in use: ${n}`,
  runout: (um: string) => `runout ${um} µm`,
  where: {
    on_board: 'On its hook.',
    in_use: (who: string, since: string) => `In use: ${who}, since ${since}`,
    in_use_by: (job: number, who: string, since: string) => `In use: job ${job}, ${who}, since ${since}`,
    missing: (who: string, since: string) => `Missing: so said ${who}, ${since}`,
    missing_from: (job: number, who: string, since: string) => `Missing from job ${job}: so said ${who}, ${since}`,
  },
  sheet: {
    ways,
    was,
    was_for: (what: string, job: number) => `${what}, job ${job}`,
    change: 'Change it',
    history: 'Where it has been',
    no_history: 'It never left its hook.',
  },
  grid: {
    lead: 'One row a piece. Enter goes on to the next cell, arrows go where they point. A block from a spreadsheet can be pasted into any cell, with or without its headings.',
    own: 'Dimensions of its kind',
    state: 'State',
    cell: (row: number, column: string) => `Row ${row}, ${column.toLowerCase()}`,
    counts: (saved: number, unsaved: number) => `${saved} saved${unsaved > 0 ? `, ${unsaved} not yet` : ''}`,
    kept: 'The rows stay on this tablet.',
    saving: 'saving…',
    saved: 'saved',
    complete: 'complete',
    missing: (columns_: string) => `wants ${columns_}`,
    unread: (columns_: string) => `not understood: ${columns_}`,
    drop: (row: number) => `Take row ${row} off this list`,
    add: 'Another row',
    clear: (n: number) => (n === 1 ? 'Put the saved row away' : `Put the ${n} saved rows away`),
    done: 'To the pegboard',
  },
  bring: {
    open: 'From a table',
    title: 'Pieces from a table',
    lead: 'Comma- or semicolon-separated, with the headings in its first line: name, kind, hook, unit, bore, length, small, large, ring inner, ring outer, cup bore, cup depth, solid, free, outside, weighted, damping, runout, note. A piece of a name that is known is changed.',
    file: 'Open a file',
    paste: 'Or paste it here',
    unit: 'A bare number is in',
    look: 'Look at it first',
    add: (n: number) => (n === 1 ? 'Take in 1 piece' : `Take in ${n} pieces`),
    would: (n: { added: number; changed: number; known: number; refused: number }) =>
      n.added + n.changed + n.known + n.refused === 0
        ? 'There is no line under the headings.'
        : `${n.added} would be added, ${n.changed} changed, ${n.known} are here as they stand, ${n.refused} would be refused.`,
    did: (n: { added: number; changed: number; known: number }) =>
      `${n.added} added, ${n.changed} changed, ${n.known} were here as they stand.`,
    none_taken: 'Nothing was taken.',
    all_or_none: 'All lines are taken, or none: mend these first.',
    line: (n: number) => `Line ${n}`,
  },
  back: {
    title: 'Back on the pegboard',
    all_back: 'Everything that was taken for this job is back on its hook.',
    all_but: (n: number) =>
      `Nothing is out for this job any more; ${n === 1 ? '1 piece is' : `${n} pieces are`} missing.`,
    still_out: (n: number) => (n === 1 ? '1 piece is still out.' : `${n} pieces are still out.`),
    missing: (pieces: readonly string[]) => `Missing: ${pieces.join('; ')}. Tell the teacher.`,
    last_with: (piece: string, who: string) => (who ? `${piece}, last with ${who}` : piece),
    one: 'Back on its hook',
    one_named: (name: string) => `${name} is back on its hook`,
    gone: 'Missing',
    gone_named: (name: string) => `${name} is missing`,
    all: (n: number) => `All ${n} are back`,
  },
} as const;
