import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { newJob, openJob, type Scene, setScene } from '../api/scene';
import { freshFolder, type Json, Served } from '../api/shop';
import { openBrowser, openPage, overflows, press, shot, tabTo, tooSmall, violations } from './page';

let shop: Served;
let scene: Scene;
let browser: Browser;
let job: Json;
let open: { page: Page; errors: string[]; close: () => Promise<void> }[] = [];

beforeAll(async () => {
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  browser = await openBrowser();
});
afterAll(async () => {
  await browser.close();
  await shop.stop();
});
beforeEach(() => {
  open = [];
});
afterEach(async () => {
  for (const one of open) {
    expect(one.errors).toEqual([]);
    await one.close();
  }
});

/** A tablet at the bench, with somebody named at it. */
async function tablet(at: string, looks: Parameters<typeof openPage>[1] = { width: 820, height: 1180 }) {
  const opened = await openPage(browser, looks);
  open.push(opened);
  await opened.page.addInitScript((id) => localStorage.setItem('brakewright/person', id), scene.by);
  await opened.page.goto(`${shop.address}${at}`);
  await opened.page.waitForSelector('.screen');
  return opened.page;
}

const before = (rest = '') => `/jobs/${job.job.number}/before?part=left${rest}`;
const stored = async (): Promise<Json[]> => (await shop.want('GET', `/jobs/${job.job.id}`)).readings;
const current = async () =>
  (await stored())
    .filter((one) => one.state === 'current')
    .map((one) => `${one.circle}/${one.point} ${one.value.text}`);
const place = (page: Page) => page.locator('.reading-place').textContent();

/** Waits until the shop holds so many readings that count. */
async function counted(n: number): Promise<string[]> {
  await expect.poll(async () => (await current()).length, { timeout: 20_000 }).toBe(n);
  return current();
}

/** As a hand types: one key after another, then Enter. */
async function byHand(page: Page, text: string) {
  await page.keyboard.type(text, { delay: 70 });
  await page.keyboard.press('Enter');
}

/** As a gauge's cable types, all keys within the same few milliseconds. */
async function byGauge(page: Page, text: string, end: 'Enter' | 'Tab' = 'Enter') {
  await page.evaluate(
    ([keys, last]) => {
      for (const key of [...(keys ?? ''), last ?? '']) {
        const target = document.activeElement ?? document.body;
        const down = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
        const typed = target.dispatchEvent(down) && key.length === 1 && target instanceof HTMLInputElement;
        if (!typed) continue;
        target.value += key;
        target.dispatchEvent(new Event('input', { bubbles: true }));
      }
    },
    [text, end],
  );
}

describe('a rotor that nobody has gone round yet', () => {
  beforeEach(async () => {
    job = await shop.want('POST', `/jobs?by_person_id=${scene.by}`, newJob(scene));
  });

  test('is gone round with the keyboard alone, from the zero check to the last point', async () => {
    const page = await tablet(before(), { width: 1440 });
    await page.waitForSelector('.setup');
    await tabTo(page, 'It shows');
    await page.keyboard.type('0.002');
    await page.keyboard.press('Enter');
    await expect
      .poll(async () => (await shop.want('GET', '/zero-checks')).length, { timeout: 20_000 })
      .toBeGreaterThan(0);
    await press(page, 'Begin to measure');
    await page.waitForSelector('.reading');
    const texts = ['21.412', '21.418', '21.421', '21.417', '21.409', '21.405', '21.404', '21.408'];
    for (const [i, text] of texts.entries()) {
      expect(await place(page)).toBe(`Point ${i + 1} of 8`);
      await byHand(page, text);
    }
    await page.getByText('Thickness: every point is read').waitFor();
    expect(await counted(8)).toEqual(texts.map((text, i) => `0/${i} ${text}`));
    expect((await stored())[0].zero_check_id).not.toBeNull();
    await press(page, 'Next: runout outboard');
    expect(await place(page)).toBe('Point 1 of 8');
  });
});

