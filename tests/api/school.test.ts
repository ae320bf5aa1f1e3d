import { join } from 'node:path';
import { inflateRawSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openJob, reading as readingOf, type Scene, setScene } from './scene';
import { freshFolder, type Json, newId, Served } from './shop';

const folder = freshFolder();
const file = join(folder, 'shop.sqlite');
let shop: Served;
let scene: Scene;
let as: string;
let students: string[];

beforeAll(async () => {
  shop = await Served.start(file);
  scene = await setScene(shop);
  as = `?by_person_id=${scene.by}`;
  students = [];
  for (let k = 0; k < 20; ++k) students.push(await student(`Student ${k + 1}`));
});
afterAll(async () => {
  await shop.stop();
});

const student = async (name: string): Promise<string> => {
  const id = newId();
  await shop.want('PUT', `/people/${id}${as}`, { id, name, role: 'student', active: true });
  return id;
};

const sizes = new Map<string, number>();

const referencePart = async (mm: number): Promise<string> => {
  const id = newId();
  await shop.want('PUT', `/reference-parts/${id}${as}`, {
    id,
    name: `Disc ${sizes.size + 1}`,
    place_words: 'on the painted dot',
    reference: { text: mm.toFixed(3), unit: 'mm' },
    expanded_uncertainty_nm: 1000,
    source: 'measured against gauge blocks',
    active: true,
  });
  sizes.set(id, mm);
  return id;
};

const newStudy = async (people: readonly string[], rest: object = {}): Promise<Json> => {
  const id = newId();
  const parts: string[] = [];
  for (const mm of [20.112, 20.54, 21.035, 21.488, 22.017]) parts.push(await referencePart(mm));
  const view = await shop.want('PUT', `/studies/${id}${as}`, {
    id,
    name: 'First week',
    reference_part_ids: parts,
    person_ids: people,
    instrument_ids: [scene.micrometer],
    repeats: 3,
    closed: false,
    tolerance: { text: '0.4', unit: 'mm' },
    ...rest,
  });
  return view.study;
};

/** A hand that is so far off, by a fixed pattern. */
const readBy = (place: Json, off_um: number, turn: number): string =>
  ((sizes.get(place.reference_part_id) as number) + (off_um + ((turn * 7) % 5) - 2) / 1000).toFixed(3);

const reading = (person: string, place: Json, text: string) => ({
  id: newId(),
  person_id: person,
  reference_part_id: place.reference_part_id,
  instrument_id: place.instrument_id,
  repeat: place.repeat,
  text,
  default_unit: 'mm',
});

const close = (study: Json): Promise<Json> => shop.want('PUT', `/studies/${study.id}${as}`, { ...study, closed: true });

