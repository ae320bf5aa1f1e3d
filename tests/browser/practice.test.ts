import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { setScene } from '../api/scene';
import { freshFolder, type Json, Served } from '../api/shop';
import { openBrowser, openPage, overflows, press, shot, tabTo, tooSmall, violations } from './page';
import { addPerson, addSet, dragRound, readRun, runIdOf, stackOf, watchBench } from './practice_hand';

let browser: Browser;
let shop: Served;
let teacher: string;
const SET = 'Grooves of a stone';
const LEAST_TARGET_PX = 44;
/** A whole run, with the cut as long as it takes, on a machine that does other things too. */
const WHOLE_RUN_MS = 300_000;

beforeAll(async () => {
  browser = await openBrowser();
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  teacher = (await setScene(shop)).by;
  await addSet(shop, teacher, SET, ['grooves']);
});
afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

async function tabletOf(person: string, looks: { width: number; touch?: boolean }) {
  const tablet = await openPage(browser, looks);
  await tablet.page.addInitScript((id) => localStorage.setItem('brakewright/person', id), person);
  return tablet;
}

/** A student at a bench of the set, and the run as the shop has it. */
async function atBench(name: string, looks: { width: number; touch?: boolean }) {
  const student = await addPerson(shop, teacher, name);
  const tablet = await tabletOf(student, looks);
  const watched = await watchBench(tablet.page);
  await tablet.page.goto(`${shop.address}/practice`);
  await tablet.page.getByRole('button', { name: `Begin this set: ${SET}` }).click();
  await tablet.page.getByRole('button', { name: 'Measure here' }).waitFor();
  const id = runIdOf(tablet.page);
  return { ...tablet, student, watched, id, run: () => readRun(shop, id) };
}

const stage = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Where you stand' }).getByRole('button', { name });

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });

/** From the decision to the start of the spindle, by taps. */
async function mountByTouch(page: Page, run: Json): Promise<void> {
  await stage(page, 'Decide').tap();
  await button(page, /^Cut it/).tap();
  await page.getByText('Decided').waitFor();
  await button(page, 'On to mount').tap();
  await button(page, 'Wipe part and pieces clean').tap();
  for (const piece of await stackOf(shop, run)) await button(page, `Put on: ${piece} `).tap();
  await button(page, 'Mount it').tap();
  await page.getByRole('heading', { name: 'The part is on the arbor.' }).waitFor();
  await page.getByRole('radio', { name: 'on the disc' }).tap();
}

async function startByTouch(page: Page): Promise<void> {
  await stage(page, 'Cut').tap();
  await button(page, /^Glasses/).tap();
  await button(page, 'Glasses on').waitFor();
  await button(page, 'Start the spindle').tap();
  await button(page, 'Stop the spindle').waitFor();
}

async function wrongHere(page: Page): Promise<string[]> {
  const wrong = [...(await violations(page)), ...(await tooSmall(page, LEAST_TARGET_PX))];
  return (await overflows(page)) ? [...wrong, 'wider than the screen'] : wrong;
}

