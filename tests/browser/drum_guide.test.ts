import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO_PASSWORD, type Json, newId, type Served } from '../api/shop';
import { heading, tick } from './at_lathe';
import { serveDemo } from './demo';
import { comeIn } from './door';
import { openBrowser, openPage } from './page';

let browser: Browser;
let shop: Served;
let teacher: { id: string; name: string };

/** The demo shop's hubless drums that wait for a decision, decided to be cut. */
async function decidedDrums(): Promise<Json> {
  const { lines } = await shop.want('GET', '/jobs?state=open&limit=100');
  const waiting = lines.find((line: Json) => line.waits_for === 'decision' && line.parts[0].kind === 'drum');
  const file = await shop.want('GET', `/jobs/${waiting.job.number}`);
  const decision = { id: newId(), action: 'cut', reason: '' };
  await shop.want('POST', `/jobs/${file.job.id}/decisions?by_person_id=${teacher.id}`, decision);
  return file;
}

beforeAll(async () => {
  browser = await openBrowser();
  ({ shop, teacher } = await serveDemo());
});

afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

/** One touch-off, then each pass from the closed end outward. */
const BEFORE = [
  'Look at the edge',
  'Damper strap on',
  'Guards, glasses, sleeves, hair',
  'Machine on',
  'Tool clear',
  'Run in',
  'Touch off',
  'Dial to zero',
];
const PASS = ['Run to the closed end', 'The depth', 'Lock the tool', 'Feed on', 'The pass', 'Feed off', 'Machine off'];

async function follow(page: Page, steps: readonly string[]): Promise<void> {
  for (const step of steps) {
    await heading(page, step);
    await tick(page);
  }
}

describe('a drum at the lathe', () => {
  it('is cut by the guide with its one tool, each pass as it was settled on', async () => {
    const file = await decidedDrums();
    const { page, errors, close } = await openPage(browser, { width: 1100, height: 820 });
    await page.clock.install();
    await comeIn(page, shop.address, teacher.name, DEMO_PASSWORD);
    await page.goto(`${shop.address}/jobs/${file.job.number}/plan`);
    await page.getByRole('button', { name: 'Settle on this plan' }).click();
    await expect.poll(async () => (await shop.want('GET', `/jobs/${file.job.id}`)).cut_plans.length).toBe(1);
    const plan = (await shop.want('GET', `/jobs/${file.job.id}`)).cut_plans[0];
    expect(plan.passes.length).toBeGreaterThan(1);

    await page.goto(`${shop.address}/jobs/${file.job.number}/cut`);
    await follow(page, BEFORE);
    for (const i of plan.passes.keys()) {
      await follow(page, i === 0 ? PASS : ['Measure', 'Machine on', ...PASS]);
    }
    await heading(page, 'What the dial took');
    await page.getByRole('button', { name: 'Record the cut' }).click();
    await heading(page, 'This drum is cut.');

    const { passes, cuts } = await shop.want('GET', `/jobs/${file.job.id}`);
    const marks = plan.passes.map((pass: Json) => pass.outboard_marks);
    expect(passes.map((pass: Json) => pass.outboard_marks)).toEqual(marks);
    expect(passes.every((pass: Json) => pass.inboard_marks === 0 && pass.outcome === 'finished')).toBe(true);
    expect(cuts).toHaveLength(1);
    expect(cuts[0]).toMatchObject({
      outboard_marks: marks.reduce((sum: number, one: number) => sum + one, 0),
      inboard_marks: 0,
    });
    expect(errors).toEqual([]);
    await close();
  });
});
