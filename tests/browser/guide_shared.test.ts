import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type Scene, setScene } from '../api/scene';
import { done, freshFolder, type Json, Served } from '../api/shop';
import { breathe, hangTheIron, heading, provenJob, seconds, tabletAt, tick, tickTo, title } from './at_lathe';
import { openBrowser } from './page';

let browser: Browser;
let shop: Served;
let scene: Scene;
let tablets: { errors: string[]; close: () => Promise<void> }[] = [];

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
});
beforeEach(async () => {
  tablets = [];
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  await hangTheIron(shop, scene);
});
afterEach(async () => {
  for (const one of tablets) {
    expect(one.errors).toEqual([]);
    await one.close();
  }
  await shop.stop();
});

const fileOf = (job: Json): Promise<Json> => shop.want('GET', `/jobs/${job.job.id}`);
const stepsOf = async (job: Json): Promise<string[]> =>
  (await fileOf(job)).bench_steps.map((one: Json) => `${one.step} ${one.pass} ${one.event}`);

async function tablet(): Promise<Page> {
  const opened = await tabletAt(browser, scene, { width: 1024, height: 768 });
  tablets.push(opened);
  return opened.page;
}

/** What the page says of what was entered. */
const sign = (page: Page) => page.locator('.sign-word').textContent();

/** A tablet at the first step of a plan that was just settled on. */
async function settled(job: Json): Promise<Page> {
  const page = await tablet();
  await page.goto(`${shop.address}/jobs/${job.job.number}/plan?part=left`);
  await page.getByRole('button', { name: 'Settle on this plan' }).click();
  await heading(page, 'Look at both edges');
  return page;
}

/** Lets the tablet's own clock run, so that it tries again what it has to try again. */
const inTime = (page: Page, wanted: () => Promise<unknown>) =>
  expect.poll(
    async () => {
      await page.clock.fastForward(5_000);
      return wanted();
    },
    { timeout: 30_000 },
  );

describe('a guided cut whose shop is killed in the middle of a pass', () => {
  it('says so, goes on by its own clock, and has lost nothing once the shop is there again', async () => {
    const job = await provenJob(shop, scene);
    const page = await settled(job);
    await tickTo(page, 'The pass');
    await expect.poll(() => stepsOf(job)).toContain('pass 1 begun');
    const before = await stepsOf(job);
    const port = Number(new URL(shop.address).port);
    await shop.stop('SIGKILL');

    await expect.poll(() => sign(page)).toBe('No connection');
    await page.getByText('Stay at the machine').waitFor();
    const at = await seconds(page);
    await page.clock.fastForward(60_000);
    expect(await seconds(page)).toBeLessThanOrEqual(at - 59);
    await page.keyboard.press(' ');
    await page.getByRole('button', { name: 'Go on' }).first().waitFor();
    await breathe(page);
    await page.keyboard.press(' ');
    await page.clock.fastForward(900_000);
    await page.getByText('Are the tools clear of the edge?').waitFor();
    await tick(page);
    await heading(page, 'Feed off');
    await page
      .getByText(/waits? to be sent|not sent yet|waiting/i)
      .first()
      .waitFor();
    await tick(page);
    await heading(page, 'Machine off');
    // Closed and opened again while there is still nobody: what was ticked lies in the tablet.
    expect(await page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('outbox')).length)).toBe(5);

    shop = await Served.start(shop.file, { port });
    await inTime(page, () => stepsOf(job)).toEqual([
      ...before,
      'pass 1 paused',
      'pass 1 resumed',
      'pass 1 done',
      'feed_off 1 done',
    ]);
    await inTime(page, async () => (await fileOf(job)).passes.length).toBe(1);
    const [pass] = (await fileOf(job)).passes;
    expect(pass).toMatchObject({ outcome: 'finished', number: 1 });
    expect(Date.parse(pass.ended_at) - Date.parse(pass.began_at)).toBeGreaterThan(900_000);
    await expect.poll(() => sign(page)).toBe('All saved');
    await page.reload();
    await heading(page, 'Machine off');
    await shop.stop();
    expect(done(['check', '--shop', shop.file])).toContain('nothing wrong');
  });
});

