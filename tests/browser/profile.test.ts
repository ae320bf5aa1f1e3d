import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openJob, putPlan, type Scene, setScene } from '../api/scene';
import { freshFolder, type Json, Served } from '../api/shop';
import { openBrowser, openPage, overflows, press, shot, tooSmall, violations } from './page';

let browser: Browser;
let shop: Served;
let scene: Scene;
let job: Json;

beforeAll(async () => {
  browser = await openBrowser();
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  job = await openJob(shop, scene);
  await putPlan(shop, scene, job.job.id, job.parts[0].id, 'after');
});

afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

/** Marks of a round nose, 0.16 mm apart and 4 um high: Ra 4 h/(9 sqrt 3) = 1.03 um by geometry. */
const marks = (points: number) =>
  [
    'x_mm,z_um',
    ...Array.from({ length: points }, (_, i) => {
      const in_mark = (((i * 2) % 160) - 80) / 80;
      return `${(i * 0.002).toFixed(3)},${(4 * in_mark * in_mark).toFixed(4)}`;
    }),
  ].join('\n');

const roughnesses = async (): Promise<string[]> =>
  ((await shop.want('GET', `/jobs/${job.job.id}`)).readings as Json[])
    .filter((one) => one.state === 'current')
    .map((one) => `${one.quantity} ${one.value.text}`);

/** As a hand pastes: the browser's own event, with the text on the clipboard. */
const paste = (page: Page, text: string) =>
  page.getByLabel('Or paste it').evaluate((field, pasted) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', pasted);
    field.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  }, text);
const empty = (page: Page) => page.getByLabel('Or paste it').fill('');

describe('a stylus profile', () => {
  test.each([
    ['phone', { width: 360, touch: true }],
    ['tablet', { width: 1180, theme: 'dark' as const }],
  ])('is taken for a reading of each face, and nonsense is told: %s', async (name, looks) => {
    const { page, errors, close } = await openPage(browser, looks);
    await page.addInitScript((id) => localStorage.setItem('brakewright/person', id), scene.by);
    await page.goto(`${shop.address}/jobs/${job.job.number}/after?part=left&of=roughness`);
    const before = (await roughnesses()).length;
    await page.getByText('From a profile').click();
    await paste(page, 'x_mm;z_um\n0,000;1,5\n0,001;2,5');
    await page.getByText('decimal commas').waitFor();
    await empty(page);
    await paste(page, '0,1.5\n0.002,2.5\n0.004,1');
    await page.getByText('too short').waitFor();
    await empty(page);
    await paste(page, marks(2400));
    await page.getByText('1.03 µm').first().waitFor();
    await page.getByRole('figure', { name: 'Roughness, with the mean line taken out' }).waitFor();
    await page.getByText('ISO 4288').waitFor();
    await expect.poll(() => overflows(page)).toBe(false);
    expect(await violations(page)).toEqual([]);
    expect(await tooSmall(page, 44)).toEqual([]);
    await shot(page, `profile-${name}`);
    if (before === 0) {
      await press(page, 'Take Ra 1.03 µm for Roughness Ra, outboard');
      await expect.poll(roughnesses, { timeout: 20_000 }).toEqual(['roughness_outboard 1.03 µm']);
      await page.getByLabel('Choose a file').setInputFiles({
        name: 'inboard.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from(marks(2400)),
      });
      await press(page, 'Take Ra 1.03 µm for Roughness Ra, inboard');
      await expect.poll(async () => (await roughnesses()).length, { timeout: 20_000 }).toBe(2);
    } else {
      await page.getByText('Every face is read').waitFor();
    }
    expect(errors).toEqual([]);
    await close();
  });
});
