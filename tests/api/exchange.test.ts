import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { holdTo } from './contract';
import { addRound, openJob, round, type Scene, setScene } from './scene';
import { done, freshFolder, type Json, newId, run, Served } from './shop';

const folder = freshFolder();
const file = join(folder, 'shop.sqlite');
let shop: Served;
let scene: Scene;

beforeAll(async () => {
  shop = await Served.start(file);
  scene = await setScene(shop);
});
afterAll(async () => {
  await shop.stop();
});

const importCsv = async (job: Json, csv: string, query = ''): Promise<Json> =>
  shop.want('POST', `/jobs/${job.job.id}/readings/import?by_person_id=${scene.by}${query}`, csv, {
    'content-type': 'text/csv',
  });

const valuesOf = async (job: Json): Promise<Json[]> =>
  (await shop.want('GET', `/jobs/${job.job.id}`)).readings.map((one: Json) => [
    one.quantity,
    one.circle,
    one.point,
    one.value.text,
    one.value.nm,
  ]);

describe('readings from a table', () => {
  test("come in from a spreadsheet's semicolons and decimal commas, once however often they are sent", async () => {
    const job = await openJob(shop, scene, ['left', 'right']);
    const csv =
      '\ufeffSide;Stage;Quantity;Circle number;Point number;Value;Unit\r\n' +
      'left;before;thickness;1;1;21,500;mm\r\n' +
      'left;before;thickness;1;2;"21,510";\r\n' +
      'right;before;Thickness;1;1;0.8465;in\r\n' +
      'right;before;outboard runout;;3;30;um\r\n';
    expect(await importCsv(job, csv)).toEqual({ added: 4, known: 0, refused: [] });
    expect(await valuesOf(job)).toEqual([
      ['thickness', 0, 0, '21,500', 21_500_000],
      ['thickness', 0, 1, '21,510', 21_510_000],
      ['thickness', 0, 0, '0.8465', 21_501_100],
      ['runout_outboard', 0, 2, '30 um', 30_000],
    ]);
    expect(await importCsv(job, csv)).toEqual({ added: 0, known: 4, refused: [] });
    expect(await valuesOf(job)).toHaveLength(4);
  });

  test('have what was refused named line by line, and the rest is stored', async () => {
    const job = await openJob(shop, scene, ['left']);
    const csv = [
      'stage,quantity,point_number,value,note',
      'before,thickness,1,21.50,fine',
      'before,thickness,9,21.50,no such point',
      'before,thickness,x,21.50,no number',
      'before,weight,2,21.50,no such quantity',
      'before,thickness,2,abc,no length',
      'before,thickness,2,,nothing',
      'before,thickness,2,21,50,a decimal comma too many',
      'before,thickness,3,2.150,far off',
      'before,thickness,4,21.52,fine',
    ].join('\n');
    const report = await importCsv(job, csv);
    expect(report.added).toBe(2);
    expect(report.refused.map(({ line, field }: Json) => [line, field])).toEqual([
      [3, expect.stringContaining('point')],
      [4, 'point_number'],
      [5, 'quantity'],
      [6, 'value'],
      [7, 'value'],
      [8, ''],
      [9, 'value'],
    ]);
    expect(report.refused.every(({ message }: Json) => message.length > 10)).toBe(true);
    expect(await valuesOf(job)).toHaveLength(2);
  });

  test('may have a column for each quantity and an angle in place of the point', async () => {
    const job = await openJob(shop, scene, ['left']);
    const csv = 'angle_deg\tthickness_mm\trunout_outboard_um\n0\t21.50\t10\n90\t21.51\t\n89\t21.52\t5\n';
    const report = await importCsv(job, csv);
    expect(report).toMatchObject({ added: 3, known: 0 });
    expect(report.refused).toHaveLength(2);
    expect(report.refused[0]).toMatchObject({ line: 4, field: 'angle_deg' });
    expect(await valuesOf(job)).toContainEqual(['thickness', 0, 2, '21.51', 21_510_000]);
    expect(await valuesOf(job)).toContainEqual(['runout_outboard', 0, 0, '10 um', 10_000]);
  });

  test('that count points from 0 are read so', async () => {
    const job = await openJob(shop, scene, ['left']);
    await importCsv(job, 'quantity,point,value\nthickness,0,21.5\nthickness,7,21.6\n');
    expect((await valuesOf(job)).map((row) => row[2])).toEqual([0, 7]);
  });

  test('are only tried when that is asked', async () => {
    const job = await openJob(shop, scene, ['left']);
    const csv = 'quantity,point,value\nthickness,1,21.5\nthickness,2,nothing\n';
    const report = await importCsv(job, csv, '&dry_run=true');
    expect(report.added).toBe(1);
    expect(report.refused).toHaveLength(1);
    expect(await valuesOf(job)).toEqual([]);
  });

  test.each<[string, string]>([
    ['no heading', ''],
    ['no column of values', 'point,side\n1,left\n'],
    ['two columns of one thing', 'point,point,quantity,value\n1,1,thickness,21\n'],
    ['a value of no quantity', 'point,value\n1,21.5\n'],
    ['an open quote', 'quantity,point,value\nthickness,1,"21.5\n'],
    ['zero bytes', 'quantity,point,value\nthickness,1,21.5\u0000\n'],
  ])('with %s are refused as a whole', async (_what, csv) => {
    const job = await openJob(shop, scene, ['left']);
    const refused = await shop.refusal('POST', `/jobs/${job.job.id}/readings/import?by_person_id=${scene.by}`, csv, {
      'content-type': 'text/csv',
    });
    expect(refused.status).toBe(422);
  });

  test('on the car say by how many studs the part was turned, out and in', async () => {
    const job = await openJob(shop, scene, ['left']);
    const csv =
      'stage,quantity,studs_turned,point_number,value\n' +
      'on_car,bearing_play,,,0.01\non_car,hub_runout,,2,0.02\non_car,runout_outboard,3,1,0.05\nrefit,runout_outboard,1,1,0.02\n';
    expect(await importCsv(job, csv)).toEqual({ added: 4, known: 0, refused: [] });
    const out = (await shop.want('GET', `/jobs/${job.job.id}/export.csv`)).toString();
    expect(out).toContain(',on_car,runout_outboard,1,3,1,0,');
    expect(out).toContain(',refit,runout_outboard,1,1,1,0,');
    expect(await importCsv(job, out)).toEqual({ added: 0, known: 4, refused: [] });
  });

  test('go out as a table and come back in without a change', async () => {
    const job = await openJob(shop, scene, ['left']);
    await addRound(shop, scene, job.job.id, job.parts[0].id, round(21.5, 0.01));
    const csv = (await shop.want('GET', `/jobs/${job.job.id}/export.csv`)).toString();
    expect(csv.split('\r\n')[0]).toContain('circle_number');
    expect(csv.split('\r\n')).toHaveLength(10);
    expect(await importCsv(job, csv)).toEqual({ added: 0, known: 8, refused: [] });
  });

  test('hold nothing that a spreadsheet would run', async () => {
    const id = newId();
    await shop.want('PUT', `/people/${id}?by_person_id=${scene.by}`, {
      id,
      name: '=HYPERLINK("http://x")',
      role: 'student',
      active: true,
    });
    const job = await openJob(shop, { ...scene, by: id }, ['left']);
    await addRound(shop, { ...scene, by: id }, job.job.id, job.parts[0].id, ['21.50']);
    const csv = (await shop.want('GET', `/jobs/${job.job.id}/export.csv`)).toString();
    expect(csv).toContain(`"'=HYPERLINK(""http://x"")"`);
  });
});