describe('a run at the practice bench', () => {
  it(
    'goes by touch on a phone from the first look to the mark',
    async () => {
      const { page, errors, close, run } = await atBench('Ada Brandt', { width: 390, touch: true });
      await button(page, 'Look at the part').tap();
      await page.getByText('Grooves, outboard').or(page.getByText('Grooves, inboard')).first().waitFor();
      await button(page, 'Set to zero').tap();
      for (let i = 0; i < 4; i += 1) {
        await button(page, 'Measure here').tap();
        await page.getByText(i === 0 ? '1 reading' : `${i + 1} readings`, { exact: true }).waitFor();
        await button(page, /^On round/).tap();
      }
      const face = await page.locator('.face-field svg').boundingBox();
      if (!face) throw new Error('the part is not drawn');
      await page.touchscreen.tap(face.x + face.width / 2, face.y + face.height / 2 + 0.36 * face.height);
      await page.locator('.bench-step-at', { hasText: '180°' }).waitFor();
      expect(await wrongHere(page)).toEqual([]);
      await shot(page, 'practice_measure_390');
      await mountByTouch(page, await run());
      await button(page, 'Read the runout').tap();
      await page.getByText('peak to valley').waitFor();
      expect(await wrongHere(page)).toEqual([]);
      await shot(page, 'practice_mount_390');
      await startByTouch(page);
      await dragRound(page, '.dial-wheel', 0, 40);
      await page.getByText('5 marks', { exact: true }).first().waitFor();
      await page.getByRole('radio', { name: '20 times' }).tap();
      for (const side of ['Outboard', 'Inboard']) {
        const tool = page.getByRole('region', { name: side, exact: true });
        for (let i = 0; i < 40 && (await tool.getByText('In the air').isVisible()); i += 1) {
          await button(page, `${side} dial: +1`).tap();
          await page.waitForTimeout(400);
        }
        await button(page, `Lock: ${side.toLowerCase()} tool`).tap();
      }
      await page.getByRole('radiogroup', { name: 'Feed, mm a turn' }).getByRole('radio').last().tap();
      expect(await wrongHere(page)).toEqual([]);
      await page.getByText('1 pass over the edge').waitFor({ timeout: 90_000 });
      await shot(page, 'practice_cut_390');
      await button(page, 'Stop the spindle').tap();
      await button(page, 'Start the spindle').waitFor();
      await stage(page, 'After').tap();
      await button(page, 'Take it off').tap();
      await button(page, 'Measure here').tap();
      await page.getByText('after the cut').first().waitFor();
      await page.getByRole('radio', { name: 'cleaned' }).tap();
      await page.getByRole('radio', { name: /^in stages across the star/ }).tap();
      await button(page, 'Put it on').tap();
      await page.getByText('Runout on the car').waitFor();
      await button(page, 'Hand it over').tap();
      await button(page, 'Hand it over now?').tap();
      await page.getByText('of 100 points').waitFor();
      await page.getByText('Deep grooves').waitFor();
      expect(await wrongHere(page)).toEqual([]);
      await shot(page, 'practice_mark_390');
      const ended = await run();
      expect(ended.view.ended).toMatchObject({ code: 'finished', unsafe: false });
      expect(ended.view.passes).toBeGreaterThan(0);
      await button(page, 'The next exercise').tap();
      await button(page, 'Measure here').waitFor();
      expect(runIdOf(page)).not.toBe(ended.id);
      expect(errors).toEqual([]);
      await close();
    },
    WHOLE_RUN_MS,
  );

  it(
    'goes by keyboard alone on a wide screen through to the mark',
    async () => {
      const { page, errors, close, run } = await atBench('Bo Linden', { width: 1280 });
      const go = (name: string) => press(page, new RegExp(`^[1-5] ${name}$`));
      await press(page, 'Set to zero');
      await tabTo(page, /^Place of the micrometer/);
      for (let i = 1; i <= 4; i += 1) {
        await page.keyboard.press('Enter');
        await page.getByText(i === 1 ? '1 reading' : `${i} readings`, { exact: true }).waitFor();
        for (let step = 0; step < 6; step += 1) await page.keyboard.press('ArrowRight');
      }
      await page.keyboard.press('ArrowUp');
      expect((await run()).acts.filter((one: Json) => one.act.do === 'measure')).toHaveLength(4);
      await go('Decide');
      await press(page, /^Cut it/);
      await page.getByText('Decided').waitFor();
      await go('Mount');
      await press(page, 'Wipe part and pieces clean');
      for (const piece of await stackOf(shop, await run())) await press(page, new RegExp(`^Put on: ${piece} `));
      await press(page, 'Mount it');
      await page.getByRole('heading', { name: 'The part is on the arbor.' }).waitFor();
      await press(page, 'Read the runout');
      await page.getByText('peak to valley').waitFor();
      await go('Cut');
      await press(page, /^Glasses/);
      await button(page, 'Glasses on').waitFor();
      await press(page, 'Start the spindle');
      await button(page, 'Stop the spindle').waitFor();
      await tabTo(page, 'Outboard dial');
      for (let i = 0; i < 3; i += 1) await page.keyboard.press('ArrowRight');
      await page.getByText('3 marks', { exact: true }).waitFor();
      await shot(page, 'practice_cut_1280');
      await press(page, 'Stop the spindle');
      await button(page, 'Start the spindle').waitFor();
      await go('After');
      await press(page, 'Take it off');
      await press(page, 'cleaned');
      await press(page, /^in stages across the star/);
      await press(page, 'Put it on');
      await page.getByText('Runout on the car').waitFor();
      await press(page, 'Hand it over');
      await press(page, 'Hand it over now?');
      await page.getByText('of 100 points').waitFor();
      expect(errors).toEqual([]);
      await close();
    },
    WHOLE_RUN_MS,
  );
});

