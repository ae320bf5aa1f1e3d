import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO_PASSWORD, DEMO_PIN, type Json, type Served } from '../api/shop';
import { serveDemo } from './demo';
import { comeIn } from './door';
import { openBrowser, openPage, press, type } from './page';

let browser: Browser;
let shop: Served;
let teacher: { id: string; name: string };

beforeAll(async () => {
  browser = await openBrowser();
  ({ shop, teacher } = await serveDemo());
});
afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

const WEEK_MS = 7 * 24 * 3_600_000;

/** Midnight of the Monday so many weeks ago, on this machine's calendar as on the page's. */
function monday(weeks_ago: number): Date {
  const today = new Date();
  return new Date(today.getFullYear(), today.getMonth(), today.getDate() - ((today.getDay() + 6) % 7) - 7 * weeks_ago);
}

const weekOf = (from: Date, rest = ''): Promise<Json> => {
  const to = new Date(from.getFullYear(), from.getMonth(), from.getDate() + 7);
  return shop.want('GET', `/week?from=${from.toISOString()}&to=${to.toISOString()}${rest}`);
};

/** The newest week with a cut part, among those that the demo shop has. */
async function weekWithCut(): Promise<number> {
  for (let ago = 0; ago < 12; ago += 1) if ((await weekOf(monday(ago))).parts_cut > 0) return ago;
  throw new Error('the demo shop cut nothing for twelve weeks');
}

const duration = (minutes: number) => {
  const whole = Math.round(minutes);
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  return [hours ? `${hours} h` : '', rest || !hours ? `${rest} min` : ''].filter(Boolean).join(' ');
};

describe("the teacher's week", () => {
  it('is found, changed and read by the keyboard alone, with the figures that the shop tells', async () => {
    const { page, errors, close } = await openPage(browser, { width: 1024 });
    await comeIn(page, shop.address, teacher.name, DEMO_PASSWORD);
    await press(page, 'Class');
    await press(page, 'The week');
    await page.waitForURL(/\/week$/);
    const ago = await weekWithCut();
    const steps = ago + 1;
    for (let step = 0; step < steps; step += 1) {
      const url = page.url();
      await press(page, 'Week before');
      await page.waitForURL((to) => to.href !== url);
    }
    await press(page, steps === 1 ? 'This week' : 'Week after');
    const from = monday(ago);
    const day = `${from.getFullYear()}-${String(from.getMonth() + 1).padStart(2, '0')}-${String(from.getDate()).padStart(2, '0')}`;
    if (ago > 0) expect(page.url()).toContain(`from=${day}`);
    await page.reload();

    const told = await weekOf(from);
    const last = await weekOf(new Date(from.getFullYear(), from.getMonth(), from.getDate() - 7));
    const [most] = [...told.time].sort((a: Json, b: Json) => b.minutes - a.minutes);
    const time = page.getByRole('region', { name: 'Where time went' });
    expect(await time.locator('.week-figure').textContent()).toBe(duration(most.minutes));
    const all = told.time.reduce((sum: number, one: Json) => sum + one.minutes, 0);
    expect(await time.locator('.week-says').textContent()).toContain(
      `on ${most.jobs === 1 ? '1 job' : `${most.jobs} jobs`}. All steps together: ${duration(all)}`,
    );
    const same = last.time.find((one: Json) => one.work === most.work)?.minutes ?? 0;
    expect(await time.locator('.week-largest').textContent()).toContain(`The week before: ${duration(same)}`);
    const saved = page.getByRole('region', { name: 'Parts saved' });
    expect(await saved.locator('.week-figure').textContent()).toBe(String(told.parts_cut));
    expect(await saved.locator('.week-largest').textContent()).toContain(`The week before: ${last.parts_cut}`);
    const jobs = await saved.locator('.behind-job').evaluateAll((links) => links.map((one) => one.textContent));
    expect(jobs).toEqual(
      [...told.cut_job_numbers, ...told.left_job_numbers, ...told.replaced_job_numbers].map((n: number) => `Job ${n}`),
    );
    const proofs = page.getByRole('region', { name: 'Which adapter runs out' });
    if (told.proofs > 0) {
      expect(await proofs.locator('.week-says').textContent()).toContain(
        `of ${told.proofs} proven mounts ran out more than the shop’s rule: ${told.proofs_over_rule}.`,
      );
    }

    await press(page, 'What a new part and a cut cost here');
    await type(page, 'A new part costs', '62,50');
    await type(page, 'A cut costs', '18');
    const sum = (await weekOf(from, '&part_price=62.5&cut_cost=18')).money_saved;
    expect(sum).toBeCloseTo(told.parts_cut * 44.5, 9);
    const money = page.getByRole('region', { name: 'Money' });
    await money.getByText(sum.toFixed(Number.isInteger(sum) ? 0 : 2), { exact: true }).waitFor();
    expect(errors).toEqual([]);
    await close();
  });

  it('says what helps where nobody worked, and goes by the address', async () => {
    const { page, errors, close } = await openPage(browser, { width: 390, touch: true });
    await comeIn(page, shop.address, teacher.name, DEMO_PASSWORD);
    const long_ago = new Date(Date.now() - 60 * WEEK_MS);
    await page.goto(`${shop.address}/week?from=${long_ago.toISOString().slice(0, 10)}`);
    await page.getByText('Nobody worked on a job in this week.').waitFor();
    await page.getByRole('link', { name: 'This week' }).tap();
    await page.waitForURL(/\/week$/);
    expect(errors).toEqual([]);
    await close();
  });

  it('is for whoever leads alone', async () => {
    const { people } = await shop.want('GET', '/doors');
    const student = people.find((one: Json) => one.role === 'student');
    const { page, close } = await openPage(browser, { width: 820 });
    await comeIn(page, shop.address, student.name, DEMO_PIN);
    await page.getByRole('heading', { name: 'On the bench' }).waitFor();
    expect(await page.getByRole('link', { name: /Where time went/ }).count()).toBe(0);
    await page.goto(`${shop.address}/week`);
    await page.getByRole('heading', { name: 'Teachers and lead hands see this' }).waitFor();
    await close();
  });
});