describe('an export', () => {
  test('of a job is as described and makes the same job in an empty shop', async () => {
    const job = await openJob(shop, scene, ['left', 'right']);
    await addRound(shop, scene, job.job.id, job.parts[0].id, round(21.5, 0.01));
    const given = await shop.raw('GET', `/jobs/${job.job.id}/export.json`);
    const out = given.body;
    holdTo('JobExport', out);
    const from = join(folder, 'job.json');
    writeFileSync(from, given.bytes);
    const other = join(folder, 'other.sqlite');
    done(['import', from, '--shop', other]);
    const back = JSON.parse(done(['export', '--shop', other, '--job', job.job.id]));
    const bare = ({ changes, file: { seq: _seq, ...kept }, ...rest }: Json) => ({
      ...rest,
      kept,
      changes: changes.map(({ seq: _n, entry_sha256: _hash, ...change }: Json) => change),
    });
    // Its entries come along behind the one that tells what was brought, chained anew.
    expect(back.changes[0].kind).toBe('brought.job_file');
    expect(bare({ ...back, changes: back.changes.slice(1) })).toEqual(bare(out));
    expect(done(['check', '--shop', other])).toContain('nothing wrong');
    expect(done(['import', from, '--shop', other])).toContain('0 jobs added, 1 known');
  });

  test('of the shop is as described and makes the same shop again, to the letter', async () => {
    const out = await shop.want('GET', '/export.json');
    holdTo('ShopExport', out);
    const given = done(['export', '--shop', file]);
    expect(JSON.parse(given)).toEqual(out);
    const from = join(folder, 'shop.json');
    writeFileSync(from, given);
    const other = join(folder, 'again.sqlite');
    done(['import', from, '--shop', other]);
    // The same but for its own key, which its journal names behind all that came.
    const again = JSON.parse(done(['export', '--shop', other]));
    expect(again.changes.at(-1).kind).toBe('journal.key');
    expect({ ...again, changes: again.changes.slice(0, -1) }).toEqual(out);
    expect(done(['check', '--shop', other])).toContain('nothing wrong');
    const next = await Served.start(other);
    const opened = await openJob(next, scene, ['left']);
    const numbers = out.jobs.map((known: Json) => known.job.number);
    expect(opened.job.number).toBe(Math.max(...numbers) + 1);
    await next.stop();
  });

  test('that is broken in any way is refused by its field and adds nothing', async () => {
    const good = await shop.want('GET', '/export.json');
    const target = join(folder, 'untouched.sqlite');
    const broken: [string, (copy: Json) => void][] = [
      ['format', (copy) => delete copy.format],
      ['format', (copy) => (copy.format = 'brakewright-shop-99')],
      ['people', (copy) => (copy.people = {})],
      ['people[0].role', (copy) => (copy.people[0].role = 'king')],
      ['jobs[0].job.vehicle', (copy) => (copy.jobs[0].job.vehicle = 'x'.repeat(10_000))],
      ['jobs[0].parts', (copy) => (copy.jobs[0].parts = [])],
      ['jobs[0].readings[0].part_id', (copy) => (copy.jobs[0].readings[0].part_id = newId())],
      ['jobs[0].readings[0].value.text', (copy) => (copy.jobs[0].readings[0].value.text = 'thick')],
    ];
    for (const [field, spoil] of broken) {
      const copy = structuredClone(good);
      copy.jobs = copy.jobs.filter((known: Json) => known.readings.length > 0).slice(0, 1);
      spoil(copy);
      const { code, error } = run(['import', '-', '--shop', target], JSON.stringify(copy));
      expect([field, code]).toEqual([field, 2]);
      expect(error).toContain(field);
    }
    expect(JSON.parse(done(['export', '--shop', target])).people).toEqual([]);
  });

  test('into a shop in use adds what is new and gives a taken number anew', async () => {
    const other = join(folder, 'second.sqlite');
    const second = await Served.start(other);
    const theirs = await setScene(second);
    const own = await openJob(second, theirs, ['left']);
    await second.stop();
    const out = JSON.parse(done(['export', '--shop', file]));
    const clash = out.jobs.find((known: Json) => known.job.number === own.job.number);
    const told = done(['import', '-', '--shop', other], JSON.stringify(out));
    expect(told).toContain(`job ${own.job.number} is job`);
    const merged = JSON.parse(done(['export', '--shop', other]));
    expect(merged.jobs).toHaveLength(out.jobs.length + 1);
    expect(merged.jobs.map((known: Json) => known.job.id)).toContain(clash.job.id);
    expect(new Set(merged.jobs.map((known: Json) => known.job.number)).size).toBe(merged.jobs.length);
    expect(done(['check', '--shop', other])).toContain('nothing wrong');
  });
});
