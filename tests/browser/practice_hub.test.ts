import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { setScene } from '../api/scene';
import { freshFolder, type Json, Served } from '../api/shop';
import { openBrowser, openPage, overflows, shot, tooSmall, violations } from './page';
import { addPerson, addSet, readRun, runIdOf, stackOf } from './practice_hand';

let browser: Browser;
let shop: Served;
let teacher: string;
const SET = 'Races of a hub';
const LEAST_TARGET_PX = 44;
const RUN_MS = 180_000;

beforeAll(async () => {
  browser = await openBrowser();
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  teacher = (await setScene(shop)).by;
  await addSet(shop, teacher, SET, ['wobble', 'pitted_races']);
});
afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });

async function wrongHere(page: Page): Promise<string[]> {
  const wrong = [...(await violations(page)), ...(await tooSmall(page, LEAST_TARGET_PX))];
  return (await overflows(page)) ? [...wrong, 'wider than the screen'] : wrong;
}

it(
  'a part with its hub goes by touch from the pits in its races to the car',
  async () => {
    const student = await addPerson(shop, teacher, 'Ivo Brook');
    const { page, errors, close } = await openPage(browser, { width: 390, touch: true });
    await page.addInitScript((id) => localStorage.setItem('brakewright/person', id), student);
    await page.goto(`${shop.address}/practice`);
    await button(page, `Begin this set: ${SET}`).tap();
    await button(page, 'Look at the part').tap();
    await page.getByText('Pits in the bearing races: do not cut on them').waitFor();
    expect(await wrongHere(page)).toEqual([]);
    await shot(page, 'practice_hub_measure_390');
    const id = runIdOf(page);
    const stage = (name: string) =>
      page.getByRole('navigation', { name: 'Where you stand' }).getByRole('button', { name });
    await stage('Decide').tap();
    await button(page, /^Cut it/).tap();
    await page.getByText('Decided').waitFor();
    await stage('Mount').tap();
    await page.getByText('Tapers bear in the races, never on the bore of the hub.').waitFor();
    await button(page, 'Drive in new races').tap();
    await page.getByText('New races are in, clean.').waitFor();
    await button(page, 'Wipe part and pieces clean').tap();
    for (const piece of await stackOf(shop, await readRun(shop, id))) await button(page, `Put on: ${piece} `).tap();
    expect(await wrongHere(page)).toEqual([]);
    await shot(page, 'practice_hub_mount_390');
    await button(page, 'Mount it').tap();
    await page.getByRole('heading', { name: 'The part is on the arbor.' }).waitFor();
    await button(page, 'Read the runout').tap();
    await page.getByText('peak to valley').waitFor();
    await stage('After').tap();
    await button(page, 'Take it off').tap();
    await page.getByText('there is no position to choose').waitFor();
    await page.getByRole('radio', { name: 'cleaned and packed anew' }).tap();
    await page.getByRole('radio', { name: /^in stages across the star/ }).tap();
    await button(page, 'Put it on').tap();
    await page.getByText('Runout on the car').waitFor();
    expect(await wrongHere(page)).toEqual([]);
    await shot(page, 'practice_hub_after_390');
    await button(page, 'Hand it over').tap();
    await button(page, 'Hand it over now?').tap();
    await page.getByText('of 100 points').waitFor();
    await page.getByText('Pitted races').waitFor();
    const run = await readRun(shop, id);
    const done = run.acts.map((one: Json) => one.act);
    expect(done).toContainEqual({ do: 'refit', position: 0, hub_cleaned: true, nuts_in_star: true });
    expect(done.map((act: Json) => act.do)).toContain('renew_races');
    expect(errors).toEqual([]);
    await close();
  },
  RUN_MS,
);
