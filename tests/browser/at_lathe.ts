import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import { addRound, limits, newJob, putPlan, round, type Scene } from '../api/scene';
import { type Json, newId, type Served } from '../api/shop';
import { openPage } from './page';

/** A shop with what a guided cut needs, and a person at its screen: all invented. */
const put = (shop: Served, { by }: Scene, path: string, body: Json) =>
  shop.want('PUT', `${path}?by_person_id=${by}`, body);

/** A lathe with its levers, an insert with two corners and a band: all invented. */
export async function hangTheIron(shop: Served, scene: Scene): Promise<void> {
  const iron = { insert: newId(), corners: [newId(), newId()] };
  const lathe = (await shop.want('GET', '/shop')).lathes.find((one: Json) => one.id === scene.lathe);
  await put(shop, scene, `/lathes/${scene.lathe}`, {
    ...lathe,
    approach_nm: 6_000_000,
    speeds_rpm: [60, 100, 150],
    feeds_mm_per_rev: [0.05, 0.1, 0.2],
  });
  await put(shop, scene, `/inserts/${iron.insert}`, {
    id: iron.insert,
    name: 'Triangle A',
    nose_radius_nm: 400_000,
    max_speed_m_per_min: 140,
    corners: 3,
    note: '',
    active: true,
  });
  for (const [i, id] of iron.corners.entries()) {
    const body = { id, insert_id: iron.insert, number: i + 1, condition: 'sharp', used_m: 0, note: '' };
    await put(shop, scene, `/corners/${id}`, body);
  }
  const band = newId();
  await put(shop, scene, `/bands/${band}`, {
    id: band,
    name: 'Band 2',
    hook: 'D4',
    least_diameter_nm: 250_000_000,
    most_diameter_nm: 300_000_000,
    note: '',
    active: true,
  });
}

/** A piece of its own for each job, so that none is out for another. */
async function hungPiece(shop: Served, scene: Scene, kind: 'nut' | 'spacer'): Promise<string> {
  const id = newId();
  const size = { unit: 'mm', bore_nm: 25_400_000, length_nm: 20_000_000, weighted: false, damping: false };
  await put(shop, scene, `/pieces/${id}`, {
    id,
    ...size,
    name: `${kind} 20`,
    kind,
    hook: 'A1',
    note: '',
    active: true,
  });
  return id;
}

/** One rotor, measured, decided to be cut, mounted and proven. */
export async function provenJob(shop: Served, scene: Scene): Promise<Json> {
  const post = (path: string, body: Json) => shop.want('POST', `${path}?by_person_id=${scene.by}`, body);
  const wanted = newJob(scene, ['left']);
  const typed = (text: string) => ({ text, unit: 'mm' });
  wanted.parts = wanted.parts.map((part) => ({
    ...part,
    limits,
    outer_diameter: typed('280'),
    seat: { ring_inner: typed('172') },
  }));
  const { job, parts } = await post('/jobs', wanted);
  const part = parts[0].id;
  await putPlan(shop, scene, job.id, part, 'before');
  await post(`/jobs/${job.id}/findings`, {
    id: newId(),
    part_id: part,
    kind: 'nothing_found',
    judgement: 'noted',
    note: '',
  });
  await addRound(shop, scene, job.id, part, round(21.3, 0.02));
  for (const quantity of ['runout_outboard', 'runout_inboard']) {
    const swing = round(0.02, 0.02).map((text) => text);
    await addRound(shop, scene, job.id, part, swing, { quantity, instrument_id: scene.dial });
  }
  await post(`/jobs/${job.id}/decisions`, { id: newId(), action: 'cut', reason: 'It shakes.' });
  await post(`/jobs/${job.id}/mounts`, {
    id: newId(),
    part_id: part,
    lathe_id: scene.lathe,
    piece_ids: [await hungPiece(shop, scene, 'spacer'), await hungPiece(shop, scene, 'nut')],
    reason: 'The dimensions of this rotor are not on record.',
  });
  await post(`/jobs/${job.id}/mount-proofs`, {
    id: newId(),
    part_id: part,
    kind: 'indicator',
    runout: typed('0.03'),
    goes_on: true,
    reason: '',
  });
  return shop.want('GET', `/jobs/${job.id}`);
}

export const heading = (page: Page, name: string) =>
  page.getByRole('heading', { level: 1, name, exact: true }).waitFor();
export const title = (page: Page) => page.locator('h1').textContent();

/** A tablet whose clock is the test's own. */
export async function tabletAt(browser: Browser, scene: Scene, looks: Parameters<typeof openPage>[1]) {
  const opened = await openPage(browser, looks);
  await opened.page.addInitScript((id) => localStorage.setItem('brakewright/person', id), scene.by);
  await opened.page.clock.install();
  return opened;
}

/** Past what counts as one tap, by the test's clock. */
export const breathe = (page: Page) => page.clock.fastForward(500);

/** Ticks the step that is shown and waits for the next one; gives its title. */
export async function tick(page: Page): Promise<string> {
  const before = await title(page);
  await breathe(page);
  await page.keyboard.press('Enter');
  await expect.poll(() => title(page), { timeout: 10_000 }).not.toBe(before);
  return (await title(page)) ?? '';
}

export async function tickTo(page: Page, name: string, onStep: (at: string) => Promise<void> = async () => undefined) {
  for (let i = 0; i < 40; i += 1) {
    const at = (await title(page)) ?? '';
    if (at === name) return;
    await onStep(at);
    await tick(page);
  }
  throw new Error(`never came to ${name}; it stands at ${await title(page)}`);
}

export const seconds = async (page: Page): Promise<number> => {
  const text = (await page.getByRole('timer').textContent()) ?? '';
  const [minutes = '0', rest = '0'] = text.replace('+', '').split(':');
  return Number(minutes) * 60 + Number(rest);
};
