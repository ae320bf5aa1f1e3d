import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { DEMO_PIN, done, freshFolder, type Json, newId, run, Served } from './shop';

const folder = freshFolder();
const file = join(folder, 'demo.sqlite');
const PDF = { 'content-type': 'application/pdf' };
let shop: Served;
let teacher: { id: string; name: string };
let visitor = '';
let jobs: Json[] = [];

beforeAll(async () => {
  done(['demo', '--shop', file]);
  shop = await Served.start(file);
  teacher = await shop.signInToDemo();
  const id = newId();
  const person = { id, name: 'Vera Quill', role: 'visitor', active: true };
  await shop.want('PUT', `/people/${id}?by_person_id=${teacher.id}`, person);
  await shop.want('PUT', `/people/${id}/secret`, { kind: 'pin', secret: DEMO_PIN });
  visitor = await shop.session(id, DEMO_PIN);
  jobs = (await shop.want('GET', '/jobs?state=sealed&limit=200')).lines.map(({ job }: Json) => job);
}, 180_000);
afterAll(async () => {
  await shop?.stop();
});

const recordOf = (job: Json, query = ''): Promise<Buffer> => shop.want('GET', `/jobs/${job.id}/record.pdf${query}`);

const check = (pdf: Buffer | string, cookie = shop.cookie): Promise<Json> =>
  asWhom(cookie, () => shop.want('POST', '/record-check', pdf, PDF));

const asWhom = async <T>(cookie: string, work: () => Promise<T>): Promise<T> => {
  const before = shop.cookie;
  shop.cookie = cookie;
  return work().finally(() => {
    shop.cookie = before;
  });
};

const refused = (body: Buffer | string) => asWhom('', () => shop.refusal('POST', '/record-check', body, PDF));

/** The same PDF with other words in its keywords. */
const reworded = (pdf: Buffer, from: RegExp, to: string) =>
  Buffer.from(pdf.toString('latin1').replace(from, to), 'latin1');