describe('the bench while it turns', () => {
  it('is heard once a finger has started it, and can be hushed by a key that the tablet remembers', async () => {
    const { page, errors, close, run, watched } = await atBench('Cy Marsh', { width: 390, touch: true });
    await mountByTouch(page, await run());
    expect((await watched()).sources).toBe(0);
    const heard = page.waitForResponse((one) => one.url().includes('/sound'));
    await startByTouch(page);
    expect((await heard).headers()['content-type']).toBe('audio/wav');
    await page.waitForFunction(() => (window as unknown as { seen_at_bench: Json }).seen_at_bench.sources > 0);
    await page.keyboard.press('m');
    expect(await page.evaluate(() => localStorage.getItem('brakewright/bench-sound'))).toBe('off');
    await button(page, 'Sound off').and(page.locator('[aria-pressed="true"]')).waitFor();
    const sounds: string[] = [];
    page.on('request', (one) => one.url().includes('/sound') && sounds.push(one.url()));
    for (let i = 0; i < 3; i += 1)
      await page.waitForResponse((one) => one.url().endsWith('/acts') || one.url().includes('/acts?'));
    expect(sounds).toEqual([]);
    expect(errors).toEqual([]);
    await close();
  });

  it('draws the face as a relief that is fetched only then, and turns it only where motion is wanted', async () => {
    const { page, errors, close, run, watched } = await atBench('Di Okoye', { width: 820, touch: true });
    const fetched: string[] = [];
    page.on('request', (one) => one.url().includes('relief_scene') && fetched.push(one.url()));
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await mountByTouch(page, await run());
    expect(fetched).toEqual([]);
    const picture = () => page.waitForResponse((one) => one.url().includes('/picture'));
    await startByTouch(page);
    await page.locator('canvas.relief[data-drawn="true"]').waitFor();
    expect(fetched).toHaveLength(1);
    await picture();
    await picture();
    expect((await watched()).drawn_in_frames).toBe(0);
    await page.emulateMedia({ reducedMotion: 'no-preference' });
    await stage(page, 'Measure').tap();
    await stage(page, 'Cut').tap();
    await page.waitForFunction(() => (window as unknown as { seen_at_bench: Json }).seen_at_bench.drawn_in_frames > 2);
    const times = async () =>
      Number(/(\d+) times as high/.exec((await page.locator('.bench-slider').textContent()) ?? '')?.[1]);
    const before = await times();
    await page.getByLabel(/^Heights are drawn/).focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(times).toBe(before + 20);
    await button(page, 'Stop the spindle').tap();
    expect(errors).toEqual([]);
    await close();
  });

  it('gives back what it drew the face with, however often the cut is looked at', async () => {
    const { page, errors, close, run } = await atBench('Jo Elder', { width: 820, touch: true });
    const warned: string[] = [];
    page.on('console', (one) => /too many active|context lost/i.test(one.text()) && warned.push(one.text()));
    await page.evaluate(() => {
      const opened = new Set<WebGL2RenderingContext>();
      Object.assign(window, { opened });
      const { getContext } = HTMLCanvasElement.prototype;
      HTMLCanvasElement.prototype.getContext = function open(this: HTMLCanvasElement, ...asked: unknown[]) {
        const context = Reflect.apply(getContext, this, asked);
        if (context instanceof WebGL2RenderingContext) opened.add(context);
        return context;
      } as typeof getContext;
    });
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await mountByTouch(page, await run());
    const MORE_THAN_A_BROWSER_KEEPS = 20;
    for (let i = 0; i < MORE_THAN_A_BROWSER_KEEPS; i += 1) {
      await stage(page, 'Cut').tap();
      await page.locator('canvas.relief[data-drawn="true"]').waitFor();
      await stage(page, 'Decide').tap();
      await page.locator('canvas.relief').waitFor({ state: 'detached' });
    }
    const held = await page.evaluate(() => {
      const { opened } = window as unknown as { opened: Set<WebGL2RenderingContext> };
      return { opened: opened.size, held: [...opened].filter((one) => !one.isContextLost()).length };
    });
    expect(held).toEqual({ opened: MORE_THAN_A_BROWSER_KEEPS, held: 0 });
    expect(warned).toEqual([]);
    expect(errors).toEqual([]);
    await close();
  });

  it('starts once by a key that is held down, and changes speed by a press alone', async () => {
    const { page, errors, close, run } = await atBench('Kim Alder', { width: 820, touch: true });
    await mountByTouch(page, await run());
    await stage(page, 'Cut').tap();
    await button(page, /^Glasses/).tap();
    await button(page, 'Glasses on').waitFor();
    await button(page, 'Start the spindle').focus();
    for (let i = 0; i < 8; i += 1) {
      await page.keyboard.down('Enter');
      await page.waitForTimeout(60);
    }
    await page.keyboard.up('Enter');
    await button(page, 'Stop the spindle').waitFor();
    const spindles = async () => (await run()).acts.filter((one: Json) => one.act.do === 'spindle');
    expect(await spindles()).toHaveLength(1);
    const speeds = page.getByRole('radiogroup', { name: /^Speed/ });
    await speeds.getByRole('radio', { checked: true }).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    const wanted = await page.evaluate(() => document.activeElement?.textContent);
    await page.waitForTimeout(300);
    expect(await spindles()).toHaveLength(1);
    await page.keyboard.press('Enter');
    await speeds.getByRole('radio', { name: wanted ?? '', exact: true, checked: true }).waitFor();
    await expect.poll(async () => (await spindles()).at(-1).act.rpm).toBe(Number(wanted));
    expect(await wrongHere(page)).toEqual([]);
    expect(errors).toEqual([]);
    await close();
  });

  it('ends a run whose student walks away from it, and says what could have happened', async () => {
    const { page, close, run, id } = await atBench('Eve Stone', { width: 390, touch: true });
    await mountByTouch(page, await run());
    await startByTouch(page);
    await page.getByRole('link', { name: 'Away from the bench' }).tap();
    await page.getByRole('heading', { name: 'Your runs' }).waitFor();
    await expect.poll(async () => (await run()).view.ended?.code).toBe('left_alone');
    await page.goto(`${shop.address}/practice/${id}`);
    await page.getByRole('heading', { name: 'Ended by the bench' }).waitFor();
    await page.getByText('The lathe was left turning alone.').first().waitFor();
    await button(page, 'The mark').tap();
    await page.getByText('do not count towards a permit').waitFor();
    await close();
  });
});

