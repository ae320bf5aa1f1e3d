import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addRound, putPlan, reading, round, type Scene, setScene } from '../api/scene';
import { freshFolder, type Json, Served } from '../api/shop';
import { breathe, hangTheIron, heading, provenJob as proven, seconds, tabletAt, tick, tickTo } from './at_lathe';
import { openBrowser, type openPage, overflows, tooSmall, violations } from './page';

let browser: Browser;
let shop: Served;
let scene: Scene;

beforeAll(async () => {
  browser = await openBrowser();
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  await hangTheIron(shop, scene);
});

afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

const as = () => `by_person_id=${scene.by}`;
const post = (path: string, body: Json) => shop.want('POST', `${path}?${as()}`, body);

const provenJob = () => proven(shop, scene);
const tablet = (looks: Parameters<typeof openPage>[1]) => tabletAt(browser, scene, looks);
const fileOf = (job: Json): Promise<Json> => shop.want('GET', `/jobs/${job.job.id}`);
const stepsOf = async (job: Json): Promise<string[]> =>
  (await fileOf(job)).bench_steps.map((one: Json) => `${one.step} ${one.pass} ${one.event}`);
/** Height of the figures that are read, as a share of the screen's: of the least one, by their own glyphs. */
const leastFigure = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const canvas = document.createElement('canvas').getContext('2d');
    if (!canvas) throw new Error('no canvas');
    const heights = [...document.querySelectorAll<HTMLElement>('.guide-figure')].map((figure) => {
      const style = getComputedStyle(figure);
      canvas.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
      return canvas.measureText('0').actualBoundingBoxAscent;
    });
    return Math.min(...heights) / window.innerHeight;
  });

const toolAt = (page: Page) => page.locator('.ring-run-tool').getAttribute('transform');
const number = (job: Json) => job.job.number;

async function settle(page: Page, job: Json): Promise<Json> {
  await page.goto(`${shop.address}/jobs/${number(job)}/plan?part=left`);
  await heading(page, 'Plan');
  await page.getByRole('button', { name: 'Settle on this plan' }).click();
  await heading(page, 'Look at both edges');
  return (await fileOf(job)).cut_plans[0];
}

describe('a rotor from its proven mount to the sealed record', () => {
  it('is planned, cut by the clock through pause, reload and a lost connection, finished, checked and sealed', async () => {
    const job = await provenJob();
    const { page, errors, close } = await tablet({ width: 1024, height: 768 });
    const plan = await settle(page, job);
    expect(plan.passes.length).toBeGreaterThan(0);

    const heights: Record<string, number> = {};
    await tickTo(page, 'The pass', async (at) => {
      if ((await page.locator('.guide-figure').count()) > 0) heights[at] = await leastFigure(page);
      if (at === 'Damping band on') await page.getByText('Band 2, hook D4').waitFor();
      if (at === 'The extra marks') {
        const shown = await page.locator('.guide-marks .guide-figure').allTextContents();
        expect(shown.map(Number)).toEqual([plan.passes[0].outboard_marks, plan.passes[0].inboard_marks]);
      }
    });
    heights['The pass'] = await leastFigure(page);
    expect(Object.keys(heights)).toEqual(
      expect.arrayContaining(['Damping band on', 'Machine on', 'The extra marks', 'Feed on', 'The pass']),
    );
    for (const [step, share] of Object.entries(heights)) expect(share, step).toBeGreaterThanOrEqual(0.05);

    const whole = plan.passes[0].time_s;
    const first = await seconds(page);
    expect(Math.abs(first - whole)).toBeLessThan(20);
    await page.getByText('Stay at the machine').waitFor();
    const inside = await toolAt(page);
    await page.clock.fastForward(60_000);
    await expect.poll(() => seconds(page)).toBeLessThanOrEqual(first - 59);
    expect(await toolAt(page)).not.toBe(inside);
    expect(await overflows(page)).toBe(false);

    await page.keyboard.press(' ');
    await page.getByRole('button', { name: 'Go on' }).first().waitFor();
    const held = await seconds(page);
    await page.clock.fastForward(300_000);
    expect(await seconds(page)).toBe(held);
    await breathe(page);
    await page.keyboard.press(' ');
    await page.getByRole('button', { name: 'The tools are clear of the edge' }).waitFor();
    expect(Math.abs((await seconds(page)) - held)).toBeLessThan(15);

    await expect.poll(() => stepsOf(job)).toContain('pass 1 resumed');
    await page.reload();
    await heading(page, 'The pass');
    expect(Math.abs((await seconds(page)) - held)).toBeLessThan(30);

    await page.context().setOffline(true);
    await page.clock.fastForward(Math.ceil(whole) * 1000);
    await page.getByText('Are the tools clear of the edge?').waitFor();
    await tickTo(page, plan.passes.length > 1 ? 'Measure' : 'What the dials took');
    expect((await fileOf(job)).passes).toEqual([]);
    await page.context().setOffline(false);
    await expect
      .poll(
        async () => {
          await page.clock.fastForward(10_000);
          return (await fileOf(job)).passes.length;
        },
        { timeout: 20_000 },
      )
      .toBe(1);

    await tickTo(page, 'What the dials took', async (at) => {
      if (at === 'The pass') await page.clock.fastForward(1_000_000);
    });
    const file = await fileOf(job);
    expect(file.passes).toHaveLength(plan.passes.length);
    for (const pass of file.passes) expect(pass.outcome).toBe('finished');
    const [pass] = file.passes;
    const lasted = (Date.parse(pass.ended_at) - Date.parse(pass.began_at)) / 1000;
    expect(lasted).toBeGreaterThan(whole);
    expect(pass.note).toMatch(/^paused for 3\d\d s$/);
    const steps = await stepsOf(job);
    const dones = steps.filter((one) => one.endsWith(' done'));
    expect(new Set(dones).size).toBe(dones.length);
    expect(steps).toEqual(
      expect.arrayContaining(['guards 0 done', 'feed_on 1 done', 'pass 1 begun', 'pass 1 paused', 'pass 1 done']),
    );

    const marks = (face: string) =>
      plan.passes.reduce((sum: number, one: Json) => sum + Number(one[`${face}_marks`]), 0);
    expect(await page.getByLabel('Outboard').inputValue()).toBe(String(marks('outboard')));
    expect(await page.getByLabel('Inboard').inputValue()).toBe(String(marks('inboard')));
    await page.getByRole('button', { name: 'Record the cut' }).click();
    await heading(page, 'This rotor is cut.');
    await page.getByRole('link', { name: 'Sand and wash it' }).click();
    await finishIt(page);
    await measureAfter(job, marks('outboard') + marks('inboard'));
    await checkAndSeal(page, job);
    expect(errors).toEqual([]);
    await close();
  });
});

