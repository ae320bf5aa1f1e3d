import type { Browser, FileChooser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO_PASSWORD, type Served } from '../api/shop';
import { serveDemo } from './demo';
import { comeIn } from './door';
import { openBrowser, openPage, overflows, tabTo, tooSmall, violations } from './page';

let browser: Browser;
let shop: Served;
let teacher: { id: string; name: string };
let job = { id: '', number: 0 };
let record: Buffer;

beforeAll(async () => {
  browser = await openBrowser();
  ({ shop, teacher } = await serveDemo());
  job = (await shop.want('GET', '/jobs?state=sealed&limit=1')).lines[0].job;
  record = await shop.want('GET', `/jobs/${job.id}/record.pdf`);
}, 180_000);
afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

const bring = (page: Page, name: string, buffer: Buffer) =>
  page.locator('input[type=file]').setInputFiles({ name, mimeType: 'application/pdf', buffer });
/** The choice of a file, asked for long before it: the browser's driver does not wait until its wish is heard. */
const choice = (page: Page) => new Promise<FileChooser>((chosen) => page.once('filechooser', chosen));
const drawn = async (page: Page) => {
  const wrong = [...(await violations(page)), ...(await tooSmall(page, 44))];
  return (await overflows(page)) ? [...wrong, 'wider than the screen'] : wrong;
};
const told = (page: Page, name: string) => page.getByRole('heading', { level: 2, name }).waitFor({ timeout: 60_000 });

describe('a printed record', () => {
  it('is checked at the door by whoever has it, by keyboard on a phone, and no name is told', async () => {
    const { page, errors, close } = await openPage(browser, { width: 390 });
    await page.goto(shop.address);
    const chooser = choice(page);
    await tabTo(page, 'Check a printed record');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name: 'Is this record the shop’s?' }).waitFor();
    expect(await drawn(page)).toEqual([]);
    await tabTo(page, 'Choose the PDF');
    await page.keyboard.press('Enter');
    await (await chooser).setFiles({ name: 'job.pdf', mimeType: 'application/pdf', buffer: record });
    await told(page, 'Yes: exactly what this shop prints');
    const text = (await page.locator('main').textContent()) ?? '';
    expect(text).toContain(`Job ${job.number} was sealed on 20`);
    expect(text).not.toContain(teacher.name);
    expect(await drawn(page)).toEqual([]);

    await bring(page, 'added.pdf', Buffer.concat([record, Buffer.from(' ')]));
    await told(page, 'No: it has the seal, and is not what this shop prints');
    await bring(page, 'letter.pdf', Buffer.from('Dear shop'));
    await told(page, 'letter.pdf cannot be checked');
    await page.getByText('this is no PDF').waitFor();
    expect(await page.getByText('Yes: exactly').count()).toBe(0);
    expect(await drawn(page)).toEqual([]);
    expect(errors).toEqual([]);
    await close();
  }, 180_000);

  it('is checked from beside the record, and names who sealed it to who works here', async () => {
    const { page, errors, close } = await openPage(browser, { width: 1024 });
    await comeIn(page, shop.address, teacher.name, DEMO_PASSWORD);
    await page.goto(`${shop.address}/jobs/${job.number}/record`);
    await page.getByRole('link', { name: 'Check a printed record' }).click();
    await bring(page, 'job.pdf', record);
    await told(page, 'Yes: exactly what this shop prints');
    const { people } = await shop.want('GET', '/shop');
    const text = (await page.locator('main').textContent()) ?? '';
    expect(people.some(({ name }: { name: string }) => text.includes(`sealed by ${name}`))).toBe(true);
    expect(errors).toEqual([]);
    await close();
  }, 120_000);
});
