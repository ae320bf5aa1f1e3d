import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type Scene, setScene } from '../api/scene';
import { freshFolder, type Json, newId, Served } from '../api/shop';
import { type Looks, openBrowser, openPage, overflows, tooSmall, violations } from './page';

/** Twenty people, five parts, two rounds: all invented. */
const PEOPLE = 20;
const SIZES_MM = [20.112, 20.54, 21.035, 21.488, 22.017];
const ROUNDS = 2;
const EACH = SIZES_MM.length * ROUNDS;

let browser: Browser;
let shop: Served;
let scene: Scene;
let as: string;
let students: string[];
let size_mm: Map<string, number>;
let tablets: { errors: string[]; close: () => Promise<void> }[];

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
  as = `?by_person_id=${scene.by}`;
  students = [];
  size_mm = new Map();
  for (let k = 0; k < PEOPLE; ++k) {
    const id = newId();
    students.push(id);
    await shop.want('PUT', `/people/${id}${as}`, { id, name: `Student ${k + 1}`, role: 'student', active: true });
  }
  for (const [k, mm] of SIZES_MM.entries()) {
    const id = newId();
    size_mm.set(id, mm);
    await shop.want('PUT', `/reference-parts/${id}${as}`, {
      id,
      name: `Block ${'ABCDE'[k]}`,
      place_words: 'on the painted dot',
      reference: { text: mm.toFixed(3), unit: 'mm' },
      expanded_uncertainty_nm: 1000,
      source: 'measured against gauge blocks',
      active: true,
    });
  }
});
afterEach(async () => {
  for (const one of tablets) {
    expect(one.errors).toEqual([]);
    await one.close();
  }
  await shop.stop();
});

async function newStudy(): Promise<Json> {
  const id = newId();
  const view = await shop.want('PUT', `/studies/${id}${as}`, {
    id,
    name: 'First week',
    reference_part_ids: [...size_mm.keys()],
    person_ids: students,
    instrument_ids: [scene.micrometer],
    repeats: ROUNDS,
    closed: false,
    tolerance: { text: '0.4', unit: 'mm' },
  });
  return view.study;
}

async function tabletOf(person_id: string, looks: Looks): Promise<Page> {
  const opened = await openPage(browser, looks);
  tablets.push(opened);
  await opened.page.addInitScript((id) => localStorage.setItem('brakewright/person', id), person_id);
  return opened.page;
}

/** What a hand reads there, a few micrometres about the part's size by a fixed pattern. */
const textAt = (part_id: string, turn: number) =>
  ((size_mm.get(part_id) as number) + (((turn * 7) % 5) - 2) / 1000).toFixed(3);

const nextOf = (study: Json, person_id: string): Promise<Json> =>
  shop.want('GET', `/studies/${study.id}/next?person_id=${person_id}`);

/** One of the class without a screen of its own: reads to the end. */
async function readThrough(study: Json, person_id: string, number: number): Promise<void> {
  const { ahead } = await nextOf(study, person_id);
  for (const [turn, place] of ahead.entries()) {
    const { reference_part_id, instrument_id, repeat } = place;
    const text = textAt(reference_part_id, turn + number);
    const body = { id: newId(), person_id, reference_part_id, instrument_id, repeat, text, default_unit: 'mm' };
    await shop.want('POST', `/studies/${study.id}/readings?by_person_id=${person_id}`, body);
  }
}

/** A network between this tablet and the shop that carries each reading twice. */
const doubling = (page: Page) =>
  page.route(/\/studies\/[^/]+\/readings/, async (route) => {
    await route.fetch();
    await route.continue();
  });

const count = (page: Page) => page.locator('.blind-count').textContent();

/** Slower than a gauge's cable, so that keys which a machine with twenty browsers holds up are not taken for a burst. */
const KEY_MS = 60;

/** Types what is asked for as a hand does, place after place; the count tells that each was taken. */
async function typeOn(page: Page, order: readonly Json[], from: number, to: number): Promise<void> {
  for (let turn = from; turn < to; ++turn) {
    await expect.poll(() => count(page), { timeout: 30_000 }).toBe(`Reading ${turn + 1} of ${EACH}`);
    await page.keyboard.type(textAt(order[turn].reference_part_id, turn), { delay: KEY_MS });
    await page.keyboard.press('Enter', { delay: KEY_MS });
  }
}

const expectWhole = async (study: Json) => {
  const view = await shop.want('GET', `/studies/${study.id}`);
  expect(view.progress).toEqual(students.map((person_id) => ({ person_id, done: EACH, of: EACH })));
  const { readings } = await shop.want('GET', `/studies/${study.id}/answer`);
  expect(readings).toHaveLength(PEOPLE * EACH);
  const places = readings.map((one: Json) => `${one.person_id} ${one.reference_part_id} ${one.repeat}`);
  expect(new Set(places).size).toBe(PEOPLE * EACH);
  expect(new Set(readings.map((one: Json) => one.id)).size).toBe(PEOPLE * EACH);
  return readings as Json[];
};