describe('at the bench', () => {
  beforeEach(async () => {
    job = await openJob(shop, scene);
  });

  test('a gauge on a cable is heard wherever the focus is, and the next point is lit', async () => {
    const page = await tablet(before());
    await page.waitForSelector('.reading');
    await byGauge(page, '21.412');
    await page.getByRole('radio', { name: /Thickness/ }).focus();
    await byGauge(page, '21.418', 'Tab');
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await byGauge(page, '  21.421mm ');
    expect(await counted(3)).toEqual(['0/0 21.412', '0/1 21.418', '0/2 21.421mm']);
    expect(await place(page)).toBe('Point 4 of 8');
    expect(await page.evaluate(() => document.activeElement?.className)).toContain('reading-digits');
  });

  test('a wrong key loses nothing: neither the focus nor what was typed', async () => {
    const page = await tablet(before());
    await page.waitForSelector('.reading');
    for (const key of ['x', 'F2', 'Shift', 'Home', 'PageDown', 'Insert', '#']) await page.keyboard.press(key);
    await page.keyboard.type('21.4', { delay: 60 });
    for (const key of ['F2', 'Shift', 'CapsLock', 'PageUp']) await page.keyboard.press(key);
    await byHand(page, '12');
    expect(await counted(1)).toEqual(['0/0 21.412']);
  });

  test('the same burst twice within a moment is asked about', async () => {
    const page = await tablet(before());
    await page.waitForSelector('.reading');
    await byGauge(page, '21.412');
    await byGauge(page, '21.412');
    await page.waitForSelector('.question');
    await page.keyboard.press('r');
    await page.waitForSelector('.reading');
    await byGauge(page, '21.413');
    expect(await counted(2)).toEqual(['0/0 21.412', '0/1 21.413']);
  });

  test('a doubtful reading is asked about at once: R types it again, K keeps it with the doubt noted', async () => {
    const page = await tablet(before());
    await page.waitForSelector('.reading');
    for (const text of ['21.412', '21.418', '21.415']) await byHand(page, text);
    await byHand(page, '20.915');
    await page.waitForSelector('.question');
    expect(await current()).toHaveLength(3);
    await page.keyboard.press('r');
    await page.waitForSelector('.reading');
    expect(await place(page)).toBe('Point 4 of 8');
    await byHand(page, '20.916');
    await page.waitForSelector('.question');
    await page.keyboard.press('k');
    expect(await counted(4)).toContain('0/3 20.916');
    expect((await stored()).at(-1).confirmed_doubts).not.toEqual([]);
  });

  test('what is no length is asked for again, where it was typed', async () => {
    const page = await tablet(before());
    await page.waitForSelector('.reading');
    await byHand(page, '21.4.12');
    await page.waitForSelector('.question');
    await page.keyboard.press('r');
    await byHand(page, '21.412');
    expect(await counted(1)).toEqual(['0/0 21.412']);
  });

  test('Backspace takes the last reading back; it stays on record', async () => {
    const page = await tablet(before());
    await page.waitForSelector('.reading');
    await byHand(page, '21.412');
    await byHand(page, '21.418');
    await counted(2);
    await page.keyboard.press('Backspace');
    expect(await counted(1)).toEqual(['0/0 21.412']);
    expect(await place(page)).toBe('Point 2 of 8');
    expect((await stored()).map((one) => one.state)).toEqual(['current', 'withdrawn']);
  });

  test('a point with a reading takes another one in its place, or beside it', async () => {
    const page = await tablet(before());
    await page.waitForSelector('.reading');
    await byHand(page, '21.412');
    await byHand(page, '21.418');
    await counted(2);
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    expect(await place(page)).toBe('Point 1 of 8');
    await byHand(page, '21.410');
    expect(await counted(2)).toContain('0/0 21.410');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowRight');
    expect(await place(page)).toBe('Point 2 of 8');
    await page.getByRole('button', { name: 'is a repeat' }).click();
    await byHand(page, '21.419');
    expect((await counted(3)).filter((one) => one.startsWith('0/1'))).toEqual(['0/1 21.418', '0/1 21.419']);
  });

  test('without a connection the readings wait in the page, and go through once each when it is back', async () => {
    const page = await tablet(before());
    await page.waitForSelector('.reading');
    await byHand(page, '21.412');
    await counted(1);
    await page.context().setOffline(true);
    for (const text of ['21.418', '21.421', '21.417']) await byHand(page, text);
    await page.getByText('3 waiting in this page').waitFor();
    expect(await place(page)).toBe('Point 5 of 8');
    expect(await current()).toHaveLength(1);
    await page.context().setOffline(false);
    expect(await counted(4)).toEqual(['0/0 21.412', '0/1 21.418', '0/2 21.421', '0/3 21.417']);
    await page.getByText('All saved').waitFor();
    expect(await stored()).toHaveLength(4);
  });

  test('two tablets on one rotor see each other’s readings, and neither loses one', async () => {
    const one = await tablet(before());
    const other = await tablet(before());
    await Promise.all([one.waitForSelector('.reading'), other.waitForSelector('.reading')]);
    await byHand(one, '21.412');
    await expect.poll(() => place(other), { timeout: 20_000 }).toBe('Point 2 of 8');
    await byHand(other, '21.418');
    await expect.poll(() => place(one), { timeout: 20_000 }).toBe('Point 3 of 8');
    expect(await counted(2)).toEqual(['0/0 21.412', '0/1 21.418']);
  });

  test('every figure opens into its readings, its formula and its source', async () => {
    const page = await tablet(before());
    await page.waitForSelector('.reading');
    for (const text of ['21.412', '21.418', '21.421', '21.417', '21.409', '21.405', '21.404', '21.408']) {
      await byGauge(page, text);
    }
    await counted(8);
    await page.locator('.number').first().waitFor();
    const names = await page.locator('.number-label').allInnerTexts();
    expect(names).toEqual(
      expect.arrayContaining(['Lowest', 'Variation', 'Probably truly', 'This micrometer', 'Mean', 'Blind to']),
    );
    for (const name of names) {
      await page.locator('.number', { has: page.getByText(name, { exact: true }) }).click();
      const sheet = page.locator('dialog[open]');
      await sheet.getByRole('heading', { name: 'How it is worked out' }).waitFor();
      expect(await sheet.locator('.reading-row').count()).toBe(8);
      expect(await violations(page)).toEqual([]);
      await page.keyboard.press('Escape');
      await sheet.waitFor({ state: 'detached' });
    }
  });
});