async function finishIt(page: Page): Promise<void> {
  await heading(page, 'Sand outboard, no direction');
  await page.getByRole('button', { name: 'Start the clock' }).click();
  await page.getByRole('button', { name: 'Done' }).waitFor();
  await page.clock.fastForward(50_000);
  await expect.poll(async () => Number(await page.getByRole('timer').textContent())).toBeGreaterThanOrEqual(49);
  await tick(page);
  await page.getByRole('button', { name: 'Start the clock' }).waitFor();
  await breathe(page);
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Done' }).waitFor();
  await tickTo(page, 'White cloth');
  await breathe(page);
  await page.getByRole('button', { name: 'It came away grey: wash again' }).click();
  await heading(page, 'Wash with soap and water');
  await tickTo(page, 'Finished: measure it cold');
  await page.getByRole('link', { name: 'Measure after the cut' }).waitFor();
}

/** Readings as the dials say, to a few micrometres. */
async function measureAfter(job: Json, marks: number): Promise<void> {
  const part = job.parts[0].id;
  await putPlan(shop, scene, job.job.id, part, 'after');
  const mean_mm = 21.28 - 0.0254 * marks;
  await addRound(shop, scene, job.job.id, part, round(mean_mm, 0.001), { stage: 'after' });
  for (const quantity of ['roughness_outboard', 'roughness_inboard']) {
    const body = reading(scene, part, 0, '1.1 um', { stage: 'after', quantity, instrument_id: null });
    await post(`/jobs/${job.job.id}/readings`, body);
  }
}

async function checkAndSeal(page: Page, job: Json): Promise<void> {
  await page.goto(`${shop.address}/jobs/${number(job)}/check`);
  await heading(page, 'After the cut');
  await page.getByRole('heading', { name: 'Dials against metal' }).waitFor();
  await page.getByRole('heading', { name: 'What may have happened' }).waitFor();
  await page.getByRole('link', { name: 'What a mark of this lathe really is' }).click();
  await heading(page, 'Bench 1: what a mark really is');
  await page.getByText(/more finished jobs?, and it can be said/).waitFor();
  await page.goto(`${shop.address}/jobs/${number(job)}/record`);
  await page.getByRole('button', { name: 'Seal', exact: true }).click();
  await page.getByRole('button', { name: 'Yes, seal it' }).click();
  await page.getByText(/^Sealed .* by Ada Stone$/).waitFor();
}

