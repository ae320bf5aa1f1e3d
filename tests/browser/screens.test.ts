import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { done, freshFolder, Served } from '../api/shop';
import { openBrowser, openPage, overflows, shot, type Theme, tooSmall, violations } from './page';

let browser: Browser;
let shop: Served;
let addresses: Record<string, string>;
let teacher: string;

interface Line {
  job: { number: number };
  waits_for: string;
}

beforeAll(async () => {
  browser = await openBrowser();
  const file = join(freshFolder(), 'shop.sqlite');
  done(['demo', '--shop', file]);
  shop = await Served.start(file);
  const view = await shop.want('GET', '/shop');
  teacher = view.people.find((one: { role: string }) => one.role === 'teacher').id;
  const open: Line[] = (await shop.want('GET', '/jobs?state=open&limit=100')).lines;
  const closed: Line[] = (await shop.want('GET', '/jobs?state=sealed&limit=40')).lines;
  addresses = addressesOf(open, closed, view.lathes[0].id);
});

afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

/** Every view of the page, with a job of the demo shop in the state that it is made for. */
function addressesOf(open: Line[], closed: Line[], lathe: string): Record<string, string> {
  const any = open.at(-1)?.job.number;
  // The oldest: the newest open jobs are of other kinds.
  const at = (waits_for: string) => open.filter((one) => one.waits_for === waits_for).at(-1)?.job.number ?? any;
  const sealed = closed[0]?.job.number;
  return {
    board: '/',
    new_job: '/jobs/new',
    arrival: `/jobs/${any}/arrival`,
    detective: `/jobs/${any}/detective`,
    limits: `/jobs/${at('decision')}/limits`,
    limits_unknown: `/jobs/${at('limits')}/limits`,
    look: `/jobs/${at('findings')}/look`,
    before: `/jobs/${at('readings')}/before`,
    car: `/jobs/${at('readings')}/car`,
    verdict: `/jobs/${at('decision')}/verdict`,
    verdict_not_yet: `/jobs/${at('limits')}/verdict`,
    verdict_decided: `/jobs/${at('readings_after')}/verdict`,
    cut: `/jobs/${at('readings_after')}/cut`,
    cut_by_hand: `/jobs/${at('readings_after')}/by_hand`,
    cut_to_plan: `/jobs/${at('cut')}/cut`,
    plan: `/jobs/${at('plan')}/plan`,
    finish: `/jobs/${at('finish')}/finish`,
    after: `/jobs/${at('readings_after')}/after`,
    check: `/jobs/${at('seal')}/check`,
    refit: `/jobs/${at('refit')}/refit`,
    refit_steps: `/jobs/${at('refit')}/refit?view=steps`,
    refit_unread: `/jobs/${at('readings_after')}/refit`,
    road: `/jobs/${at('seal')}/road`,
    record: `/jobs/${at('seal')}/record`,
    record_sealed: `/jobs/${sealed}/record`,
    shop: '/shop',
    people: '/shop/people',
    instruments: '/shop/instruments',
    lathes: '/shop/lathes',
    study: `/shop/lathes/${lathe}/study`,
    plates: '/shop/plates',
    rules: '/shop/rules',
    backups: '/shop/backups',
    exports: '/shop/exports',
    appearance: '/shop/appearance',
    gauge: '/shop/gauge',
    nothing_here: '/nowhere',
  };
}

const LEAST_TARGET_PX = 44;
const SETTLED_MS = 300;

describe.each<{ width: number; theme: Theme }>([
  { width: 390, theme: 'light' },
  { width: 390, theme: 'dark' },
  { width: 820, theme: 'light' },
  { width: 820, theme: 'dark' },
  { width: 1440, theme: 'light' },
  { width: 1440, theme: 'dark' },
])('every view at $width px, $theme', ({ width, theme }) => {
  it('has nothing that axe finds wrong, nothing too small to hit, and nothing wider than the screen', async () => {
    const { page, errors, close } = await openPage(browser, { width, theme, touch: width < 500 });
    await page.addInitScript((id) => localStorage.setItem('brakewright/person', id), teacher);
    const wrong: string[] = [];
    for (const [name, path] of Object.entries(addresses)) {
      await page.goto(shop.address + path);
      await page.locator('main').waitFor();
      await page.locator('.moment').waitFor({ state: 'detached' });
      await page.waitForTimeout(SETTLED_MS);
      for (const details of await page.locator('details').all()) {
        await details.evaluate((one) => one.setAttribute('open', ''));
      }
      wrong.push(...(await violations(page)).map((one) => `${name}: ${one}`));
      wrong.push(...(await tooSmall(page, LEAST_TARGET_PX)).map((one) => `${name}: ${one}`));
      if (await overflows(page)) wrong.push(`${name}: wider than the screen`);
      await page.reload();
      await page.locator('main').waitFor();
      await page.waitForTimeout(SETTLED_MS);
      await shot(page, `${name}_${width}_${theme}`);
    }
    expect(wrong).toEqual([]);
    expect(errors).toEqual([]);
    await close();
  });
});
