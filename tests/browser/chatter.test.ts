import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page, Response } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO_PASSWORD, freshFolder, type Json, type Served } from '../api/shop';
import { serveDemo } from './demo';
import { comeIn } from './door';
import { openBrowser, openPage, overflows, press, tabTo, tooSmall, type, violations } from './page';
import { wavOf } from './wav';

let browser: Browser;
let shop: Served;
let teacher: { id: string; name: string };
let folder: string;

beforeAll(async () => {
  browser = await openBrowser();
  folder = freshFolder();
  ({ shop, teacher } = await serveDemo());
});
afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

const PHONE = { width: 390, height: 844 };

interface Asked {
  name: string;
  body: Json;
  answer: Promise<Json>;
}

/** A page that remembers what it asked of the calculations, and what was answered. */
async function phone(touch: boolean) {
  const opened = await openPage(browser, { ...PHONE, touch });
  const asked: Asked[] = [];
  opened.page.on('response', (response: Response) => {
    const name = /\/calc\/([a-z-]+)$/.exec(new URL(response.url()).pathname)?.[1];
    if (name) asked.push({ name, body: response.request().postDataJSON(), answer: response.json() });
  });
  await comeIn(opened.page, shop.address, teacher.name, DEMO_PASSWORD);
  return { ...opened, asked };
}

function lastOf(asked: readonly Asked[], name: string): Asked {
  const found = asked.filter((one) => one.name === name).at(-1);
  if (!found) throw new Error(`${name} was not asked`);
  return found;
}

const faults = async (page: Page): Promise<string[]> => {
  const found = [...(await violations(page)), ...(await tooSmall(page, 44))];
  return (await overflows(page)) ? [...found, 'wider than the screen'] : found;
};

const limitShown = async (page: Page): Promise<number> =>
  Number.parseFloat((await page.locator('.chatter-limit').textContent()) ?? '');
const today = (page: Page) => page.locator('.chatter-today').textContent();
const slider = (page: Page) => page.getByRole('slider', { name: 'Depth of one side' });
const depthSet = async (page: Page) => Number(await slider(page).getAttribute('aria-valuenow'));

/** A disc that rings at one tone after a strike. */
function tapOf(hz: number, zeta: number, seconds = 3, rate = 44_100): Buffer {
  const strike = Math.round(0.2 * rate);
  const w = (2 * Math.PI * hz) / rate;
  return wavOf(seconds, rate, 7, (i, noise) => {
    const k = i - strike;
    const ringing = k < 0 ? 0 : 20_000 * Math.exp(-zeta * w * k) * Math.sin(w * Math.sqrt(1 - zeta ** 2) * k);
    return ringing + 20 * noise;
  });
}

const saved = (name: string, bytes: Buffer): string => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
};

