import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newJob, putPlan, type Scene, setScene } from '../api/scene';
import { freshFolder, type Json, newId, Served } from '../api/shop';
import { comeIn, enterSecret } from './door';
import { focusedName, openBrowser, openPage, overflows, press, shot, tooSmall, violations } from './page';

const PASSWORD = 'a long brass hinge';
const PIN = '7310';
let browser: Browser;
let shop: Served;
let scene: Scene;
const people: Record<string, string> = {};
let job: Json;

beforeAll(async () => {
  browser = await openBrowser();
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  for (const [name, role] of [
    ['Bo Linden', 'student'],
    ['Cy Marsh', 'student'],
    ['Di Fenn', 'visitor'],
  ] as const) {
    const id = newId();
    people[name] = id;
    await shop.want('PUT', `/people/${id}?by_person_id=${scene.by}`, { id, name, role, active: true });
  }
  const mine = newJob({ ...scene, by: people['Bo Linden'] as string }, ['left']);
  job = await shop.want('POST', `/jobs?by_person_id=${scene.by}`, mine);
  await putPlan(shop, scene, job.job.id, job.parts[0].id, 'before');
});
afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

const heading = (page: Page, name: string | RegExp) =>
  page.getByRole('heading', { level: 1, name, exact: true }).waitFor();
const button = (page: Page, name: string | RegExp) =>
  page.getByRole('button', { name, exact: typeof name === 'string' });
const leave = async (page: Page, name: string) => {
  await button(page, name).click();
  await button(page, 'Leave this tablet').click();
  await heading(page, 'Who is it?');
};
const drawn = async (page: Page) => {
  const wrong = [...(await violations(page)), ...(await tooSmall(page, 44))];
  return (await overflows(page)) ? [...wrong, 'wider than the screen'] : wrong;
};

describe('the door', () => {
  it('tells a teacher of an old shop that it is open, and is closed by a password', async () => {
    const { page, errors, close } = await openPage(browser, { width: 1024 });
    await page.goto(shop.address);
    await button(page, /^Ada Stone/).click();
    const note = page.getByRole('region', { name: 'Anybody can act as anybody here' });
    await note.getByRole('button', { name: 'Give myself a password' }).click();
    await page.getByLabel('Password', { exact: true }).fill('short');
    await button(page, 'Close the doors').click();
    await page.getByText('A password has 8 characters or more.').waitFor();
    await page.getByLabel('Password', { exact: true }).fill(PASSWORD);
    await button(page, 'Close the doors').click();
    await note.waitFor({ state: 'detached' });
    expect((await shop.want('GET', '/doors')).closed).toBe(true);
    expect(await drawn(page)).toEqual([]);
    await leave(page, 'Ada Stone');
    expect(await drawn(page)).toEqual([]);
    await shop.signIn(scene.by, PASSWORD);
    expect(errors).toEqual([]);
    await close();
  });

  it.each([
    { width: 360, theme: 'dark', touch: true },
    { width: 1440, theme: 'light', touch: false },
  ] as const)('lets a student choose a PIN by the page’s own keys at $width px', async ({ width, theme, touch }) => {
    const name = touch ? 'Bo Linden' : 'Cy Marsh';
    const { page, errors, close } = await openPage(browser, { width, theme, touch });
    await page.goto(shop.address);
    await button(page, new RegExp(`^${name}`)).click();
    await page.getByText('4 to 8 digits that nobody else knows').waitFor();
    expect(await drawn(page)).toEqual([]);
    await shot(page, `door_pin_${width}_${theme}`);
    await enterSecret(page, PIN);
    await button(page, 'Go on').click();
    await enterSecret(page, '1111');
    await button(page, 'Come in').click();
    await page.getByText('These were two different PINs').waitFor();
    await enterSecret(page, PIN);
    await button(page, 'Go on').click();
    await enterSecret(page, PIN);
    await button(page, 'Come in').click();
    await button(page, name).waitFor();
    await leave(page, name);
    await shot(page, `door_${width}_${theme}`);
    await comeIn(page, shop.address, name, PIN);
    expect(errors).toEqual([]);
    await close();
  });

  it('is passed by keys alone, says what was wrong beside the field, and counts the wait down', async () => {
    const { page, errors, close } = await openPage(browser, { width: 820 });
    await page.goto(shop.address);
    await press(page, /^Ada Stone/);
    await heading(page, 'Ada Stone');
    expect(await focusedName(page)).toBe('Password');
    for (let i = 0; i < 3; i += 1) {
      await page.keyboard.type('wrong and wrong');
      await page.keyboard.press('Enter');
      await page.getByText('This is not the password that belongs to the name').waitFor();
      await expect.poll(() => page.getByLabel('Password', { exact: true }).inputValue()).toBe('');
    }
    await page.getByText(/The next try can be made in [0-9]+ s/).waitFor();
    await expect.poll(() => focusedName(page), { timeout: 10_000 }).toBe('Password');
    await page.keyboard.type(PASSWORD);
    await page.keyboard.press('Enter');
    await button(page, 'Ada Stone').waitFor();
    expect(errors).toEqual([]);
    await close();
  });
});

