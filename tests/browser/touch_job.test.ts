import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { freshFolder, Served } from '../api/shop';
import { comeIn } from './door';
import { openBrowser, openPage, overflows } from './page';

const PASSWORD = 'brass hinge seven';
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

const tap = (page: Page, role: 'button' | 'link' | 'radio', name: string | RegExp) =>
  page
    .getByRole(role, { name, exact: typeof name === 'string' })
    .first()
    .tap();
const heading = (page: Page, text: string | RegExp) => page.getByRole('heading', { level: 1, name: text }).waitFor();

describe('a job on a phone of 390 px, by taps', () => {
  it('is loaded to practise on, decided otherwise with a reason, and sealed on the second tap alone', async () => {
    const { page, errors, close } = await openPage(browser, { width: 390, height: 844, touch: true });
    await page.goto(shop.address);
    await page.getByLabel('Name').tap();
    await page.keyboard.type('Ines Halloway');
    await page.getByLabel('Password', { exact: true }).tap();
    await page.keyboard.type('brass');
    await tap(page, 'button', 'Make the account');
    await page.getByText('A password has 8 characters or more.').waitFor();
    await page.getByLabel('Password', { exact: true }).fill(PASSWORD);
    await tap(page, 'button', 'Make the account');
    await heading(page, 'An empty shop');
    await tap(page, 'button', 'Load one practice job');
    await heading(page, /^Verdict: /);
    expect(await overflows(page)).toBe(false);

    await tap(page, 'button', 'Decide otherwise');
    await tap(page, 'button', 'Replace it');
    await tap(page, 'button', 'Record this decision');
    await page.getByText('A decision that differs from what was computed needs a reason.').waitFor();
    await page.getByLabel('Your reason').tap();
    await page.keyboard.type('The owner wants new ones.');
    await tap(page, 'button', 'Record this decision');
    await heading(page, 'Record');

    await tap(page, 'button', 'Seal');
    await tap(page, 'button', 'Not yet');
    expect(await page.getByText(/^Sealed /).count()).toBe(0);
    await tap(page, 'button', 'Seal');
    await tap(page, 'button', 'Yes, seal it');
    await page.getByText(/^Sealed .* by Ines Halloway$/).waitFor();

    await tap(page, 'link', 'To the board');
    await page.getByText('Nothing is open.').waitFor();
    await page.getByLabel('Find a finished job').tap();
    await page.keyboard.type('no such vehicle');
    await page.getByText('No finished job has all these words.').waitFor();
    expect(errors).toEqual([]);
    await close();
  });

  it('asks one question after the other when a job is opened, and says what is missing', async () => {
    const { page, errors, close } = await openPage(browser, { width: 390, height: 844, touch: true });
    await comeIn(page, shop.address, 'Ines Halloway', PASSWORD);
    await page.goto(`${shop.address}/jobs/new`);
    await tap(page, 'button', 'Next');
    await page.getByText('Choose the reason that comes nearest.').waitFor();
    await tap(page, 'button', /^Noise/);
    await tap(page, 'button', 'Next');
    await page.getByLabel('Vehicle', { exact: true }).fill('small white van');
    await page.getByLabel('Who brings it?').fill('class 2');
    await page.getByLabel('Odometer', { exact: true }).fill('12.5');
    await tap(page, 'button', 'Next');
    await page.getByText('Whole numbers only, such as 84200.').waitFor();
    await page.getByLabel('Odometer', { exact: true }).fill('12 500');
    await tap(page, 'button', 'Next');
    await tap(page, 'radio', 'Rear axle');
    await tap(page, 'radio', 'Left only');
    await tap(page, 'button', 'Next');
    await tap(page, 'button', 'Open the job');
    await heading(page, 'Limits');
    await shop.signIn((await shop.want('GET', '/doors')).people[0].id, PASSWORD);
    const [line] = (await shop.want('GET', '/jobs?state=open')).lines;
    expect(line.job).toMatchObject({ vehicle: 'small white van', axle: 'rear', odometer: 12500, complaint: 'noise' });
    expect(line.parts.map((part: { side: string }) => part.side)).toEqual(['left']);
    expect(errors).toEqual([]);
    await close();
  });
});

describe('two tablets', () => {
  it('that change one limit see both values, and neither is lost', async () => {
    const first = await openPage(browser, { width: 1200 });
    const { page } = first;
    await comeIn(page, shop.address, 'Ines Halloway', PASSWORD);
    const [line] = (await shop.want('GET', '/jobs?state=open')).lines;
    await page.goto(`${shop.address}/jobs/${line.job.number}/limits`);
    await page.getByRole('button', { name: /^Discard/ }).click();
    await page.getByRole('textbox', { name: 'Figure' }).fill('7.0 mm');

    const file = await shop.want('GET', `/jobs/${line.job.id}`);
    const [part] = file.parts;
    const by = file.job.opened_by_person_id;
    const discard = { value: { text: '6.8 mm', unit: 'mm' }, source: 'cast_on_part', source_note: 'the other tablet' };
    const nominal = { value: { text: '9 mm', unit: 'mm' }, source: 'service_information', source_note: '' };
    await shop.want('PUT', `/jobs/${line.job.id}/parts/${part.id}?by_person_id=${by}`, {
      ...part,
      limits: { ...part.limits, discard, nominal },
    });

    await page.getByRole('button', { name: 'Keep this figure' }).click();
    await page.getByRole('heading', { name: 'Changed meanwhile' }).waitFor();
    await page.getByRole('button', { name: 'Theirs 6.8 mm' }).waitFor();
    await page.getByRole('button', { name: 'Yours 7.0 mm' }).click();
    await page.getByRole('button', { name: 'Save the choice' }).click();
    await page.getByRole('button', { name: /^Discard 7\.0 mm/ }).waitFor();
    await page.getByRole('button', { name: /^Thickness when new 9 mm/ }).waitFor();
    expect(first.errors).toEqual([]);
    await first.close();
  });
});