describe('with a finger at 390 px', () => {
  test('a rotor is gone round on the page’s own keys, none of them too small', async () => {
    job = await openJob(shop, scene, ['left']);
    const page = await tablet(before(), { width: 390, height: 844, touch: true });
    await page.waitForSelector('.keypad');
    for (const text of ['21.412', '21.418', '21.421']) {
      for (const key of text) {
        await page.locator('.keypad button', { hasText: new RegExp(`^[${key}]$`) }).tap();
      }
      await page.getByRole('button', { name: 'Enter' }).tap();
    }
    expect(await counted(3)).toEqual(['0/0 21.412', '0/1 21.418', '0/2 21.421']);
    expect(await overflows(page)).toBe(false);
    expect(await tooSmall(page, 44)).toEqual([]);
    const ring = page.locator('.measure-ring .ring');
    const { width = 0, height = 0 } = (await ring.boundingBox()) ?? {};
    await ring.tap({ position: { x: width / 2, y: height * 0.2 } });
    await page.getByRole('button', { name: 'replaces it' }).waitFor();
    expect(await place(page)).toBe('Point 1 of 8');
  });
});

describe('as it is seen and heard', () => {
  const sizes = [
    { width: 390, height: 844, touch: true },
    { width: 820, height: 1180, touch: true },
    { width: 1440, height: 900 },
  ];
  for (const theme of ['light', 'dark'] as const) {
    test.each(sizes)(`in ${theme} at $width px it is one page that a screen reader can follow`, async (size) => {
      job = await shop.want('POST', `/jobs?by_person_id=${scene.by}`, newJob(scene));
      const name = `measure-${size.width}-${theme}`;
      const page = await tablet(before(), { ...size, theme });
      await page.waitForSelector('.setup');
      expect(await violations(page)).toEqual([]);
      await shot(page, `${name}-setup`);
      job = await openJob(shop, scene);
      await page.goto(`${shop.address}${before()}`);
      await page.waitForSelector('.reading');
      for (const text of ['21.412', '21.418', '21.421', '21.417', '21.409']) await byGauge(page, text);
      await counted(5);
      await page.locator('.number').first().waitFor();
      await page.keyboard.type('21.40', { delay: 60 });
      expect(await overflows(page)).toBe(false);
      expect(await violations(page)).toEqual([]);
      const digits = await page
        .locator('.reading-digits')
        .evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
      expect(digits).toBeGreaterThanOrEqual(size.width < 700 ? 48 : 90);
      await shot(page, name);
      await page.keyboard.press('Escape');
      await byHand(page, '20.905');
      await page.waitForSelector('.question');
      expect(await violations(page)).toEqual([]);
      await shot(page, `${name}-question`);
    });
  }
});
