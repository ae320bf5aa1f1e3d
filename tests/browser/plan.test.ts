import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO_PASSWORD, type Json, type Served } from '../api/shop';
import { serveDemo } from './demo';
import { comeIn } from './door';
import { openBrowser, openPage } from './page';

let browser: Browser;
let shop: Served;
let teacher: { id: string; name: string };
let number: number;

/** The demo shop: its first lathe has cut often enough that its dials are measured, and a job there waits for a plan. */
beforeAll(async () => {
  browser = await openBrowser();
  ({ shop, teacher } = await serveDemo());
  const { lines } = await shop.want('GET', '/jobs?state=open&limit=100');
  number = lines.find((one: Json) => one.waits_for === 'plan').job.number;
});
afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

const pathOf = (job: Json) => `/jobs/${job.job.id}/parts/${job.parts[0].id}`;
const jobHere = (): Promise<Json> => shop.want('GET', `/jobs/${number}`);

async function planPage(at = 'plan') {
  const opened = await openPage(browser, { width: 1280, height: 1000 });
  await comeIn(opened.page, shop.address, teacher.name, DEMO_PASSWORD);
  await opened.page.goto(`${shop.address}/jobs/${number}/${at}`);
  return opened;
}

const slider = (page: Page, name: string) => page.getByRole('slider', { name, exact: true });
const setTo = async (page: Page, name: string) => Number(await slider(page, name).getAttribute('aria-valuenow'));

describe('the depth of a mark', () => {
  it('is on the plan, the verdict and the cut by hand what the finished jobs say, and says so', async () => {
    const { bench } = await shop.want('GET', `/jobs/${number}/assessment`);
    const { lathe_id } = (await jobHere()).job;
    const lathe = (await shop.want('GET', '/shop')).lathes.find((one: Json) => one.id === lathe_id);
    expect(bench.dial_um_per_mark).not.toBe(lathe.dial_um_per_mark);
    const { page, errors, close } = await planPage();
    const card = page.getByRole('region', { name: 'Pass 1' });
    await card.waitFor();
    for (const [name, um] of [
      ['Outboard', bench.dial_um_per_mark],
      ['Inboard', bench.dial_inboard_um_per_mark],
    ] as const) {
      const marks = await setTo(page, `${name}, pass 1`);
      expect(marks).toBeGreaterThan(0);
      const setting = card.locator('.plan-setting', { has: slider(page, `${name}, pass 1`) });
      expect(await setting.textContent()).toContain(`${((marks * um) / 1000).toFixed(3)} mm`);
    }
    const measured = `${(bench.dial_um_per_mark / 1000).toFixed(4)} mm outboard`;
    const typed = `${(lathe.dial_um_per_mark / 1000).toFixed(4)} mm`;
    for (const view of ['plan', 'by_hand']) {
      await page.goto(`${shop.address}/jobs/${number}/${view}`);
      const basis = page.locator('.dial-basis');
      await expect.poll(() => basis.textContent()).toContain('as measured on this lathe');
      for (const part of [measured, typed, 'from 5 finished jobs on this lathe']) {
        expect(await basis.textContent()).toContain(part);
      }
    }
    const { outboard_marks } = (await shop.want('GET', `/jobs/${number}/assessment`)).verdict.parts[0].cleanup;
    await page.goto(`${shop.address}/jobs/${number}/verdict`);
    const depth = `${((outboard_marks * bench.dial_um_per_mark) / 1000).toFixed(3)} mm`;
    await page.getByRole('group', { name: /cut/i }).first().getByText(depth).first().waitFor();
    expect(errors).toEqual([]);
    await close();
  });
});

/** Middle of a slider's value, in pixels of the page. */
async function placeOf(page: Page, name: string, share: number) {
  const box = await slider(page, name).locator('.stepped-track').boundingBox();
  if (!box) throw new Error(`${name} is not drawn`);
  return { x: box.x + share * box.width, y: box.y + box.height / 2 };
}

