import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { freshFolder, Served } from '../api/shop';
import { focusedName, openBrowser, openPage, press, tabTo, type } from './page';

let browser: Browser;
let shop: Served;

beforeAll(async () => {
  browser = await openBrowser();
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
});

afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

/** An invented rotor with a once-per-turn thickness pattern: cut by 0.18 mm it is even to a micrometre or two. */
const BEFORE = ['21.131', '21.124', '21.118', '21.112', '21.128', '21.142', '21.149', '21.144'];
const AFTER = ['20.951', '20.950', '20.952', '20.949', '20.9515', '20.9505', '20.9525', '20.9495'];
const RUNOUT = ['0.000', '0.010', '0.021', '0.031', '0.040', '0.030', '0.020', '0.011'];

const heading = (page: Page, text: string | RegExp) =>
  page.getByRole('heading', { level: 1, name: text, exact: true }).waitFor();

const KEY_MS = 50;

/** Types as a hand does, with no field chosen first, each point when the one before it is kept. */
async function readings(page: Page, values: readonly string[]): Promise<void> {
  for (const [i, value] of values.entries()) {
    await page
      .getByText(`Point ${i + 1} of ${values.length}`)
      .first()
      .waitFor();
    await page.keyboard.type(value, { delay: KEY_MS });
    await page.keyboard.press('Enter');
    await page
      .getByText(`Point ${i + 1} ${value}`)
      .first()
      .waitFor();
  }
}

describe('a job from the first reading to the signed record, by keys alone', () => {
  it('goes all the way in a shop that was empty', async () => {
    const { page, errors, close } = await openPage(browser, { width: 1440 });
    await page.goto(shop.address);

    await heading(page, 'Who teaches here?');
    await type(page, 'Name', 'Ines Halloway');
    await type(page, 'Password', 'brass hinge seven');
    await page.keyboard.press('Enter');

    await press(page, 'Enter a micrometer');
    await press(page, 'Add an instrument');
    await type(page, 'Name', 'Blue micrometer');
    await type(page, 'Smallest step it shows', '0.001');
    await type(page, 'Largest permissible error, ±', '0.002');
    await type(page, 'Repeatability', '0.0008');
    await page.getByText('0.0008 mm =').waitFor();
    await press(page, 'Save');
    await page.getByRole('button', { name: /^Blue micrometer/ }).waitFor();

    await press(page, /^Lathes/);
    await press(page, 'Add a lathe');
    await type(page, 'Name', 'Lathe by the window');
    await type(page, 'One mark of the dial, depth on one face', '25.4');
    await press(page, 'Save');
    await page.getByRole('button', { name: /^Lathe by the window/ }).waitFor();

    await press(page, 'Brakewright');
    await press(page, 'Open the first job');
    await openJob(page);
    await enterLimits(page);
    await lookAtBoth(page);
    await measureBefore(page);
    await decideToCut(page);
    await cutBoth(page);
    await measureAfter(page);
    await sealIt(page);

    expect(errors).toEqual([]);
    await close();
  });
});

async function openJob(page: Page): Promise<void> {
  await heading(page, 'A new job');
  await press(page, /^Pulsation/);
  await type(page, 'Vehicle', 'grey estate, 2012');
  await type(page, 'Who brings it?', 'class 3');
  await type(page, 'Odometer', '84 200');
  await page.reload();
  await heading(page, 'A new job');
  await tabTo(page, 'Vehicle');
  expect(await page.getByLabel('Vehicle', { exact: true }).inputValue()).toBe('grey estate, 2012');
  await press(page, 'Open the job');
  await heading(page, 'Limits');
}