describe('a second tablet on the same guided cut', () => {
  it('stands at the same step with the same clock, and what either does the other shows', async () => {
    const job = await provenJob(shop, scene);
    const first = await settled(job);
    await tickTo(first, 'The pass');
    await expect.poll(() => stepsOf(job)).toContain('pass 1 begun');
    const second = await tablet();
    await second.goto(`${shop.address}/jobs/${job.job.number}/cut?part=left`);
    await heading(second, 'The pass');
    const skew = Math.abs((await seconds(first)) - (await seconds(second)));
    // Each tablet of the test has a clock of its own, set forward by every tick.
    expect(skew).toBeLessThan(30);
    await breathe(second);
    await second.keyboard.press(' ');
    await inTime(first, async () => (await first.getByRole('button', { name: 'Go on' }).count()) > 0).toBe(true);
    await breathe(first);
    await first.keyboard.press(' ');
    await inTime(
      second,
      async () => (await second.getByRole('button', { name: 'The tools are clear of the edge' }).count()) > 0,
    ).toBe(true);
    expect((await stepsOf(job)).slice(-2)).toEqual(['pass 1 paused', 'pass 1 resumed']);
  });

  it('that ends the same pass unheard by the first does not make two passes of it', async () => {
    const job = await provenJob(shop, scene);
    const first = await settled(job);
    await tickTo(first, 'The pass');
    await first.clock.fastForward(900_000);
    await tick(first);
    await heading(first, 'Feed off');
    await expect.poll(() => stepsOf(job)).toContain('pass 1 done');
    const second = await tablet();
    await second.goto(`${shop.address}/jobs/${job.job.number}/cut?part=left`);
    await heading(second, 'Feed off');
    await second.context().setOffline(true);
    await tick(second);
    await heading(second, 'Machine off');
    await tick(first);
    await expect.poll(async () => (await fileOf(job)).passes.length).toBe(1);
    await second.context().setOffline(false);
    await inTime(second, async () => (await stepsOf(job)).filter((one) => one === 'feed_off 1 done').length).toBe(2);
    await inTime(second, () => sign(second)).toBe('All saved');
    expect((await fileOf(job)).passes).toHaveLength(1);
    await heading(first, 'Machine off');
    await heading(second, 'Machine off');
    expect(await title(first)).toBe(await title(second));
  });
});

describe('a thickness that is typed between two passes', () => {
  it('is refused while it is no length, doubted where it is far off, and kept with what it said', async () => {
    const job = await provenJob(shop, scene);
    const page = await tablet();
    await page.goto(`${shop.address}/jobs/${job.job.number}/plan?part=left`);
    await page.getByRole('button', { name: 'Add a pass' }).click();
    await page.getByRole('region', { name: 'Pass 2' }).waitFor();
    await page.getByRole('button', { name: 'Settle on this plan' }).click();
    await heading(page, 'Look at both edges');
    await tickTo(page, 'Measure', async (at) => {
      if (at === 'The pass') await page.clock.fastForward(1_000_000);
    });
    const field = page.getByRole('textbox');
    await field.fill('thick');
    await page.clock.fastForward(1_000);
    await page.getByText(/does not begin with a number/).waitFor();
    await breathe(page);
    await page.keyboard.press('Enter');
    await heading(page, 'Measure');
    await field.fill('0.84');
    await page.clock.fastForward(1_000);
    await page.getByText('Far from what is expected', { exact: false }).waitFor();
    await field.fill('21,23');
    await page.clock.fastForward(1_000);
    await page.getByText('Far from what is expected', { exact: false }).waitFor({ state: 'detached' });
    await tick(page);
    await expect
      .poll(async () => (await fileOf(job)).bench_steps.find((one: Json) => one.step === 'measure')?.detail)
      .toBe('21,23');
  });
});
