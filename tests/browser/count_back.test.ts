import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Scene, setScene } from '../api/scene';
import { freshFolder, type Json, newId, Served } from '../api/shop';
import { decidedJob, hangPieces, measureArbor, PIECES } from './iron';
import { openBrowser, openPage, overflows, tooSmall, violations } from './page';

let browser: Browser;
let shop: Served;
let scene: Scene;
const student = newId();
const TAKEN = ['Bell left', 'Cone middle', 'Spring', 'Nut'];

beforeAll(async () => {
  browser = await openBrowser();
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  await measureArbor(shop, scene);
  await hangPieces(shop, scene);
  const body = { id: student, name: 'Ben Ash', role: 'student', active: true };
  await shop.want('PUT', `/people/${student}?by_person_id=${scene.by}`, body);
});
afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

const states = async (): Promise<Record<string, string>> =>
  Object.fromEntries((await shop.want('GET', '/pegboard')).map((hung: Json) => [hung.piece.name, hung.state]));
const idOf = (name: string) => PIECES.find((one) => one.name === name)?.id as string;

/** A rotor that Ben Ash mounted, cut and finished; its pieces are still out. */
async function finishedJob(): Promise<Json> {
  const job = await decidedJob(shop, scene, 'hubless');
  const part_id = job.parts[0].id;
  const post = (what: string, body: Json) =>
    shop.want('POST', `/jobs/${job.job.id}/${what}?by_person_id=${student}`, { id: newId(), part_id, ...body });
  const piece_ids = TAKEN.map(idOf);
  await post('mounts', { lathe_id: scene.lathe, piece_ids, reason: 'The dimensions of this rotor are not on record.' });
  await post('mount-proofs', { kind: 'indicator', runout: { text: '0.02', unit: 'mm' }, goes_on: true, reason: '' });
  await post('cuts', { outboard_marks: 4, inboard_marks: 4, note: '' });
  for (const step of ['sand_outboard', 'sand_inboard', 'washed', 'cloth_white', 'cool']) {
    await post('bench-steps', { phase: 'finish', step, pass: 0, event: 'done', detail: '' });
  }
  return job;
}

it('the pieces of a job are counted back at its end, and the one that is missing is said with whom it was', async () => {
  const job = await finishedJob();
  expect(Object.entries(await states()).filter(([, state]) => state === 'in_use')).toHaveLength(TAKEN.length);
  const { page, errors, close } = await openPage(browser, { width: 390, height: 844, touch: true });
  await page.addInitScript((id) => localStorage.setItem('brakewright/person', id), scene.by);
  await page.goto(`${shop.address}/jobs/${job.job.number}/finish`);
  const back = page.getByRole('region', { name: 'Back on the pegboard' });
  await back.getByText('4 pieces are still out.').waitFor();
  // In the order of the hooks, as one walks along the board.
  expect(await back.locator('.hook-place').allTextContents()).toEqual(['A2', 'B1', 'C1', 'F1']);
  expect(await overflows(page)).toBe(false);
  expect(await tooSmall(page, 44)).toEqual([]);
  expect(await violations(page)).toEqual([]);

  await back.getByRole('button', { name: 'Spring is back on its hook' }).tap();
  await back.getByText('3 pieces are still out.').waitFor();
  await back.getByRole('button', { name: 'Cone middle is missing' }).tap();
  await back.getByText('2 pieces are still out.').waitFor();
  await back.getByText('Missing: Cone middle, last with Ben Ash. Tell the teacher.').waitFor();
  expect(await states()).toMatchObject({ Spring: 'on_board', 'Cone middle': 'missing', 'Bell left': 'in_use' });
  await back.getByRole('button', { name: 'All 2 are back' }).tap();
  await back.getByText('Nothing is out for this job any more; 1 piece is missing.').waitFor();
  await expect.poll(states).toMatchObject({ 'Bell left': 'on_board', Nut: 'on_board', 'Cone middle': 'missing' });

  await page.goto(`${shop.address}/shop/pegboard`);
  const hook = page.getByRole('button', { name: /^A2 ?Cone middle/ });
  await hook.getByText(`Missing from job ${job.job.number}: so said Ada Stone`, { exact: false }).waitFor();
  await hook.tap();
  const sheet = page.getByRole('dialog');
  await sheet.getByText(`taken, job ${job.job.number}`).waitFor();
  await sheet.getByText(/Ben Ash/).waitFor();
  await sheet.getByRole('button', { name: 'Found' }).tap();
  await expect.poll(states).toMatchObject({ 'Cone middle': 'on_board' });

  await page.goto(`${shop.address}/jobs/${job.job.number}/finish`);
  await back.getByText('Everything that was taken for this job is back on its hook.').waitFor();
  expect(errors).toEqual([]);
  await close();
});