async function enterLimits(page: Page): Promise<void> {
  await press(page, /^Discard/);
  for (const text of ['20.0 mm', '20.4 mm', '22.0', '.010', '0,05 mm', '0.4 mm', '1.5']) {
    await page.waitForFunction(() => document.activeElement?.closest('.limit-editor') !== null);
    await page.keyboard.type(text);
    const before = await page.locator('.limit-editor').elementHandle();
    await page.keyboard.press('Enter');
    await page.waitForFunction((old) => !old?.isConnected, before);
  }
  await page.getByRole('button', { name: /^Machine-to 20\.4 mm/ }).waitFor();
  await page.getByRole('button', { name: /^Finish after the cut 1\.50 µm/ }).waitFor();
  await press(page, 'Look');
}

async function lookAtBoth(page: Page): Promise<void> {
  await heading(page, 'Look');
  await press(page, /^Nothing found/);
  await page.getByText('Left rotor: Nothing found').waitFor();
  await tabTo(page, 'Left rotor');
  await page.keyboard.press('ArrowRight');
  await press(page, /^Nothing found/);
  await page.getByText('Right rotor: Nothing found').waitFor();
  await press(page, 'Measure');
}

async function measureBefore(page: Page): Promise<void> {
  await type(page, 'It shows', '0.000');
  await page.keyboard.press('Enter');
  for (const side of ['left', 'right']) {
    await press(page, 'Begin to measure');
    await readings(page, BEFORE);
    await press(page, 'Next: runout outboard');
    await readings(page, RUNOUT);
    await press(page, 'Next: runout inboard');
    await readings(page, RUNOUT);
    await press(page, side === 'left' ? 'Next: right rotor' : 'Next: verdict');
  }
}

async function decideToCut(page: Page): Promise<void> {
  await heading(page, 'Verdict: Cut it');
  await page
    .getByText(/over machine-to/)
    .first()
    .waitFor();
  await press(page, 'Cut it');
  await heading(page, 'No passes are settled for this rotor.');
  await press(page, 'Cut without the guide');
  await heading(page, 'Cut');
}

async function cutBoth(page: Page): Promise<void> {
  for (const side of ['left', 'right']) {
    await page.getByRole('radio', { name: side === 'left' ? 'Left rotor' : 'Right rotor', checked: true }).waitFor();
    await page.locator('.cut-marks').last().waitFor();
    const [outboard, inboard] = await page.locator('.cut-marks').allTextContents();
    expect(Number(outboard) + Number(inboard)).toBeGreaterThan(0);
    await type(page, 'Outboard', outboard ?? '');
    await type(page, 'Inboard', inboard ?? '');
    await press(page, 'Record the cut');
    await page.getByText(`Outboard ${outboard}, inboard ${inboard}`).waitFor();
    await press(page, side === 'left' ? 'Right rotor' : 'Measure after the cut');
  }
}

async function measureAfter(page: Page): Promise<void> {
  for (const side of ['left', 'right']) {
    await press(page, 'Begin to measure');
    await readings(page, AFTER);
    await press(page, 'Next: runout outboard');
    await press(page, 'Next: runout inboard');
    await press(page, 'Next: roughness');
    await page.keyboard.type('1.1', { delay: KEY_MS });
    await page.keyboard.press('Enter');
    await page.getByText('Roughness Ra, inboard').first().waitFor();
    await page.keyboard.type('1.2', { delay: KEY_MS });
    await page.keyboard.press('Enter');
    await press(page, side === 'left' ? 'Next: right rotor' : 'Next: what the cut did');
  }
  await heading(page, 'After the cut');
  await page.getByText('Passes').first().waitFor();
  await press(page, 'Record');
}

async function sealIt(page: Page): Promise<void> {
  await heading(page, 'Record');
  await press(page, 'Seal');
  await expect.poll(() => focusedName(page)).toBe('Not yet');
  await press(page, 'Yes, seal it');
  await page.getByText(/^Sealed .* by Ines Halloway$/).waitFor();
  await type(page, 'Amendment', 'The hub was cleaned before refitting.');
  await press(page, 'Add it');
  await page.getByText('The hub was cleaned before refitting.', { exact: true }).waitFor();
}