describe('a study on twenty tablets at once', () => {
  it('loses nothing and takes nothing twice though one of them is cut off from the shop and comes back', async () => {
    const study = await newStudy();
    const orders = await Promise.all(students.map(async (id) => (await nextOf(study, id)).ahead as Json[]));
    const pages = await Promise.all(students.map((id) => tabletOf(id, { width: 1024 })));
    await Promise.all(pages.map((page) => page.goto(`${shop.address}/studies/${study.id}/measure`)));

    const cutOff = async (page: Page, order: readonly Json[]) => {
      await typeOn(page, order, 0, 3);
      await page.context().setOffline(true);
      await typeOn(page, order, 3, 8);
      await page.getByRole('button', { name: 'Take back the last one' }).click();
      await typeOn(page, order, 7, EACH);
      await page.getByText(/still wait here to be sent/).waitFor();
      expect((await nextOf(study, students[0] as string)).done).toBeLessThanOrEqual(3);
      await page.context().setOffline(false);
    };
    const [first, ...others] = pages as [Page, ...Page[]];
    await doubling(others[0] as Page);
    await Promise.all([
      cutOff(first, orders[0] as Json[]),
      ...others.map((page, k) => typeOn(page, orders[k + 1] as Json[], 0, EACH)),
    ]);
    for (const page of pages) {
      await page.getByRole('heading', { name: 'All read' }).waitFor();
      await expect.poll(() => page.getByText(/wait here to be sent/).count(), { timeout: 20_000 }).toBe(0);
    }

    const readings = await expectWhole(study);
    for (const [k, person_id] of students.entries()) {
      const own = readings.filter((one) => one.person_id === person_id);
      for (const [turn, place] of (orders[k] as Json[]).entries()) {
        const one = own.find((r) => r.reference_part_id === place.reference_part_id && r.repeat === place.repeat);
        expect(one?.value.text).toBe(textAt(place.reference_part_id, turn));
      }
    }
  });
});

describe('the blind place of a student', () => {
  it('shows neither an earlier reading nor a reference, fits a thumb, and asks about what cannot be', async () => {
    const study = await newStudy();
    const me = students[0] as string;
    const order = (await nextOf(study, me)).ahead as Json[];
    const page = await tabletOf(me, { width: 360, height: 740, touch: true });
    await page.goto(`${shop.address}/studies/${study.id}/measure`);
    for (const key of textAt(order[0].reference_part_id, 0)) {
      await page
        .locator('.keypad')
        .getByRole('button', { name: key === '.' ? 'Decimal point' : key, exact: true })
        .tap();
    }
    await page.locator('.keypad').getByRole('button', { name: 'Enter' }).tap();
    await expect.poll(() => count(page)).toBe(`Reading 2 of ${EACH}`);
    const shown = (await page.locator('main').textContent()) ?? '';
    expect(shown).not.toContain(textAt(order[0].reference_part_id, 0));
    for (const mm of SIZES_MM) expect(shown).not.toContain(mm.toFixed(3));
    expect(await overflows(page)).toBe(false);
    expect(await tooSmall(page, 44)).toEqual([]);
    expect(await violations(page)).toEqual([]);

    await page.keyboard.type('3.2');
    await page.keyboard.press('Enter');
    await page.getByText(/cannot be that size/).waitFor();
    await page.keyboard.press('r');
    await page.keyboard.type('2x');
    await page.keyboard.press('Enter');
    await page.getByRole('alertdialog').waitFor();
    await page.keyboard.press('r');
    expect(await count(page)).toBe(`Reading 2 of ${EACH}`);
    expect((await nextOf(study, me)).done).toBe(1);
  });
});

describe('the answer of a study', () => {
  it('is kept from a student while it is open, and shows their own result once it is closed', async () => {
    const study = await newStudy();
    await Promise.all(students.map((id, k) => readThrough(study, id, k)));
    const page = await tabletOf(students[3] as string, { width: 390 });
    await page.goto(`${shop.address}/studies/${study.id}`);
    await page.getByText('The answer is shown once your teacher closes the study.').waitFor();
    expect(await page.locator('.study-answer').count()).toBe(0);

    const teacher = await tabletOf(scene.by, { width: 1280 });
    await teacher.goto(`${shop.address}/studies/${study.id}`);
    await teacher.getByRole('button', { name: 'Close the study' }).click();
    await teacher.getByRole('button', { name: 'Yes, close it' }).click();
    await page.getByRole('heading', { name: 'Your result' }).waitFor();
    const { figures, people } = await shop.want('GET', `/studies/${study.id}/answer`);
    const share = figures.percent_tolerance.value as number;
    expect(await page.locator('.study-percent').textContent()).toBe(share.toFixed(share < 10 ? 1 : 0));
    const own = people.find((one: Json) => one.id === students[3]);
    await page.getByText(`${own.parts_within} of ${SIZES_MM.length} parts within`).first().waitFor();
    expect(await overflows(page)).toBe(false);
    expect(await violations(page)).toEqual([]);
    expect(await violations(teacher)).toEqual([]);
  });
});