/** Everything that was ever painted at `selector`, in its order, each once. */
async function keepWhatIsPainted(page: Page, selector: string): Promise<() => Promise<string[]>> {
  await page.evaluate((wanted) => {
    const seen: string[] = [];
    const look = () => {
      const text = document.querySelector(wanted)?.textContent ?? '';
      if (text !== seen.at(-1)) seen.push(text);
      requestAnimationFrame(look);
    };
    look();
    (window as unknown as { seen: string[] }).seen = seen;
  }, selector);
  return () => page.evaluate(() => (window as unknown as { seen: string[] }).seen);
}

const numberIn = (text: string): number => Number(/\d+(?:\.\d+)?/.exec(text)?.[0]);
const secondsIn = (text: string): number => {
  const [, minutes, seconds] = /(\d+):(\d\d)/.exec(text) ?? [];
  return 60 * Number(minutes) + Number(seconds);
};

interface WhatIf {
  slider: string;
  /** Where the figure that follows it stands. */
  shown: string;
  read: (text: string) => number;
  /** The same figure in the shop's own answer, and how far its last place on the page may be off. */
  of: (pass: Json) => number;
  within: number;
  rises: boolean;
}

const WHAT_IFS: readonly WhatIf[] = [
  {
    slider: 'Outboard, pass 1',
    shown: '.plan-after .plan-second',
    read: numberIn,
    of: (pass) => pass.thickness_after_mm,
    within: 0.00051,
    rises: false,
  },
  {
    slider: 'Feed, pass 1',
    shown: '.plan-foresight > div:nth-child(1) .plan-second',
    read: secondsIn,
    of: (pass) => pass.time_s,
    within: 1,
    rises: false,
  },
  {
    slider: 'Speed, pass 1',
    shown: '.plan-foresight > div:nth-child(2) .plan-second',
    read: numberIn,
    of: (pass) => pass.surface_speed_m_per_min,
    within: 0.51,
    rises: true,
  },
];

/** Until what was answered has been painted. */
const twoFrames = (page: Page) =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

/** The finger on a slider's least value, its answer on the screen. */
async function holdAtLeast(page: Page, name: string): Promise<void> {
  const from = await placeOf(page, name, 0);
  const least = Number(await slider(page, name).getAttribute('aria-valuemin'));
  await page.mouse.move(from.x, from.y);
  const answered = (await setTo(page, name)) === least ? null : page.waitForResponse('**/foresight');
  await page.mouse.down();
  await (await answered)?.finished();
  expect(await setTo(page, name)).toBe(least);
  await twoFrames(page);
}

/** 0, 1, 2, 1, 0, 1 ... for three places. */
const toAndFro = (k: number, count: number): number => {
  const around = k % (2 * (count - 1));
  return Math.min(around, 2 * (count - 1) - around);
};

async function placesOn(page: Page, name: string) {
  const count = await slider(page, name).locator('.stepped-tick').count();
  return Promise.all(Array.from({ length: count }, (_, i) => placeOf(page, name, i / (count - 1))));
}

/** Moves the finger, and gives the milliseconds from the browser's own event to the frame that shows the answer. */
async function timeToPaint(page: Page, place: { x: number; y: number }): Promise<number> {
  await page.evaluate(() => {
    const waited = new Promise<number>((done) => {
      let moved_at: number | null = null;
      addEventListener(
        'pointermove',
        (event) => {
          moved_at = event.timeStamp;
        },
        { capture: true, once: true },
      );
      const watch = new MutationObserver(() => {
        if (moved_at === null) return;
        const from = moved_at;
        watch.disconnect();
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => done(performance.now() - from);
          port2.postMessage(null);
        });
      });
      for (const shown of document.querySelectorAll('.plan-foresight, .plan-after')) {
        watch.observe(shown, { subtree: true, childList: true, characterData: true });
      }
    });
    (window as unknown as { waited: Promise<number> }).waited = waited;
  });
  await page.mouse.move(place.x, place.y);
  return page.evaluate(() => (window as unknown as { waited: Promise<number> }).waited);
}