describe('a study', () => {
  test('takes the readings of twenty tablets at once, each once, though answers are lost and sent for again', async () => {
    const study = await newStudy(students);
    const tablet = async (person: string, number: number): Promise<void> => {
      const { ahead } = await shop.want('GET', `/studies/${study.id}/next?person_id=${person}`);
      expect(ahead).toHaveLength(15);
      for (const [turn, place] of ahead.entries()) {
        const body = reading(person, place, readBy(place, number === 4 ? -16 : 0, turn + number));
        const path = `/studies/${study.id}/readings?by_person_id=${person}`;
        const stored = await shop.want('POST', path, body);
        // One answer in three is lost on the way: the tablet sends the same again, sometimes twice at once.
        if ((turn + number) % 3 === 0) {
          const again = await Promise.all([shop.want('POST', path, body), shop.want('POST', path, body)]);
          expect(again).toEqual([stored, stored]);
        }
      }
    };
    await Promise.all(students.map(tablet));

    const view = await shop.want('GET', `/studies/${study.id}`);
    expect(view.progress).toEqual(students.map((person_id) => ({ person_id, done: 15, of: 15 })));
    const answer = await shop.want('GET', `/studies/${study.id}/answer`);
    expect(answer.readings).toHaveLength(300);
    const places = new Set(
      answer.readings.map(
        (one: Json) => `${one.person_id} ${one.reference_part_id} ${one.instrument_id} ${one.repeat}`,
      ),
    );
    expect(places.size).toBe(300);
    expect(answer.left_out).toEqual([]);
    expect(answer.figures.ndc).toBeGreaterThan(5);
    const heavy = answer.people.find((one: Json) => one.id === students[4]);
    expect(heavy.bias_um).toBeCloseTo(-16, 0);
    expect(heavy.parts_within).toBe(0);
    expect(answer.words.filter((one: Json) => one.person_id === students[4]).map((one: Json) => one.cause)).toContain(
      'ratchet',
    );
    expect(answer.people.find((one: Json) => one.id === students[0]).parts_within).toBe(5);
  });

  test('gives a place to one of two tablets that fill it at the same time', async () => {
    const person = students[0] as string;
    const study = await newStudy([person, students[1] as string]);
    const { ahead } = await shop.want('GET', `/studies/${study.id}/next?person_id=${person}`);
    const place = ahead[0];
    const path = `/studies/${study.id}/readings?by_person_id=${person}`;
    const tried = await Promise.all(
      Array.from({ length: 8 }, (_, k) => shop.ask('POST', path, reading(person, place, readBy(place, 0, k)))),
    );
    expect(tried.filter(({ status }) => status === 200)).toHaveLength(1);
    expect(tried.filter(({ status }) => status === 409).map(({ body }) => body.error.code)).toEqual(
      Array(7).fill('place_taken'),
    );
  });

  test('tells a student nothing of sizes, and nothing of what others read', async () => {
    const study = await newStudy(students.slice(0, 2));
    const [first, second] = students as [string, string];
    const { ahead } = await shop.want('GET', `/studies/${study.id}/next?person_id=${first}`);
    const text = readBy(ahead[0], 0, 1);
    await shop.want('POST', `/studies/${study.id}/readings?by_person_id=${first}`, reading(first, ahead[0], text));
    const seen = JSON.stringify([
      await shop.want('GET', `/studies/${study.id}/next?person_id=${second}`),
      await shop.want('GET', `/studies/${study.id}`),
    ]);
    expect(seen).not.toContain(text);
    for (const mm of sizes.values()) expect(seen).not.toContain(mm.toFixed(3));
  });

  test('lets a reading be taken back and its place be read again', async () => {
    const person = students[2] as string;
    const study = await newStudy([person]);
    const path = `/studies/${study.id}`;
    const { ahead } = await shop.want('GET', `${path}/next?person_id=${person}`);
    const by = `?by_person_id=${person}`;
    const stored = await shop.want('POST', `${path}/readings${by}`, reading(person, ahead[0], readBy(ahead[0], 0, 1)));
    expect((await shop.want('POST', `${path}/readings/${stored.id}/withdraw${by}`)).withdrawn_by_person_id).toBe(
      person,
    );
    const next = await shop.want('GET', `${path}/next?person_id=${person}`);
    expect(next.ahead[0]).toEqual(ahead[0]);
    expect(next.newest).toBeNull();
  });

  test('takes no reading that is no length, of nobody in it, or after it was closed', async () => {
    const person = students[3] as string;
    const study = await newStudy([person]);
    const path = `/studies/${study.id}/readings?by_person_id=${person}`;
    const { ahead } = await shop.want('GET', `/studies/${study.id}/next?person_id=${person}`);
    expect((await shop.refusal('POST', path, reading(person, ahead[0], 'ten'))).field).toBe('text');
    expect(await shop.refusal('POST', path, reading(person, ahead[0], '2.1'))).toMatchObject({
      status: 422,
      code: 'doubtful_reading',
    });
    const other = students[5] as string;
    const outside = `/studies/${study.id}/readings?by_person_id=${other}`;
    expect((await shop.refusal('POST', outside, reading(other, ahead[0], '21.1'))).code).toBe('not_in_study');
    expect((await shop.refusal('POST', path, { ...reading(person, ahead[0], '21.1'), grade: 'A' })).field).toBe(
      'grade',
    );
    await close(study);
    expect((await shop.refusal('POST', path, reading(person, ahead[0], readBy(ahead[0], 0, 0)))).code).toBe('closed');
    expect((await shop.refusal('GET', `/studies/${newId()}/answer`)).status).toBe(404);
  });
});