describe('the page on chatter at 390 px', () => {
  it('is reached, asked and answered by the keyboard alone, and says what the shop reckons', async () => {
    const { page, errors, close, asked } = await phone(false);
    await press(page, 'Will it chatter?');
    await page.locator('.chatter-limit').waitFor();
    const with_band = await limitShown(page);
    const { limit, banded_mm } = await lastOf(asked, 'outlook').answer;
    expect(Math.abs(with_band - limit.mm)).toBeLessThanOrEqual(0.005);
    expect(limit.mm).toBe(banded_mm);

    const before = await depthSet(page);
    await tabTo(page, 'Depth of one side');
    await page.keyboard.press('ArrowUp');
    expect(await depthSet(page)).toBeCloseTo(before + 0.02, 9);
    expect(await today(page)).toContain(`${(before + 0.02).toFixed(2)} mm`);
    await page.keyboard.press('Home');
    expect(await today(page)).toContain('holds');
    await page.keyboard.press('End');
    await page.reload();
    await page.locator('.chatter-limit').waitFor();
    expect(await depthSet(page)).toBeCloseTo(0.5, 9);

    await tabTo(page, 'fitted and tight');
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => limitShown(page)).toBeLessThan(with_band / 3);
    expect(await today(page)).toContain('will sing');
    expect(page.url()).toContain('band=off');
    expect(await faults(page)).toEqual([]);
    expect(errors).toEqual([]);
    await close();
  });

  it('tells the disc’s marks from others, and answers nonsense at its field', async () => {
    const { page, errors, close } = await phone(false);
    await page.goto(`${shop.address}/chatter`);
    await tabTo(page, 'From its size');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await type(page, 'Length of ten gaps', 'many');
    await page.getByText('A number from 1 to 500.').waitFor();
    await page.getByLabel('Length of ten gaps').fill('12,5');
    const marks = { spacing_mm: 1.25, u_spacing_mm: 0.05, radius_mm: 112.5, rpm: 110 };
    const plate = { outer_mm: 140, inner_mm: 85, thickness_mm: 22, inner_edge: 'free', max_circles: 0 };
    const { marks: found } = await shop.want('POST', '/calc/disc-modes', { ...plate, e_gpa: 110, hat: true, marks });
    expect(found.diameters).toBe(2);
    await page.getByText(`${found.hz.toFixed(0)} Hz: ${found.per_turn.toFixed(0)} marks in one turn.`).waitFor();
    await page.getByText('Likely the disc, swinging with 2 lines at rest').waitFor();
    await page.locator('.chatter-second', { hasText: `${found.hz.toFixed(0)} Hz` }).waitFor();
    await page.getByText('Fit the damping band, or pull it tighter').waitFor();
    expect(await faults(page)).toEqual([]);

    await page.getByLabel('Length of ten gaps').fill('70');
    await page.getByText('No mode of the disc alone.').waitFor();
    await page.getByText('so its size goes on telling').waitFor();
    await page.getByText('Hold the tools shorter').waitFor();
    expect(errors).toEqual([]);
    await close();
  });

  it('of a job follows a finger, and hears in two taps how the disc rings and what its band is worth', async () => {
    const { lines } = await shop.want('GET', '/jobs?state=open&limit=100');
    const { number, id } = lines.find((one: Json) => one.waits_for === 'cut').job;
    const [plan] = (await shop.want('GET', `/jobs/${id}`)).cut_plans;
    const { page, errors, close, asked } = await phone(true);
    await page.goto(`${shop.address}/jobs/${number}/plan?part=left`);
    await page.getByRole('link', { name: 'Will it chatter?' }).tap();
    await page.locator('.chatter-limit').waitFor();
    const deepest = [...plan.passes].sort((a: Json, b: Json) => b.outboard_marks - a.outboard_marks)[0];
    expect(lastOf(asked, 'outlook').body.feed_mm_per_rev).toBe(deepest.feed_mm_per_rev);

    await page.getByRole('radio', { name: 'From a tap' }).tap();
    const file = page.locator('input[type=file]');
    await file.setInputFiles(saved('letter.wav', Buffer.from('Dear sir or madam')));
    await page.getByRole('alert').waitFor();
    await file.setInputFiles(saved('alone.wav', tapOf(980, 0.002)));
    await page.getByText('980 Hz, damping 0.20 %').waitFor();
    await page.locator('.chatter-second', { hasText: '980 Hz' }).waitFor();
    await page.getByRole('radio', { name: 'with the band on' }).tap();
    await file.setInputFiles(saved('banded.wav', tapOf(975, 0.014)));
    await page.getByText('Heard: the band multiplies the damping by 7.').waitFor();
    await expect.poll(() => lastOf(asked, 'outlook').body.ring.band_heard).toBe(true);
    const { zeta, band_factor } = lastOf(asked, 'outlook').body.ring;
    expect(zeta).toBeCloseTo(0.002, 4);
    expect(zeta * band_factor).toBeCloseTo(0.014, 3);

    await page.reload();
    await page.getByText('Heard: the band multiplies the damping by 7.').waitFor();
    await page.locator('.chatter-second', { hasText: '980 Hz' }).waitFor();
    expect(await page.getByRole('radio', { name: 'with the band on' }).getAttribute('aria-checked')).toBe('true');

    await dragTo(page, 0.3);
    expect(Math.abs((await depthSet(page)) - 0.3)).toBeLessThan(0.03);
    expect(await today(page)).toContain(`${(await depthSet(page)).toFixed(2)} mm`);
    expect(await faults(page)).toEqual([]);
    const on = page.getByRole('link', { name: 'On with the cut' });
    expect(await on.getAttribute('href')).toBe(`/jobs/${number}/cut?part=left`);
    expect(errors).toEqual([]);
    await close();
  });
});

/** Lays a finger on the line of today's depth and moves it to another depth. */
async function dragTo(page: Page, mm: number): Promise<void> {
  await slider(page).scrollIntoViewIfNeeded();
  const box = await slider(page).boundingBox();
  const plane = await page.locator('.chatter-plane').boundingBox();
  if (!box || !plane) throw new Error('the line is not drawn');
  const x = box.x + box.width / 2;
  const from = box.y + box.height / 2;
  const per_mm = (plane.y + plane.height - 58 - from) / (await depthSet(page));
  const to = plane.y + plane.height - 58 - mm * per_mm;
  const finger = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove', y: number) =>
    finger.send('Input.dispatchTouchEvent', { type, touchPoints: [{ x, y }] });
  await touch('touchStart', from);
  for (let k = 1; k <= 10; k += 1) await touch('touchMove', from + ((to - from) * k) / 10);
  await finger.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
}
