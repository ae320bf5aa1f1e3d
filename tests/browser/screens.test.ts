import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser, openPage, overflows, shot, type Theme, tooSmall, violations } from './page';
import { type RunningShop, startShop } from './running_shop';

let browser: Browser;
let shop: RunningShop;
let addresses: Record<string, string>;
let teacher: string;

interface Line {
  job: { number: number };
  waits_for: string;
}

beforeAll(async () => {
  browser = await openBrowser();
  shop = await startShop('demo');
  const ask = async (path: string) => (await fetch(`${shop.base}/api/v1${path}`)).json();
  const view = (await ask('/shop')) as { people: { id: string; role: string }[] };
  teacher = view.people.find((one) => one.role === 'teacher')?.id ?? view.people[0]?.id ?? '';
  const open = ((await ask('/jobs?state=open&limit=100')) as { lines: Line[] }).lines;
  const done = ((await ask('/jobs?state=sealed&limit=40')) as { lines: Line[] }).lines;
  addresses = addressesOf(open, done);
});

afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

/** Every view of the page, with a job of the demo shop in the state that it is made for. */
function addressesOf(open: Line[], done: Line[]): Record<string, string> {
  const any = open[0]?.job.number;
  const at = (waits_for: string) => open.find((one) => one.waits_for === waits_for)?.job.number ?? any;
  const sealed = done[0]?.job.number;
  return {
    board: '/',
    new_job: '/jobs/new',
    arrival: `/jobs/${any}/arrival`,
    limits: `/jobs/${at('decision')}/limits`,
    limits_unknown: `/jobs/${at('limits')}/limits`,
    look: `/jobs/${at('findings')}/look`,
    before: `/jobs/${at('readings')}/before`,
    verdict: `/jobs/${at('decision')}/verdict`,
    verdict_not_yet: `/jobs/${at('limits')}/verdict`,
    verdict_decided: `/jobs/${at('cut')}/verdict`,
    cut: `/jobs/${at('cut')}/cut`,
    after: `/jobs/${at('readings_after')}/after`,
    check: `/jobs/${sealed}/check`,
    record: `/jobs/${at('seal')}/record`,
    record_sealed: `/jobs/${sealed}/record`,
    shop: '/shop',
    people: '/shop/people',
    instruments: '/shop/instruments',
    lathes: '/shop/lathes',
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
      await page.goto(shop.base + path);
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