describe('a permit', () => {
  test('is missing what the rule asks, and stands once it is given', async () => {
    const [person, other] = [await student('Gil Birch'), await student('Hal Maple')];
    await shop.want('POST', `/starter-lists${as}`);
    const points = await shop.want('GET', '/safety-points');
    const asked = await shop.want('GET', `/people/${person}/safety`);
    expect(asked).toHaveLength(points.length);
    expect(JSON.stringify(asked)).not.toContain('right_choice');
    for (const point of points) {
      const body = { id: newId(), person_id: person, safety_point_id: point.id, choice: point.right_choice };
      expect((await shop.want('POST', `/safety-answers?by_person_id=${person}`, body)).was_right).toBe(true);
    }
    let state = await shop.want('GET', `/people/${person}/permit`);
    expect(state.missing.map((need: Json) => need.what)).toEqual(['measuring', 'supervised_cuts']);

    const study = await newStudy([person, other]);
    for (const hand of [person, other]) {
      const { ahead } = await shop.want('GET', `/studies/${study.id}/next?person_id=${hand}`);
      for (const [turn, place] of ahead.entries()) {
        const path = `/studies/${study.id}/readings?by_person_id=${hand}`;
        await shop.want('POST', path, reading(hand, place, readBy(place, 0, turn)));
      }
    }
    await close(study);
    for (let k = 0; k < 2; ++k) {
      await shop.want('POST', `/supervised-cuts${as}`, { id: newId(), person_id: person, note: 'stood by' });
    }
    expect((await shop.want('GET', `/people/${person}/permit`)).is_ready).toBe(true);
    expect((await shop.refusal('POST', `/people/${other}/permits${as}`, { id: newId(), reason: '' })).code).toBe(
      'reason_needed',
    );
    state = await shop.want('POST', `/people/${person}/permits${as}`, { id: newId(), reason: '' });
    expect(state.stands).toBe(true);
    const all = await shop.want('GET', '/permits');
    expect(all.find((one: Json) => one.person_id === person)).toEqual(state);
    const path = `/people/${person}/permits/${state.permit.id}/withdraw${as}`;
    expect((await shop.want('POST', path, { why: 'guard left open' })).stands).toBe(false);
  });

  test('goes by a rule that two teachers cannot overwrite for each other', async () => {
    const rule = await shop.want('GET', '/permit-rule');
    const changed = await shop.want('PUT', `/permit-rule${as}`, { ...rule, supervised_cuts: 3 });
    expect(changed).toMatchObject({ supervised_cuts: 3, version: rule.version + 1 });
    const refused = await shop.refusal('PUT', `/permit-rule${as}`, { ...rule, supervised_cuts: 4 });
    expect(refused).toMatchObject({ status: 409, code: 'changed_meanwhile', current: changed });
  });
});

describe('a class', () => {
  test('comes from a list, and its sheets open as PDF and spreadsheet', async () => {
    const id = newId();
    const made = { id, name: 'Second year', term: 'Autumn', archived: false };
    await shop.want('PUT', `/classes/${id}${as}`, made);
    const csv = { 'content-type': 'text/csv' };
    const path = `/classes/${id}/roster/import${as}`;
    const list = 'name,notes\nIda =SUM(A1) Sorrel,late\nJon Yew,\n';
    expect(await shop.want('POST', `${path}&dry_run=true`, list, csv)).toMatchObject({ stored: false, added: 2 });
    const report = await shop.want('POST', path, list, csv);
    expect(report).toMatchObject({ stored: true, added: 2, refused: 0 });
    const person = report.lines[0].person_id;
    const competences = await shop.want('POST', `/starter-lists${as}`);
    const job = await openJob(shop, scene);
    const shown = {
      id: newId(),
      competence_id: competences[0].id,
      person_id: person,
      level: 'signed',
      note: 'eight points',
    };
    const stored = await shop.want('POST', `/evidence${as}`, { ...shown, job_id: job.job.id });
    expect(stored.signed_by_person_id).toBe(scene.by);
    expect(await shop.want('GET', `/evidence?person_id=${person}`)).toEqual([stored]);
    for (const [sheet, words] of [
      [`/people/${person}/evidence`, ['Sorrel', 'signed', `job ${job.job.number}`, 'Ada Stone']],
      [`/classes/${id}/evidence`, ['Sorrel', 'Jon Yew', 'signed', 'Measure thickness']],
    ] as const) {
      const pdf = await shop.ask('GET', `${sheet}.pdf`);
      expect(pdf.bytes.subarray(0, 5).toString()).toBe('%PDF-');
      const shared = unzipped(await shop.ask('GET', `${sheet}.xlsx`), 'xl/sharedStrings.xml');
      for (const word of words) expect(shared).toContain(word);
      expect(shared).not.toContain('<f>');
    }
    expect((await shop.refusal('GET', `/people/${newId()}/evidence.pdf`)).status).toBe(404);
  });

  test('loses a name on request, and the job keeps its readings', async () => {
    const person = await student('Kim Hazel');
    const job = await openJob(shop, scene);
    const former = await shop.want('POST', `/people/${person}/erasure${as}`);
    expect(former.name).toMatch(/^Former student \d+$/);
    expect(JSON.stringify(await shop.want('GET', '/export.json'))).not.toContain('Kim Hazel');
    expect((await shop.want('GET', `/jobs/${job.job.id}`)).job.id).toBe(job.job.id);
  });
});

