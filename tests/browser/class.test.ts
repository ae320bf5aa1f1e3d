import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Scene, setScene } from '../api/scene';
import { freshFolder, newId, Served } from '../api/shop';
import { openBrowser, openPage, overflows, tooSmall, violations } from './page';

let browser: Browser;
let shop: Served;
let scene: Scene;
const student = newId();

beforeAll(async () => {
  browser = await openBrowser();
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  const person = { id: student, name: 'Bo Linden', role: 'student', active: true };
  await shop.want('PUT', `/people/${student}?by_person_id=${scene.by}`, person);
  await shop.want('POST', `/starter-lists?by_person_id=${scene.by}`);
});
afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

const tabletOf = async (person: string, width = 1024) => {
  const tablet = await openPage(browser, { width });
  await tablet.page.addInitScript((id) => localStorage.setItem('brakewright/person', id), person);
  return tablet;
};

describe('a class', () => {
  it('is made, takes in a list after a look at it, and keeps what is half typed over a reload', async () => {
    const { page, errors, close } = await tabletOf(scene.by);
    await page.goto(`${shop.address}/class`);
    await page.getByRole('button', { name: 'Add a class' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Tuesday group');
    await page.reload();
    await page.getByRole('button', { name: 'Add a class' }).click();
    expect(await page.getByLabel('Name', { exact: true }).inputValue()).toBe('Tuesday group');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByRole('link', { name: 'From a list' }).click();
    await page.getByLabel('Or paste it here').fill('Bo Linden\nCy Marsh\n');
    await page.getByRole('button', { name: 'Look at it first' }).click();
    await page.getByText('1 would be new here, 1 would join').waitFor();
    expect((await shop.want('GET', '/classes'))[0].memberships).toEqual([]);
    await page.getByRole('button', { name: 'Take in 2 people' }).click();
    await page.getByText('1 added, 1 joined').waitFor();
    expect((await shop.want('GET', '/classes'))[0].memberships).toHaveLength(2);

    await page.getByRole('link', { name: 'To the class' }).first().click();
    await page.getByRole('button', { name: 'Change name and term' }).click();
    await page.getByLabel('Name', { exact: true }).fill('given up');
    await page.getByRole('button', { name: 'Leave as it was', exact: true }).click();
    await page.getByRole('button', { name: 'Change name and term' }).click();
    expect(await page.getByLabel('Name', { exact: true }).inputValue()).toBe('Tuesday group');
    expect(errors).toEqual([]);
    await close();
  });
});

describe('a permit', () => {
  it('tells a wrong answer why, and lets it be tried again', async () => {
    const { page, errors, close } = await tabletOf(student, 390);
    await page.goto(`${shop.address}/permit`);
    await page.getByRole('link', { name: 'Answer the safety points' }).click();
    const [point] = await shop.want('GET', '/safety-points');
    const wrong = point.choices.find((_: string, index: number) => index !== point.right_choice);
    await page.getByLabel(wrong).check();
    await page.getByRole('button', { name: 'Answer', exact: true }).click();
    await page.getByText(point.reason).waitFor();
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.getByLabel(point.choices[point.right_choice]).check();
    await page.getByRole('button', { name: 'Answer', exact: true }).click();
    await page.getByText('Right.', { exact: true }).waitFor();
    const [first] = await shop.want('GET', `/people/${student}/safety`);
    expect(first.answered.was_right).toBe(true);
    expect([...(await violations(page)), ...(await tooSmall(page, 44))]).toEqual([]);
    expect(await overflows(page)).toBe(false);
    expect(errors).toEqual([]);
    await close();
  });
});
