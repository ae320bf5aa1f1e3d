import { duration } from './duration';

/** The teacher's week. */
const jobs = (n: number) => (n === 1 ? '1 job' : `${n} jobs`);
const parts = (n: number) => (n === 1 ? '1 part' : `${n} parts`);
const passes = (n: number) => (n === 1 ? '1 pass' : `${n} passes`);

export const week = {
  name: 'The week',
  title: (first: string, last: string) => `The week from ${first} to ${last}`,
  on_board: 'Where time went, what reads badly, who needs help',
  choose: 'Which week',
  before: 'Week before',
  after: 'Week after',
  present: 'This week',
  waiting: 'Fetching the week…',
  so_far: 'This week so far.',
  empty:
    'Nobody worked on a job in this week. Figures come by themselves from readings, decisions and cuts. “Week before” goes back.',
  empty_now:
    'Nobody has worked on a job this week yet. Figures come by themselves from readings, decisions and cuts. “Week before” shows the last one.',
  worked: (n: number, sealed: number, last: number) =>
    `${jobs(n)} worked on, ${sealed} sealed. The week before: ${jobs(last)}.`,
  legend: { now: 'this week', before: 'the week before' },
  duration,
  jobs,
  parts,
  behind: 'What this rests on',
  job: (n: number) => `Job ${n}`,
  last_week: (text: string) => `The week before: ${text}`,
  bar_says: (name: string, now: string, before: string) => `${name}: ${now}, the week before ${before}`,

  time: {
    title: 'Where time went',
    work: {
      arrival: 'Arrival and limits',
      measuring: 'Measuring',
      deciding: 'Deciding',
      mounting: 'Mounting',
      cutting: 'Cutting',
      finishing: 'Sanding and washing',
      refitting: 'Back on the car',
      closing: 'Sealing and amending',
    },
    largest: (work: string, n: number, all: string) => `${work}, on ${jobs(n)}. All steps together: ${all}.`,
    step: 'Step',
    basis:
      'A gap between two entries of a job counts for the work that ends it, where it is shorter than a quarter of an hour (common practice, no source). Longer gaps, and what came before a job’s first entry, count for nothing.',
  },
  lathe: {
    title: 'Waiting for the lathe',
    none: 'No job stood in a queue for a lathe.',
    largest: (lathe: string, n: number, longest: string) =>
      `waited for ${lathe} by ${jobs(n)} together. The longest wait: ${longest}.`,
    lathe: 'Lathe',
    gone: 'A lathe that is gone',
    basis:
      'From joining the queue until work at a lathe begins, while the shop is in use: entries less than a quarter of an hour apart (common practice, no source). They work on something else meanwhile.',
  },
  doubt: {
    title: 'Which instrument reads badly',
    none: 'No reading was taken with an instrument that has a name.',
    clean: (readings: number) => `of ${readings} readings with an instrument were questioned or taken back.`,
    largest: ({ count, of }: { count: number; of: number }, name: string, interval: string) =>
      `of the readings with ${name} were questioned or taken back: ${count} of ${of}, 95 % interval ${interval}.`,
    beyond: 'Worse than the others beyond chance: read reference parts with it next.',
    by_chance: 'No instrument is worse than the others beyond chance.',
    few: 'Too few readings to say anything of any instrument.',
    instrument: 'Instrument',
    share: 'Readings in doubt',
    interval: '95 % interval',
    rests: (count: number, of: number) => `${count} of ${of}`,
    too_few: (of: number) => `${of}: too few to say`,
    stands_out: 'worse than the others',
    zero: (um: string, mpe: string) => `zero off by up to ${um} µm, permissible ${mpe} µm`,
    zero_over: (um: string, mpe: string) => `zero off by up to ${um} µm: more than its permissible ${mpe} µm`,
    gone: 'An instrument that is gone',
    to: 'Instruments of the shop',
    studies: 'Studies in measuring',
    basis:
      'In doubt is a reading that was kept although it looked wrong, withdrawn, or read again. The bar is the share, the line its 95 % interval (Wilson 1927). An instrument is called worse where its share is larger than that of all the others beyond chance (Newcombe 1998, at 95 %). Under ten it says nothing.',
  },
  piece: {
    title: 'Which adapter runs out',
    none: 'No mount was proven.',
    largest: (over: number, of: number) => `of ${of} proven mounts ran out more than the shop’s rule: ${over}.`,
    few: (most: number) =>
      `Too few to say of any one piece: the one that was mounted most was in ${most} of them. Ten are needed.`,
    piece: 'Piece',
    share: 'Mounts over the rule',
    mean_um: (um: string) => `mean ${um} µm`,
    gone: 'A piece that is gone',
    basis:
      'A mount counts for every piece in it. The bar is the share, the line its 95 % interval (Wilson 1927). A piece is called worse where its share is larger than that of all the others beyond chance (Newcombe 1998, at 95 %). Under ten it says nothing.',
    to: 'The pegboard',
  },
  help: {
    title: 'Who needs help with what',
    nobody: 'Nobody stands out: no figure asks for help.',
    largest: (of: number) =>
      of === 1 ? 'of 1 student needs help with something.' : `of ${of} students need help with something.`,
    what: {
      reading: 'Reading',
      measuring: 'Measuring',
      deciding: 'Deciding',
      cutting: 'Cutting',
      safety: 'Safety points',
      permit: 'Permit lapses',
      competence: 'Competence',
    },
    thing: 'With what',
    people: 'Students',
    count: (n: number) => (n === 1 ? '1 student' : `${n} students`),
    to_study: 'The study',
    to_permit: 'The permit',
    to_evidence: 'What they have shown',
    basis:
      'Reading: a fifth or more of at least ten readings in doubt. Measuring: under half the reference parts of the newest study, closed by then, within their uncertainty. Permit: its last day is in this week or the two after it. Safety points are told of the present week alone. Marks: common practice, no source.',
  },
  inserts: {
    title: 'Inserts',
    none: 'No corner of an insert cut anything.',
    largest: (corners: number, n: number, p: number) =>
      `of iron with ${corners === 1 ? '1 corner' : `${corners} corners`}, in ${passes(n)} on ${parts(p)}.`,
    unknown: 'cut, with no ring or lathe on record that tells how much metal.',
    corner: (insert: string, n: number) => `${insert}, corner ${n}`,
    name: 'Corner',
    metal: 'Iron',
    cm3: (value: string) => `${value} cm³`,
    parts: 'Parts',
    cut: 'Length of cut',
    km: (value: string) => `${value} km`,
    note: (n: number, km: string) => `${parts(n)}, ${km} of cut`,
    condition: { sharp: 'sharp', worn: 'worn', chipped: 'chipped' },
    state: (insert: string, sharp: number, of: number) => `${insert}: ${sharp} of ${of} corners sharp`,
    gone: 'An insert that is gone',
    to: 'Inserts of the shop',
    basis:
      'The iron of a pass is the ring that was gone over times the depth that the dial was set to; a stopped pass counts none. The dial counts as it was typed for the lathe, so no more than two figures are told. Both faces of a part have a corner of their own.',
  },
  saved: {
    title: 'Parts saved',
    largest: (n: number) => (n === 1 ? 'part turned instead of replaced' : 'parts turned instead of replaced'),
    none: 'No job with a part was sealed.',
    fate: { cut: 'Turned', left: 'Good as they were', replaced: 'Replaced' },
    what: 'What became of them',
    count: 'Parts',
    basis: 'Of jobs sealed in the week; practice jobs left out.',
    money_title: 'Money',
    money: (n: number) => `saved on ${parts(n)}: the price of a new one less what a cut costs.`,
    lost: (n: number) => `lost on ${parts(n)}: a cut costs more than a new one.`,
    prices: 'What a new part and a cut cost here',
    part: 'A new part costs',
    part_hint: 'the price that you pay for one',
    cut: 'A cut costs',
    cut_note: 'Insert, lathe and hands, for one part. Empty counts as nothing.',
    money_name: 'In what money',
    wrong: 'An amount from 0 to 100,000, such as 62.50.',
    kept: 'Kept on this tablet and in no record of the shop.',
  },
} as const;