/** One file out of a zip, by its directory (APPNOTE of PKWARE, 4.3.12). */
const unzipped = ({ bytes }: { bytes: Buffer }, name: string): string => {
  const entry = bytes.indexOf(Buffer.from(`PK\x01\x02`));
  for (let at = entry; at >= 0; at = bytes.indexOf(Buffer.from('PK\x01\x02'), at + 4)) {
    const named = bytes.subarray(at + 46, at + 46 + bytes.readUInt16LE(at + 28)).toString();
    if (named !== name) continue;
    const local = bytes.readUInt32LE(at + 42);
    const begin = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
    return inflateRawSync(bytes.subarray(begin, begin + bytes.readUInt32LE(at + 20))).toString();
  }
  throw new Error(`no ${name} in the file`);
};

describe("a lathe's queue", () => {
  test('says who is next and about when', async () => {
    const path = `/lathes/${scene.lathe}/queue`;
    const [first, second] = [await openJob(shop, scene), await openJob(shop, scene, ['left'])];
    const [one, two] = students as [string, string];
    await shop.want('POST', `${path}?by_person_id=${one}`, { id: newId(), job_id: first.job.id, person_id: one });
    const entry = { id: newId(), job_id: second.job.id, person_id: two };
    const queue = await shop.want('POST', `${path}?by_person_id=${two}`, entry);
    expect(queue.lines.map((line: Json) => line.job_number)).toEqual([first.job.number, second.job.number]);
    expect(queue.lines[1].starts_in_minutes).toBe(queue.lines[0].minutes);
    expect(queue.lines[0].minutes).toBe(2 * queue.lines[1].minutes);
    expect(
      (await shop.refusal('POST', `${path}?by_person_id=${one}`, { ...entry, id: newId(), person_id: one })).code,
    ).toBe('waits_already');
    const left = await shop.want('POST', `${path}/${entry.id}/leave?by_person_id=${two}`, { why: 'measuring again' });
    expect(left.lines).toHaveLength(1);
  });
});

describe("the teacher's week", () => {
  test('counts what was read and by whom, from the record', async () => {
    const before = await shop.want('GET', '/week');
    const job = await openJob(shop, scene, ['left']);
    const by = students[6] as string;
    const path = `/jobs/${job.job.id}/readings?by_person_id=${by}`;
    const part = job.parts[0].id;
    for (const [point, text] of ['21.501', '21.502', '21.503'].entries()) {
      await shop.want('POST', path, readingOf(scene, part, point, text));
    }
    await shop.want('POST', `/zero-checks${as}`, {
      id: newId(),
      instrument_id: scene.micrometer,
      text: '-0.004',
      default_unit: 'mm',
    });
    const week = await shop.want('GET', '/week?part_price=80&cut_cost=20');
    expect(week.jobs).toBe(before.jobs + 1);
    expect(week.people.find((one: Json) => one.person_id === by)).toMatchObject({
      readings: 3,
      jobs: 1,
      taken_back: 0,
    });
    const instrument = week.instruments.find((one: Json) => one.instrument_id === scene.micrometer);
    expect(instrument).toMatchObject({ readings: 3, zero_error_um: 4 });
    expect(week.time.map((one: Json) => one.work)).toContain('measuring');
    expect(week.money_saved).toBe(0);
    expect(before.money_saved).toBeNull();
    const past = await shop.want('GET', '/week?from=2020-01-01T00:00:00.000Z&to=2020-01-08T00:00:00.000Z');
    expect(past).toMatchObject({ jobs: 0, people: expect.any(Array), parts_cut: 0 });
    const wrong = '/week?from=2026-01-08T00:00:00.000Z&to=2026-01-01T00:00:00.000Z';
    expect(await shop.refusal('GET', wrong)).toMatchObject({ status: 422, field: 'to' });
    expect((await shop.refusal('GET', '/week?from=yesterday')).field).toBe('from');
  });
});