describe('a record that is brought back', () => {
  test('is told apart on either paper, of discs, drums and a whole vehicle', async () => {
    expect(jobs.length).toBeGreaterThan(30);
    const beside = jobs.find(({ beside_job_id }) => beside_job_id !== null);
    const some = [jobs[0], jobs[20], jobs.at(-1), beside].filter(Boolean);
    for (const job of some) {
      for (const query of ['', '?paper=letter', '?vehicle=true']) {
        const told = await check(await recordOf(job, query));
        expect({ number: job.number, query, answer: told.answer }).toMatchObject({ answer: 'as_printed' });
        expect(told.jobs.map((one: Json) => one.number)).toContain(job.number);
      }
    }
  }, 120_000);

  test('stays the shop’s when what it names is changed, and tells of later amendments', async () => {
    const pdf = await recordOf(jobs[1]);
    const view = await shop.want('GET', '/shop');
    const settings = { ...view.settings, shop_name: 'Another Name', default_unit: 'in' };
    await shop.want('PUT', `/shop/settings?by_person_id=${teacher.id}`, settings);
    const said = { id: newId(), text: 'The owner called again.' };
    await shop.want('POST', `/jobs/${jobs[1].id}/amendments?by_person_id=${teacher.id}`, said);
    const told = await check(pdf);
    expect(told.answer).toBe('as_printed');
    expect(told.jobs[0].amended_entry).toBeGreaterThan(told.jobs[0].seal_entry);
    expect((await recordOf(jobs[1])).equals(pdf)).toBe(false);
  });

  test('names who sealed it to who works here, and nobody to a visitor or a stranger', async () => {
    const pdf = await recordOf(jobs[2]);
    const told = await check(pdf);
    const name = told.jobs[0].sealed_by;
    const { people } = await shop.want('GET', '/shop');
    expect(people.map((one: Json) => one.name)).toContain(name);
    expect(told.sentences.join(' ')).toContain(name);
    const names: string[] = people.map((one: Json) => one.name);
    for (const cookie of ['', visitor]) {
      for (const brought of [pdf, Buffer.concat([pdf, Buffer.from('\n')])]) {
        const shown = await check(brought, cookie);
        expect(shown.jobs[0].sealed_by).toBe(null);
        const text = JSON.stringify(shown);
        expect(names.filter((one) => text.includes(one))).toEqual([]);
      }
    }
  });

  test('is not the shop’s with one byte more, less or other', async () => {
    const pdf = await recordOf(jobs[3]);
    const other = Buffer.from(pdf);
    other[20_000] = (other[20_000] as number) ^ 1;
    for (const altered of [other, Buffer.concat([pdf, Buffer.from(' ')])]) {
      const told = await check(altered);
      expect(told.answer).toBe('differs');
      expect(told.sentences.join(' ')).toMatch(/altered after it was printed, or another version/);
    }
  });

  test('with a seal that the journal has not is told so, and a stranger learns no more', async () => {
    const pdf = await recordOf(jobs[4]);
    const forged = reworded(pdf, /sealed (\d+) [0-9a-f]{16}/, 'sealed $1 0123456789abcdef');
    const told = await check(forged);
    expect(told).toMatchObject({ answer: 'not_in_journal', jobs: [{ sealed_at: null, sealed_by: null }] });
    expect(told.sentences.join(' ')).toMatch(/seals a job, and has another hash here/);
    const none = reworded(pdf, /sealed \d+ /, 'sealed 999999 ');
    const [one, two] = [await check(forged, ''), await check(none, '')];
    expect(one.sentences).toEqual(two.sentences);
  });

  test('of an open job says that it has no seal', async () => {
    const { lines } = await shop.want('GET', '/jobs?state=open&limit=1');
    expect(await check(await recordOf(lines[0].job), '')).toMatchObject({ answer: 'not_sealed', jobs: [] });
  });

  test('that is none is refused in words', async () => {
    const pdf = await recordOf(jobs[5]);
    expect(await refused('no pdf')).toMatchObject({ status: 422, code: 'not_a_pdf' });
    expect(await refused(pdf.subarray(0, 30_000))).toMatchObject({ status: 422, code: 'damaged' });
    expect(await refused('%PDF-1.7\n%%EOF')).toMatchObject({ status: 422, code: 'no_record' });
    const large = Buffer.alloc(4 * 1024 * 1024 + 1, ' ');
    expect(await refused(large)).toMatchObject({ status: 413, code: 'too_large' });
    const text = await asWhom('', () => shop.raw('POST', '/record-check', 'a', { 'content-type': 'text/plain' }));
    expect([text.status, text.body.error.code]).toEqual([415, 'wrong_content_type']);
  });

  test('of another shop is not in this one’s journal', async () => {
    const other = join(folder, 'other.sqlite');
    done(['demo', '--shop', other, '--seed', '7']);
    const [first] = JSON.parse(done(['job', 'list', '--shop', other, '--json', '--state', 'sealed']));
    const to = join(folder, 'other.pdf');
    done(['report', String(first.number), '--shop', other, '--to', to]);
    expect(run(['check', '--shop', other, '--pdf', to])).toMatchObject({ code: 0 });
    const here = run(['check', '--shop', file, '--pdf', to]);
    expect(here.code).toBe(4);
    expect(here.out).toMatch(/^not_in_journal\n {2}This shop's journal does not have/);
  }, 120_000);
});

describe('brakewright check --pdf', () => {
  test('says the same of a record that the server printed, beside it', async () => {
    const to = join(folder, 'served.pdf');
    writeFileSync(to, await recordOf(jobs[6]));
    const { code, out } = run(['check', '--shop', file, '--pdf', to]);
    expect(code).toBe(0);
    expect(out).toMatch(/^as_printed\n {2}This is byte for byte what this shop prints of job \d+/);
  });

  test('carries its seal where other programs read it', async () => {
    const to = join(folder, 'told.pdf');
    writeFileSync(to, await recordOf(jobs[7]));
    const told = await shop.want('GET', `/jobs/${jobs[7].id}`);
    const info = execFileSync('pdfinfo', [to]).toString();
    expect(info).toMatch(
      new RegExp(`Keywords: +Brakewright record 1; .*job ${told.job.number} sealed \\d+ [0-9a-f]{64}`),
    );
    expect(info).toContain(told.job.seal_sha256);
  });

  test.each([
    ['a file that is not there', () => join(folder, 'none.pdf'), /cannot be read/],
    ['a file that is no PDF', () => file, /no more than|no PDF|another file/],
  ])('refuses %s', (_, path, why) => {
    const { code, error } = run(['check', '--shop', file, '--pdf', path()]);
    expect(code).toBe(2);
    expect(error).toMatch(why);
  });
});
