import { PerspectiveCamera, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import {
  DEG_PER_MARK,
  type Drag,
  directionOf,
  dragged,
  fingerAt,
  joinedTurn,
  MARKS_ROUND,
  markAtIndex,
  swept,
} from '../../web/src/practice/dial';
import { FAULTS, mayBeCut } from '../../web/src/practice/faults';
import { markStanding } from '../../web/src/practice/mark_standing';
import type { ActDone, Outcome, PracticeRun } from '../../web/src/practice/model';
import { benchTime, inTurn, micrometres, whole } from '../../web/src/practice/numbers';
import { onFace } from '../../web/src/practice/part_face';
import {
  closes,
  isOlder,
  isWashed,
  lastSeen,
  peakToValley,
  readingsOf,
  refitRunout,
  runoutsOf,
  spreadOf,
  withAct,
} from '../../web/src/practice/readings';
import { eyeDistance, FIELD_DEG } from '../../web/src/practice/relief_eye';
import { heightSpan, meanHeight, ringIndices, ringPlaces, shareOf, timesFor } from '../../web/src/practice/relief_grid';
import { Pace } from '../../web/src/practice/relief_pace';
import { drawnSeed, seedOf } from '../../web/src/practice/seeds';
import { stageAfter, stageOf } from '../../web/src/practice/stage';
import { thrustShare, touchOf } from '../../web/src/practice/touch';
import { goesOn, toEdge_s, turnsAfter, turnsOf } from '../../web/src/practice/turning';
import { words } from '../../web/src/words';

const nothing: Outcome = { took_s: 0, shown_mm: null, angles_deg: [], shown_um: [], seen: [], hub_runout_um: null };
const done = (number: number, act: ActDone['act'], outcome: Partial<Outcome> = {}): ActDone => ({
  number,
  act,
  outcome: { ...nothing, ...outcome },
});

describe('a dial under a finger', () => {
  it('knows where the finger is: upward is nought, to the right a quarter turn', () => {
    expect(directionOf(0, -10)).toBe(0);
    expect(directionOf(10, 0)).toBe(90);
    expect(directionOf(0, 10)).toBe(180);
    expect(directionOf(-10, 0)).toBe(270);
  });

  it('follows it the short way round, over the top as well', () => {
    expect(swept(350, 10)).toBe(20);
    expect(swept(10, 350)).toBe(-20);
    expect(swept(0, 180)).toBe(180);
  });

  it('turns by whole marks, and keeps the rest of a drag for the next', () => {
    let drag: Drag = { at_deg: 0, rest_deg: 0 };
    let marks = 0;
    for (let deg = 2; deg <= 360; deg += 2) {
      const next = dragged(drag, deg % 360);
      drag = next.drag;
      marks += next.marks;
    }
    expect(marks).toBe(MARKS_ROUND);
    const back = dragged({ at_deg: 0, rest_deg: 0 }, 360 - 1.5 * DEG_PER_MARK);
    expect(back.marks).toBe(-1);
    expect(back.drag.rest_deg).toBeCloseTo(-0.5 * DEG_PER_MARK);
  });

  it('shows the mark at its index, and never sends more than one act takes', () => {
    expect(markAtIndex(3)).toBe(3);
    expect(markAtIndex(-1)).toBe(MARKS_ROUND - 1);
    expect(markAtIndex(2 * MARKS_ROUND)).toBe(0);
    const turn = (marks: number, side: 'outboard' | 'inboard' = 'outboard') => ({
      do: 'turn_dial' as const,
      side,
      marks,
    });
    expect(joinedTurn(turn(150), turn(50))).toEqual(turn(200));
    expect(joinedTurn(turn(150), turn(51))).toBeNull();
    expect(joinedTurn(turn(3), turn(1, 'inboard'))).toBeNull();
    expect(joinedTurn({ do: 'look' }, turn(1))).toBeNull();
  });

  it('has no direction at its middle, and goes on from where it left that', () => {
    expect(fingerAt(0, 9, 50)).toBeNull();
    expect(fingerAt(11, 0, 50)).toBe(90);
    const across = dragged({ at_deg: 0, rest_deg: 1 }, null);
    expect(across).toEqual({ drag: { at_deg: null, rest_deg: 1 }, marks: 0 });
    expect(dragged(across.drag, 180)).toEqual({ drag: { at_deg: 180, rest_deg: 1 }, marks: 0 });
  });
});

describe('what a tool does, in a word', () => {
  const tool = { contact_share: 0, sings: false, rubs: false };
  it('goes from the air over one touch a turn to all round', () => {
    expect(touchOf(tool)).toBe('air');
    expect(touchOf({ ...tool, contact_share: 0.1 })).toBe('once');
    expect(touchOf({ ...tool, contact_share: 0.6 })).toBe('part');
    expect(touchOf({ ...tool, contact_share: 1 })).toBe('round');
  });

  it('says first that it sings or rubs, but of no tool in the air', () => {
    expect(touchOf({ contact_share: 1, sings: true, rubs: true })).toBe('sings');
    expect(touchOf({ contact_share: 0.5, sings: false, rubs: true })).toBe('rubs');
    expect(touchOf({ contact_share: 0, sings: true, rubs: true })).toBe('air');
  });

  it('has a bar that shows a light touch and ends at its end', () => {
    expect(thrustShare(0)).toBe(0);
    expect(thrustShare(2)).toBeCloseTo(0.1);
    expect(thrustShare(5000)).toBe(1);
  });
});

describe('how time goes on at the bench', () => {
  const view = { rpm: 120, ended: null };
  it('makes as many turns as speed and pace give, and never more than one act takes', () => {
    expect(turnsOf(120, '1', 250)).toBe(0.5);
    expect(turnsOf(120, '5', 250)).toBe(2.5);
    expect(turnsOf(120, '20', 250)).toBe(10);
    expect(turnsOf(100_000, '20', 250)).toBe(200);
  });

  it('stands still where the page is out of sight, something is under way, or the run has ended', () => {
    expect(goesOn(view, true, true, null)).toBe(true);
    expect(goesOn(view, false, true, null)).toBe(false);
    expect(goesOn(view, true, false, null)).toBe(false);
    expect(goesOn({ ...view, rpm: 0 }, true, true, null)).toBe(false);
    expect(goesOn({ ...view, ended: { code: 'finished', text: '', unsafe: false } }, true, true, null)).toBe(false);
  });

  it('stands still where the bench refused to turn on, until something else is done', () => {
    expect(goesOn(view, true, true, 'turns')).toBe(false);
    expect(goesOn(view, true, true, 'place')).toBe(true);
  });

  it('is left turning by who goes away before a start has been answered, and not by who has stopped it', () => {
    expect(turnsAfter(0, [{ do: 'spindle', rpm: 100 }])).toBe(true);
    expect(turnsAfter(100, [{ do: 'turns', turns: 1 }])).toBe(true);
    expect(
      turnsAfter(100, [
        { do: 'turns', turns: 1 },
        { do: 'spindle', rpm: 0 },
      ]),
    ).toBe(false);
    expect(turnsAfter(0, [{ do: 'wipe' }])).toBe(false);
  });

  it('foresees when the feed comes to the rim', () => {
    expect(toEdge_s({ rpm: 120, feed_mm_per_rev: 0.1, radius_mm: 100 }, 130)).toBeCloseTo(150);
    expect(toEdge_s({ rpm: 120, feed_mm_per_rev: 0, radius_mm: 100 }, 130)).toBeNull();
    expect(toEdge_s({ rpm: 120, feed_mm_per_rev: 0.1, radius_mm: 131 }, 130)).toBeNull();
  });
});

describe('where one stands', () => {
  const view = { decided: null, mounted: [], passes: 0, rpm: 0, refitted: false } as Parameters<typeof stageOf>[0];
  it('is read from what was done', () => {
    expect(stageOf(view)).toBe('measure');
    expect(stageOf({ ...view, decided: 'cut' })).toBe('mount');
    expect(stageOf({ ...view, decided: 'cut', mounted: ['nut_1'] })).toBe('cut');
    expect(stageOf({ ...view, decided: 'cut', passes: 2 })).toBe('after');
    expect(stageOf({ ...view, decided: 'leave' })).toBe('after');
    expect(stageOf({ ...view, refitted: true })).toBe('after');
    expect(stageOf({ ...view, rpm: 120 })).toBe('cut');
  });

  it('leads on to the next, past mount and cut where nothing is cut', () => {
    expect(stageAfter('measure', null)).toBe('decide');
    expect(stageAfter('decide', 'cut')).toBe('mount');
    expect(stageAfter('decide', 'replace')).toBe('after');
    expect(stageAfter('after', 'cut')).toBeNull();
  });
});

describe('what the acts have told', () => {
  const measure = { do: 'measure', instrument_id: 'm', radius_mm: 120, angle_deg: 90 } as const;
  const acts = [
    done(1, { do: 'look' }, { seen: ['grooves_outboard'] }),
    done(2, measure, { shown_mm: 21.98 }),
    done(3, { do: 'mount_part', pieces: ['nut_1'], turn_deg: 0, nut_tight: true }),
    done(
      4,
      { do: 'read_runout', side: 'outboard', radius_mm: 120, points: 4 },
      {
        angles_deg: [0, 90, 180, 270, 0],
        shown_um: [0, 12, 31, 9, 2],
      },
    ),
    done(5, { do: 'turns', turns: 10 }),
    done(6, measure, { shown_mm: 21.8 }),
    done(7, { do: 'refit', position: 2, hub_cleaned: true }, { hub_runout_um: 23 }),
  ];

  it('is readings before the cut and after it, with how far they lie apart', () => {
    expect(readingsOf(acts).map((one) => [one.shown_mm, one.cut])).toEqual([
      [21.98, false],
      [21.8, true],
    ]);
    expect(spreadOf(readingsOf(acts))).toEqual({ lowest_mm: 21.8, highest_mm: 21.98 });
    expect(spreadOf([])).toBeNull();
  });

  it('is runout by its mounting, peak to valley, and how well it closes', () => {
    const [trace] = runoutsOf(acts);
    expect(trace?.mounting).toBe(1);
    expect(trace && peakToValley(trace)).toBe(31);
    expect(trace && closes(trace)).toBe(2);
  });

  it('is what was seen, and what the car says', () => {
    expect(lastSeen(acts)).toEqual(['grooves_outboard']);
    expect(lastSeen([])).toBeNull();
    expect(refitRunout(acts)).toBe(23);
  });

  it('is a part that is washed until it is cut again', () => {
    const wash = done(8, { do: 'wash' });
    expect(isWashed(acts)).toBe(false);
    expect(isWashed([...acts, wash])).toBe(true);
    expect(isWashed([...acts, wash, done(9, { do: 'turns', turns: 1 })])).toBe(false);
    expect(isWashed([])).toBe(false);
  });

  it('keeps turns that follow turns as one', () => {
    const more = withAct(acts.slice(0, 5), done(6, { do: 'turns', turns: 10 }));
    expect(more).toHaveLength(5);
    expect(more.at(-1)?.number).toBe(6);
    expect(withAct(more, done(7, { do: 'look' }))).toHaveLength(6);
  });
});

describe('numbers of the bench', () => {
  it('are written as they are read', () => {
    expect(micrometres(3.44)).toBe('3.4');
    expect(micrometres(-12.4)).toBe('−12');
    expect(micrometres(-0.01)).toBe('0.0');
    expect(whole(-3)).toBe('−3');
    expect(inTurn(-90)).toBe(270);
    expect(benchTime(3725)).toEqual({ hours: 1, minutes: 2, seconds: 5 });
  });

  it('keep the micrometer on the face', () => {
    const make = { inner_radius_mm: 80, outer_radius_mm: 140 } as Parameters<typeof onFace>[0];
    expect(onFace(make, { angle_deg: -15, radius_mm: 200 })).toEqual({ angle_deg: 345, radius_mm: 138 });
    expect(onFace(make, { angle_deg: 359.8, radius_mm: 10 })).toEqual({ angle_deg: 0, radius_mm: 82 });
  });

  it('take a draw that a program holds, and refuse what is none', () => {
    expect(seedOf(' 9007199254740991')).toBe(Number.MAX_SAFE_INTEGER);
    expect(seedOf('9007199254740992')).toBeNull();
    expect(seedOf('1.5')).toBeNull();
    expect(seedOf('')).toBeNull();
    expect(drawnSeed(() => new Uint32Array([4_000_000_000]))).toBeLessThan(1_000_000);
    expect(drawnSeed(() => new Uint32Array([0]))).toBe(1);
  });
});

describe('the pace of the turning face', () => {
  const paced = (gap_ms: number, frames: number) => {
    const pace = new Pace();
    const changed = Array.from({ length: frames }, () => pace.frame(gap_ms)).filter(Boolean).length;
    return { changed, sharpness: pace.sharpness };
  };

  it('stays sharp where the browser keeps up, and where one picture alone was late', () => {
    expect(paced(33, 120)).toEqual({ changed: 0, sharpness: 1 });
    const pace = new Pace();
    for (let i = 0; i < 12; i += 1) expect(pace.frame(i === 5 ? 400 : 20)).toBe(false);
  });

  it('gets coarser by steps where it does not, and stops where nothing could be seen', () => {
    expect(paced(60, 12)).toEqual({ changed: 1, sharpness: 0.75 });
    expect(paced(60, 1200).sharpness).toBe(0.35);
  });
});

describe('the face as a relief', () => {
  const picture = {
    angles: 4,
    rings: 2,
    inner_radius_mm: 50,
    ring_step_mm: 50,
    height_um: [0, 0, 0, 0, 10, 10, 10, 30],
  };
  it('closes round the circle', () => {
    expect(ringIndices(picture)).toHaveLength(4 * 6);
    expect(Math.max(...ringIndices(picture))).toBe(7);
    expect(ringIndices(picture).slice(-6)).toEqual([3, 0, 7, 0, 4, 7]);
  });

  it('draws heights over their mean, so many times as high as they are', () => {
    expect(meanHeight(picture)).toBe(7.5);
    expect(heightSpan(picture)).toBe(30);
    const places = ringPlaces(picture, 200);
    expect(places[0]).toBeCloseTo(0);
    expect(places[1]).toBeCloseTo(0.5);
    expect(places[2]).toBeCloseTo((-7.5 * 200) / 1000 / 100);
    expect(places[3 * 7 + 2]).toBeCloseTo((22.5 * 200) / 1000 / 100);
    expect(shareOf(1000)).toBe(1);
  });

  it('draws a deep face fewer times as high at first, so that it does not look like a bowl', () => {
    const deep = (um: number) => ({ ...picture, height_um: picture.height_um.map((_, i) => (i === 0 ? um : 0)) });
    expect(timesFor(picture)).toBe(200);
    expect(timesFor(deep(500))).toBe(60);
    expect(timesFor(deep(5000))).toBe(20);
    expect(timesFor(deep(0))).toBe(200);
  });

  it('is seen whole from every side, whatever its heights and its frame', () => {
    for (const [low, high] of [
      [0, 0],
      [-0.2, 0.1],
      [-3, 5],
    ] as const) {
      for (const aspect of [0.5, 1, 1.8]) {
        const { middle, away, near, far } = eyeDistance(low, high, aspect);
        const camera = new PerspectiveCamera(FIELD_DEG, aspect, near, far);
        camera.up.set(0, 0, 1);
        for (const up of [0.1, 0.9, 1.5]) {
          camera.position.set(0, -away * Math.cos(up), middle + away * Math.sin(up));
          camera.lookAt(0, 0, middle);
          camera.updateMatrixWorld();
          for (let turn = 0; turn < 6.3; turn += 0.1) {
            for (const z of [low, high]) {
              const seen = new Vector3(Math.cos(turn), Math.sin(turn), z).project(camera);
              for (const one of [seen.x, seen.y, seen.z]) expect(Math.abs(one)).toBeLessThanOrEqual(1 + 1e-9);
            }
          }
        }
      }
    }
  });
});

describe('the words of practice', () => {
  it('name each fault, and no two alike', () => {
    expect(FAULTS).toHaveLength(20);
    expect(new Set(FAULTS.map(words.practice.fault)).size).toBe(20);
    for (const fault of FAULTS) expect(words.practice.faults[fault]?.means).toBeTruthy();
  });

  it('call for a cut or only spoil one, so that a teacher is told when there is nothing to cut', () => {
    expect(mayBeCut(['no_band', 'worn_edge', 'dirty_seat'])).toBe(false);
    expect(mayBeCut(['no_band', 'wobble'])).toBe(true);
    expect(mayBeCut([])).toBe(false);
  });

  it('say what an eye sees, the face or the piece with it', () => {
    const { seen } = words.practice_bench.look;
    expect(seen('grooves_inboard')).toBe('Grooves, inboard');
    expect(seen('worn_thread:nut_2')).toBe('The thread of nut 2 is worn');
    expect(seen('something_new')).toBe('Something new');
  });
});

describe('a run that is read again', () => {
  const at = (acts: number, code: string | null = null, mark: unknown = null) =>
    ({ view: { acts, ended: code && { code, text: '', unsafe: false } }, mark }) as PracticeRun;

  it('is dropped where it knows less than what is held', () => {
    expect(isOlder(at(4), at(5))).toBe(true);
    expect(isOlder(at(5), at(5))).toBe(false);
    expect(isOlder(at(0), null)).toBe(false);
  });

  it('has its mark, waits for it, was given up, or could not be read', () => {
    expect(markStanding(at(9, 'finished', { points: 80 }), true)).toBe('marked');
    expect(markStanding(at(9, 'finished'), false)).toBe('counting');
    expect(markStanding(at(9, 'finished'), true)).toBe('unread');
    expect(markStanding(at(9, 'given_up'), false)).toBe('given_up');
  });
});