describe('a what-if', () => {
  it.each(WHAT_IFS)('of $slider follows the finger, no older answer after a newer one', async (one) => {
    const { page, errors, close } = await planPage();
    await slider(page, one.slider).waitFor();
    // Each answer is quicker than the one before it: questions that were out at once would be answered in reverse.
    const questions: Json[] = [];
    await page.route('**/foresight', async (route) => {
      questions.push(route.request().postDataJSON());
      await new Promise((resolve) => setTimeout(resolve, Math.max(0, 120 - 30 * questions.length)));
      await route.continue();
    });
    await holdAtLeast(page, one.slider);
    const painted = await keepWhatIsPainted(page, one.shown);
    const to = await placeOf(page, one.slider, 1);
    const most = Number(await slider(page, one.slider).getAttribute('aria-valuemax'));
    await page.mouse.move(to.x, to.y, { steps: 40 });
    expect(await setTo(page, one.slider)).toBe(most);
    await page.mouse.up();
    expect(await setTo(page, one.slider)).toBe(most);

    await expect.poll(() => Object.values(questions.at(-1).passes[0])).toContain(most);
    const answer = await shop.want('POST', `${pathOf(await jobHere())}/foresight`, questions.at(-1));
    const wanted = one.of(answer.passes[0]);
    const values = async () => (await painted()).map(one.read);
    await expect.poll(async () => Math.abs(((await values()).at(-1) ?? 0) - wanted)).toBeLessThanOrEqual(one.within);
    const seen = await values();
    expect(seen.length).toBeGreaterThan(1);
    expect(seen).toEqual([...seen].sort((a, b) => (one.rises ? a - b : b - a)));
    expect(errors).toEqual([]);
    await close();
  });

  it('is painted step by step as the finger goes; how soon is told here and tested nowhere', async () => {
    const { page, errors, close } = await planPage();
    const told: string[] = [];
    for (const one of WHAT_IFS) {
      await slider(page, one.slider).waitFor();
      await holdAtLeast(page, one.slider);
      const places = await placesOn(page, one.slider);
      const took_ms: number[] = [];
      for (let k = 1; k <= 150; ++k) {
        took_ms.push(await timeToPaint(page, places[toAndFro(k, places.length)] as { x: number; y: number }));
      }
      await page.mouse.up();
      const sorted = took_ms.sort((a, b) => a - b);
      const at = (share: number) => (sorted[Math.round(share * (sorted.length - 1))] as number).toFixed(1);
      told.push(`${one.slider}: p50 ${at(0.5)} ms, p95 ${at(0.95)} ms, of ${sorted.length}`);
      await page.reload();
    }
    expect(told).toHaveLength(WHAT_IFS.length);
    console.log(`from the finger to the painted answer; a frame is 16 ms\n${told.join('\n')}`);
    expect(errors).toEqual([]);
    await close();
  });

  it('that is answered after it was put back changes nothing', async () => {
    const { page, errors, close } = await planPage();
    await slider(page, 'Outboard, pass 1').waitFor();
    const after = page.locator('.plan-after .plan-second').first();
    const computed = await after.textContent();
    let let_go: () => void = () => undefined;
    const held = new Promise<void>((resolve) => {
      let_go = resolve;
    });
    await page.route('**/foresight', async (route) => {
      await held;
      await route.continue();
    });
    await slider(page, 'Outboard, pass 1').focus();
    const answered = page.waitForResponse('**/foresight');
    await page.keyboard.press('End');
    await page.getByRole('button', { name: 'Back to the computed plan' }).click();
    let_go();
    await (await answered).finished();
    await twoFrames(page);
    expect(await after.textContent()).toBe(computed);
    expect(errors).toEqual([]);
    await close();
  });
});