describe('two hands and a bad network', () => {
  it('sends what was done again when the shop is back, and does it once', async () => {
    const { page, close, run } = await atBench('Fay Holm', { width: 820 });
    await page.context().setOffline(true);
    await button(page, 'Look at the part').click();
    await page.getByText('The shop does not answer.').waitFor();
    await page.context().setOffline(false);
    await page.getByText('The shop does not answer.').waitFor({ state: 'detached' });
    await page.getByText('Grooves').first().waitFor();
    expect((await run()).acts.map((one: Json) => one.act.do)).toEqual(['look']);
    await close();
  });

  it('reads the run anew where another tablet acted on it, and shows a refusal beside what was done', async () => {
    const { page, close, run, id, student } = await atBench('Gil Reed', { width: 820 });
    const act = { do: 'decide', action: 'cut' };
    await stage(page, 'Measure').click();
    await shop.want('POST', `/practice/runs/${id}/acts?by_person_id=${student}`, { number: 1, act });
    await button(page, 'Set to zero').click();
    await stage(page, 'Decide').click();
    await page.getByText('Decided').waitFor();
    await stage(page, 'Mount').click();
    await button(page, 'Mount it').click();
    await page.getByRole('alert').waitFor();
    expect((await run()).view.mounted).toEqual([]);
    await close();
  });
});

describe('the teacher', () => {
  it('sees the benches at work as they go on, and sets the class an exercise', async () => {
    const { page: bench, close: leave, id, student } = await atBench('Hal Voss', { width: 820 });
    const { page, errors, close } = await tabletOf(teacher, { width: 1280 });
    await page.goto(`${shop.address}/practice`);
    const card = page.getByRole('link', { name: /^Hal Voss/ });
    await card.getByText('Measures').waitFor();
    const act = { do: 'decide', action: 'cut' };
    await shop.want('POST', `/practice/runs/${id}/acts?by_person_id=${student}`, { number: 1, act });
    await card.getByText('Mounts').waitFor();
    await shot(page, 'practice_live_1280');
    await button(page, 'Set an exercise').click();
    await page.getByLabel('Name', { exact: true }).fill('Look at the seat');
    await page.getByRole('radio', { name: 'Chosen by you' }).click();
    await page.getByRole('checkbox', { name: /^Dirty seat/ }).check();
    expect(await wrongHere(page)).toEqual([]);
    await button(page, 'Keep the set').click();
    await button(page, 'Begin this set: Look at the seat').waitFor();
    const [set] = (await shop.want('GET', '/practice/sets')).sets.filter(
      (one: Json) => one.name === 'Look at the seat',
    );
    expect(set).toMatchObject({ faults: ['dirty_seat'], open: true });
    expect(errors).toEqual([]);
    await button(bench, 'Mount it').waitFor();
    await close();
    await leave();
  });
});