describe('a tablet that is handed on', () => {
  it('shows nobody another’s draft, and gives it back to whoever typed it', async () => {
    const { page, errors, close } = await openPage(browser, { width: 1024 });
    await comeIn(page, shop.address, 'Bo Linden', PIN);
    await page.goto(`${shop.address}/jobs/new`);
    await page.getByLabel('Vehicle', { exact: true }).fill('a van half typed');
    await leave(page, 'Bo Linden');
    await comeIn(page, `${shop.address}/jobs/new`, 'Cy Marsh', PIN);
    expect(await page.getByLabel('Vehicle', { exact: true }).inputValue()).toBe('');
    await page.getByLabel('Vehicle', { exact: true }).fill('another van');
    await leave(page, 'Cy Marsh');
    await comeIn(page, `${shop.address}/jobs/new`, 'Bo Linden', PIN);
    expect(await page.getByLabel('Vehicle', { exact: true }).inputValue()).toBe('a van half typed');
    expect(errors).toEqual([]);
    await close();
  });

  it('puts out whoever went away, and sends their readings when they are back, and in no other name', async () => {
    const { page, errors, close } = await openPage(browser, { width: 1024 });
    const address = `${shop.address}/jobs/${job.job.number}/before`;
    await page.clock.install();
    await comeIn(page, address, 'Bo Linden', PIN);
    await page.getByText('Point 1 of 8').first().waitFor();
    await page.context().setOffline(true);
    await page.keyboard.type('21.131', { delay: 30 });
    await page.keyboard.press('Enter');
    await page.getByText('Point 1 21.131').first().waitFor();
    await page.clock.fastForward('21:00');
    await heading(page, 'Who is it?');
    await page.getByText('Nobody touched this tablet for a while').waitFor();
    await page.getByText('1 entry of Bo Linden waits here').waitFor();
    await page.context().setOffline(false);
    const kept = async () => (await shop.want('GET', `/jobs/${job.job.id}`)).readings;

    await comeIn(page, shop.address, 'Cy Marsh', PIN);
    await page.clock.fastForward(30_000);
    await page.waitForTimeout(500);
    expect(await kept()).toEqual([]);
    await leave(page, 'Cy Marsh');
    await comeIn(page, shop.address, 'Bo Linden', PIN);
    await expect.poll(async () => (await kept()).length, { timeout: 10_000 }).toBe(1);
    expect((await kept())[0]).toMatchObject({ by_person_id: people['Bo Linden'], value: { text: '21.131' } });
    expect(errors).toEqual([]);
    await close();
  });
});

describe('what is a teacher’s', () => {
  it('is signed for on the student’s tablet, with the teacher’s own PIN and in the teacher’s name', async () => {
    const leading = await openPage(browser, { width: 1024 });
    await comeIn(leading.page, shop.address, 'Ada Stone', PASSWORD);
    await button(leading.page, 'Ada Stone').click();
    await button(leading.page, 'Set my PIN for signing').click();
    await leading.page.getByLabel('Password as it is now').fill(PASSWORD);
    await leading.page.getByLabel('New PIN').fill('975310');
    await button(leading.page, 'Set it').click();
    await leading.page.getByText('It is set.').waitFor();
    await leading.close();
    await shop.signIn(scene.by, PASSWORD); // a new secret ends the other sessions of its person

    const { page, errors, close } = await openPage(browser, { width: 1024 });
    await comeIn(page, shop.address, 'Bo Linden', PIN);
    await page.goto(`${shop.address}/jobs/${job.job.number}/limits`);
    await button(page, /^Discard/).click();
    await page.getByRole('textbox', { name: 'Figure' }).fill('20.1 mm');
    await button(page, 'Keep this figure').click();
    const sheet = page.getByRole('dialog', { name: 'A teacher signs here' });
    await sheet.getByText(/source/).waitFor();
    expect(await drawn(page)).toEqual([]);
    await shot(page, 'door_sign');
    await sheet.getByLabel('PIN for signing').fill('0000');
    await sheet.getByRole('button', { name: 'Sign', exact: true }).click();
    await sheet.getByText('This is not the PIN that belongs to the name').waitFor();
    await sheet.getByLabel('PIN for signing').fill('975310');
    await sheet.getByRole('button', { name: 'Sign', exact: true }).click();
    await sheet.waitFor({ state: 'detached' });
    await button(page, /^Discard 20\.1 mm/).waitFor();
    const changes = await shop.want('GET', `/jobs/${job.job.id}/changes`);
    const last = changes.filter((one: Json) => one.kind.startsWith('part.')).at(-1);
    expect(last.by_person_id).toBe(scene.by);
    expect(errors).toEqual([]);
    await close();
  });
});
