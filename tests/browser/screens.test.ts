import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO_PASSWORD, type Served } from '../api/shop';
import { serveDemo } from './demo';
import { comeIn } from './door';
import { openBrowser, openPage, overflows, shot, type Theme, tooSmall, violations } from './page';

let browser: Browser;
let shop: Served;
let addresses: Record<string, string>;
let teacher: { id: string; name: string };

interface Line {
  job: { number: number };
  waits_for: string;
}

beforeAll(async () => {
  browser = await openBrowser();
  ({ shop, teacher } = await serveDemo());
  const view = await shop.want('GET', '/shop');
  const open: Line[] = (await shop.want('GET', '/jobs?state=open&limit=100')).lines;
  const closed: Line[] = (await shop.want('GET', '/jobs?state=sealed&limit=40')).lines;
  addresses = addressesOf(open, closed, view.lathes[0].id);
  const [{ class: taught, memberships }] = await shop.want('GET', '/classes');
  addresses.week = '/week';
  addresses.student_evidence = `/class/${memberships[0].person_id}/evidence`;
  addresses.class_grid = `/class/${taught.id}/competences`;
  addresses.roster = `/class/${taught.id}/roster`;
  const bench = await beginPractice();
  addresses.practice = '/practice';
  for (const stage of ['measure', 'decide', 'mount', 'cut', 'after']) {
    addresses[`practice_${stage}`] = `/practice/${bench}?stage=${stage}`;
  }
});

afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

/** A run of the teacher's, measured, decided and mounted, so that every stage has something to show. */
async function beginPractice(): Promise<string> {
  const as = `?by_person_id=${teacher.id}`;
  const { id, bench } = await shop.want('POST', `/practice/runs${as}`, { difficulty: 2, seed: 8 });
  const { make, lathe, pieces, instruments } = bench;
  const mount = await shop.want('POST', '/calc/mount', { arbor: lathe.arbor, part: make.seat, pieces });
  const at = { instrument_id: instruments[0].id, radius_mm: make.band_outer_radius_mm - 10 };
  const acts = [
    { do: 'look' },
    { do: 'measure', ...at, angle_deg: 0 },
    { do: 'measure', ...at, angle_deg: 90 },
    { do: 'decide', action: 'cut' },
    { do: 'mount_part', pieces: mount.stacks[0].pieces, turn_deg: 0, nut_tight: true },
    { do: 'read_runout', side: 'outboard', radius_mm: at.radius_mm, points: 12 },
  ];
  for (const [i, act] of acts.entries()) {
    await shop.want('POST', `/practice/runs/${id}/acts${as}`, { number: i + 1, act });
  }
  return id;
}

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
    chatter_of_job: `/jobs/${at('cut')}/chatter`,
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
    record_check: '/record-check',
    chatter: '/chatter',
    chatter_tap: '/chatter?way=tap&band=off',
    chatter_marks: '/chatter?way=marks&gaps=65',
    class: '/class',
    competences: '/competences',
    own_evidence: '/evidence',
    permit: '/permit',
    safety_points: '/permit/safety',
    safety_list: '/permit/points',
    permit_rule: '/permit/rule',
    queue: `/lathes/${lathe}/queue`,
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
/** Some fifty views, each in both themes, on a machine that does other things too. */
const ALL_VIEWS_MS = 300_000;
const SETTLED_MS = 300;

async function openEveryDetail(page: Page): Promise<void> {
  for (const details of await page.locator('details').all()) {
    await details.evaluate((one) => one.setAttribute('open', ''));
  }
}

/** In the colours of the theme at once, where nothing moves. */
const show = (page: Page, theme: Theme) => page.emulateMedia({ colorScheme: theme, reducedMotion: 'reduce' });

/** What is wrong with the view that the page is at, at its width: in light all of it, in dark what a theme changes. */
async function wrongWith(page: Page): Promise<string[]> {
  await show(page, 'light');
  const wrong = [...(await violations(page)), ...(await tooSmall(page, LEAST_TARGET_PX))];
  if (await overflows(page)) wrong.push('wider than the screen');
  await show(page, 'dark');
  return [...wrong, ...(await violations(page, ['color-contrast'])).map((one) => `in dark: ${one}`)];
}

describe.each([390, 820, 1440])('every view at %i px', (width) => {
  it(
    'has in light and dark nothing that axe finds wrong, nothing too small to hit, and nothing wider than the screen',
    async () => {
      const { page, errors, close } = await openPage(browser, { width, touch: width < 500 });
      await comeIn(page, shop.address, teacher.name, DEMO_PASSWORD);
      const wrong: string[] = [];
      for (const [name, path] of Object.entries(addresses)) {
        await page.goto(shop.address + path);
        await page.locator('main').waitFor();
        await page.locator('.moment').waitFor({ state: 'detached' });
        await page.waitForTimeout(SETTLED_MS);
        for (const theme of ['light', 'dark'] as const) {
          await show(page, theme);
          await shot(page, `${name}_${width}_${theme}`);
        }
        await openEveryDetail(page);
        wrong.push(...(await wrongWith(page)).map((one) => `${name}: ${one}`));
      }
      expect(wrong).toEqual([]);
      expect(errors).toEqual([]);
      await close();
    },
    ALL_VIEWS_MS,
  );
});

describe('whoever asks whether a cut will chatter', () => {
  it('gets to that page from the board, and from a guided cut to that of its own job and part', async () => {
    const { page, errors, close } = await openPage(browser, { width: 820 });
    await comeIn(page, shop.address, teacher.name, DEMO_PASSWORD);
    const link = page.getByRole('link', { name: 'Will it chatter?' });
    await page.goto(shop.address + addresses.board);
    await link.click();
    await page.locator('.chatter-limit').waitFor();
    expect(new URL(page.url()).pathname).toBe('/chatter');

    await page.goto(shop.address + addresses.cut_to_plan);
    await link.waitFor();
    const [, number] = /^\/jobs\/(\d+)\//.exec(addresses.cut_to_plan ?? '') ?? [];
    expect(await link.getAttribute('href')).toMatch(new RegExp(`^/jobs/${number}/chatter\\?part=(left|right)$`));
    await link.click();
    await page.locator('.chatter-limit').waitFor();
    expect(new URL(page.url()).pathname).toBe(`/jobs/${number}/chatter`);
    await page.getByRole('link', { name: 'On with the cut' }).waitFor();
    expect(errors).toEqual([]);
    await close();
  });
});