describe('when something is wrong', () => {
  it('says what to do, keeps it, stops the pass, and cuts it again from the inner edge at the same depth', async () => {
    const job = await provenJob();
    const { page, errors, close } = await tablet({ width: 390, height: 844, touch: true });
    const plan = await settle(page, job);
    await tickTo(page, 'The pass');
    expect(await leastFigure(page)).toBeGreaterThanOrEqual(0.05);
    expect(await overflows(page)).toBe(false);
    await page.clock.fastForward(20_000);

    await page.keyboard.press('Escape');
    await page.getByText('Danger to a person: the machine’s emergency stop, at once.').waitFor();
    expect(await tooSmall(page, 44)).toEqual([]);
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Chatter or howl' }).tap();
    await page.getByText('Is the damping band on, and tight?').waitFor();
    await page.getByText('Common practice, no source.').first().waitFor();
    await page.getByRole('button', { name: 'Stop the pass' }).tap();
    await heading(page, 'Stopped');
    expect(await violations(page)).toEqual([]);

    await breathe(page);
    await page.getByRole('button', { name: 'Take back: The pass' }).tap();
    await heading(page, 'The pass');
    await breathe(page);
    await page.getByRole('button', { name: 'Stop', exact: true }).tap();
    await heading(page, 'Stopped');
    await breathe(page);
    await page.getByRole('button', { name: /^Again from the inner edge/ }).tap();
    await heading(page, 'Machine on');
    await tickTo(page, 'The extra marks');
    await page.getByText('The dials stay as they stand: the same depth again.').waitFor();
    expect((await page.locator('.guide-marks .guide-figure').allTextContents()).map(Number)).toEqual([0, 0]);
    await tickTo(page, 'What the dials took');

    const file = await fileOf(job);
    expect(file.passes.map((one: Json) => one.outcome)).toEqual(['stopped', ...plan.passes.map(() => 'finished')]);
    expect(file.passes[0].note).toContain('chatter');
    const sum = plan.passes.reduce((marks: number, one: Json) => marks + one.outboard_marks, 0);
    expect(await page.getByLabel('Outboard').inputValue()).toBe(String(sum));
    const steps = await stepsOf(job);
    expect(steps).toEqual(
      expect.arrayContaining(['pass 1 trouble', 'pass 1 stopped', 'pass 1 undone', 'stopped 1 done', 'pass 2 begun']),
    );
    expect(errors).toEqual([]);
    await close();
  });

  it('takes back a tick, and does not take two taps for two steps', async () => {
    const job = await provenJob();
    const { page, errors, close } = await tablet({ width: 1024, height: 768 });
    await settle(page, job);
    await tick(page);
    await heading(page, 'Damping band on');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    await page.waitForTimeout(200);
    await heading(page, 'Damping band on');
    await breathe(page);
    await page.getByRole('button', { name: 'Take back: Look at both edges' }).click();
    await heading(page, 'Look at both edges');
    await expect.poll(() => stepsOf(job)).toEqual(expect.arrayContaining(['edges 0 done', 'edges 0 undone']));
    expect(errors).toEqual([]);
    await close();
  });
});

describe('the plan', () => {
  it('answers a key at a handle, names the rule that is broken, and goes back to what was computed', async () => {
    const job = await provenJob();
    const { page, errors, close } = await tablet({ width: 1024, height: 768 });
    await page.goto(`${shop.address}/jobs/${number(job)}/plan?part=left`);
    const depth = page.getByRole('slider', { name: 'Outboard, pass 1' });
    await depth.waitFor();
    const before = await depth.getAttribute('aria-valuenow');
    await page.getByText('Keeps every rule.').waitFor();
    await depth.focus();
    await page.keyboard.press('End');
    await page.getByText('Passes set by hand').waitFor();
    await expect.poll(() => page.locator('.plan-pass .trouble').count()).toBeGreaterThan(0);
    await page.reload();
    await page.getByText('Passes set by hand').waitFor();
    await page.getByRole('button', { name: 'Back to the computed plan' }).click();
    await page.getByText('Keeps every rule.').waitFor();
    expect(await depth.getAttribute('aria-valuenow')).toBe(before);

    const handle = page.getByRole('slider', { name: 'Depth of pass 1, outboard' });
    const box = await handle.boundingBox();
    if (!box) throw new Error('the handle is not drawn');
    expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(44);
    await page.mouse.move(box.x + 20, box.y + 20);
    await page.mouse.down();
    await page.mouse.move(box.x + 20, box.y + 120, { steps: 12 });
    await page.mouse.up();
    expect(Number(await depth.getAttribute('aria-valuenow'))).toBeGreaterThan(Number(before));
    expect(await violations(page)).toEqual([]);
    expect(errors).toEqual([]);
    await close();
  });
});
