import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addRound, newJob, openJob, putPlan, round, type Scene, setScene } from '../api/scene';
import { freshFolder, type Json, newId, Served } from '../api/shop';
import { openBrowser, openPage } from './page';
import { wavOf } from './wav';

let browser: Browser;
let shop: Served;
let scene: Scene;
let as: string;
let folder: string;

beforeAll(async () => {
  browser = await openBrowser();
  folder = freshFolder();
  shop = await Served.start(join(folder, 'shop.sqlite'));
  scene = await setScene(shop);
  as = `?by_person_id=${scene.by}`;
});
afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

async function tablet(path: string, width = 1280) {
  const opened = await openPage(browser, { width, height: 1000 });
  await opened.page.addInitScript((id) => localStorage.setItem('brakewright/person', id), scene.by);
  await opened.page.goto(shop.address + path);
  return opened;
}

const field = (page: Page, name: string) => page.getByLabel(name, { exact: true });
const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();
const region = (page: Page, name: string) => page.getByRole('region', { name, exact: true });
const reading = (page: Page, text: string) => page.getByText(text).first().waitFor();

const TYRE = '205/55 R16';
/** The same tyre by hand: 94.5 to 98.5 % of its free circumference, the middle of it. */
const TURN_M = (0.965 * Math.PI * (16 * 25.4 + 2 * 205 * 0.55)) / 1000;
/** Beats a second of one wave a turn, at what the speedometer shows. */
const once_hz = (shown: number) => (0.97 * shown) / 3.6 / TURN_M;

/** A sine in noise. */
const recording = (hz: number, seconds = 20, rate = 8000): Buffer =>
  wavOf(seconds, rate, 5, (i, noise) => 9000 * Math.sin((2 * Math.PI * hz * i) / rate) + 6000 * noise);

const saved = (name: string, bytes: Buffer | string): string => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
};

async function pulsating(rest: object): Promise<Json> {
  const body = newJob(scene);
  const job = { ...body.job, ...rest };
  const file = await shop.want('POST', `/jobs${as}`, { ...body, job });
  for (const part of file.parts) await putPlan(shop, scene, file.job.id, part.id, 'before');
  return file;
}

const jobNow = async (file: Json): Promise<Json> => (await shop.want('GET', `/jobs/${file.job.id}`)).job;

describe('what a driver feels, told at arrival', () => {
  it('refuses a tyre in words, is kept over a reload, and names the rhythm of the wheel', async () => {
    const { page, errors, close } = await tablet('/jobs/new');
    expect(await field(page, 'Tyre size').isVisible()).toBe(false);
    await page.getByRole('button', { name: /^Pulsation/ }).click();
    await field(page, 'Tyre size').fill('the wide ones');
    await reading(page, 'a size as on the sidewall is accepted, such as 205/55 R16');
    await field(page, 'Tyre size').fill(TYRE);
    await reading(page, 'One turn covers 1.88 to 1.96 m.');
    await page.getByRole('radio', { name: 'Pedal' }).click();
    await field(page, 'At which speed').fill('fast');
    await field(page, 'Mass of the vehicle, laden as it is driven').fill('1450');
    await field(page, 'Vehicle').fill('grey estate');
    await field(page, 'Who brings it?').fill('class 3');
    await press(page, 'Open the job');
    await reading(page, 'A number over nought, such as 80.');
    await field(page, 'At which speed').fill('80');
    await field(page, 'Pulses a second').fill(once_hz(80).toFixed(2).replace('.', ','));
    await page.reload();
    expect(await field(page, 'Tyre size').inputValue()).toBe(TYRE);
    await press(page, 'Open the job');
    await page.waitForURL(/\/limits$/);
    const number = Number(page.url().match(/jobs\/([0-9]+)/)?.[1]);
    const { job } = await shop.want('GET', `/jobs/${number}`);
    expect(job).toMatchObject({ tyre: TYRE, felt_in: 'pedal', felt_speed_km_per_h: 80, vehicle_mass_kg: 1450 });
    expect(job.felt_frequency_hz).toBeCloseTo(once_hz(80), 1);

    await page.goto(`${shop.address}/jobs/${number}/arrival`);
    await page.getByRole('button', { name: 'Find what pulses' }).click();
    await expect.poll(() => page.locator('.case-word').textContent()).toBe('Once per turn');
    await reading(page, 'What is felt keeps time with once a turn of the wheel.');
    await region(page, 'Which corner').getByText('not read yet').first().waitFor();
    expect(errors).toEqual([]);
    await close();
  });

  it('is settled field by field when two tablets tell it differently', async () => {
    const file = await pulsating({ tyre: TYRE, vehicle_mass_kg: 1400 });
    const { page, errors, close } = await tablet(`/jobs/${file.job.number}/arrival`);
    await field(page, 'Tyre size').fill('195/65 R15');
    await field(page, 'Mass of the vehicle, laden as it is driven').fill('1500');
    await page.reload();
    expect(await field(page, 'Tyre size').inputValue()).toBe('195/65 R15');
    await shop.want('PUT', `/jobs/${file.job.id}${as}`, {
      ...(await jobNow(file)),
      tyre: '215/55 R16',
      odometer: 90_000,
    });
    await press(page, 'Save');
    const drawer = page.getByRole('dialog');
    await drawer.getByRole('heading', { name: 'Tyre size' }).waitFor();
    await drawer.getByRole('button', { name: /^Yours 195\/65 R15/ }).click();
    await drawer.getByRole('button', { name: 'Save the choice' }).click();
    await page.waitForURL(/\/limits$/);
    expect(await jobNow(file)).toMatchObject({ tyre: '195/65 R15', vehicle_mass_kg: 1500, odometer: 90_000 });
    expect(errors).toEqual([]);
    await close();
  });
});

describe('the pulsation detective', () => {
  it('names the corner that was read uneven, as readings come in', async () => {
    const file = await pulsating({ tyre: TYRE, felt_speed_km_per_h: 80, felt_frequency_hz: once_hz(80) });
    const { page, errors, close } = await tablet(`/jobs/${file.job.number}/detective`);
    await expect.poll(() => page.locator('.case-word').textContent()).toBe('Once per turn');
    for (const [part, wave] of [
      [file.parts[0], 0.03],
      [file.parts[1], 0.001],
    ] as const) {
      await addRound(shop, scene, file.job.id, part.id, round(21.4, wave), { confirmed: true });
    }
    const left = region(page, 'Which corner').getByRole('listitem').first();
    await expect.poll(() => left.textContent(), { timeout: 15_000 }).toMatch(/^Front left.*9[0-9] %/);
    expect(errors).toEqual([]);
    await close();
  });

  it('says what is missing and leads to where it is told', async () => {
    const file = await pulsating({});
    const { page, errors, close } = await tablet(`/jobs/${file.job.number}/detective`);
    const missing = region(page, 'Still needed');
    for (const text of ['The tyre’s size', 'The speed at which', 'How many pulses']) {
      await missing.getByText(text).waitFor();
    }
    expect(await page.locator('.case-word').textContent()).toBe('Not known yet');
    await missing.getByRole('link', { name: 'Tell it at arrival' }).click();
    await field(page, 'Tyre size').waitFor();
    expect(errors).toEqual([]);
    await close();
  });

  it('refuses what is no recording in words, finds the beat of one that is, and takes it over', async () => {
    const file = await pulsating({ tyre: TYRE });
    const { page, errors, close } = await tablet(`/jobs/${file.job.number}/detective`);
    const ear = region(page, 'From a recording');
    const choose = (path: string) => ear.locator('input[type=file]').setInputFiles(path);
    await choose(saved('letter.wav', 'Dear sir or madam, it shakes.'));
    await ear.getByText('Needed first').waitFor();
    await field(page, 'Speed while it was recorded').fill('80');
    await ear.getByText('This is no WAV file.').waitFor();
    await choose(saved('talk.m4a', Buffer.from('\0\0\0\x20ftypM4A \0\0\0\0', 'latin1')));
    await ear.getByText('This is an M4A or MP4 file.').waitFor();
    await choose(saved('nothing.wav', ''));
    await ear.getByText('This file is empty.').waitFor();
    await choose(saved('cut.wav', recording(11).subarray(0, 40)));
    await expect.poll(() => ear.getByRole('alert').textContent()).toContain('it holds no data');
    await field(page, 'Speed while it was recorded').fill('2000');
    await ear.getByText('A number from 5 to 300 km/h').waitFor();
    await field(page, 'Speed while it was recorded').fill('80');

    const truth_hz = 2 * once_hz(80) + 0.1;
    await choose(saved('brake.wav', recording(truth_hz)));
    const line = ear.getByRole('listitem').first();
    await line.getByText('where twice a turn should be').waitFor();
    expect(Number(await line.locator('.large-figure').textContent())).toBeCloseTo(truth_hz, 1);
    await line.getByRole('button', { name: /^Take over/ }).click();
    await reading(page, 'The job now has');
    const job = await jobNow(file);
    await reading(page, `The job now has ${job.felt_frequency_hz} a second.`);
    expect(job.felt_frequency_hz).toBeCloseTo(truth_hz, 1);
    expect(job.felt_speed_km_per_h).toBe(80);
    await expect.poll(() => page.locator('.case-word').textContent()).toBe('Twice per turn');
    expect(errors).toEqual([]);
    await close();
  });

  it('listens to the beginning of a recording that is too long to be sent whole', async () => {
    const file = await pulsating({ tyre: TYRE, felt_speed_km_per_h: 80 });
    const { page, errors, close } = await tablet(`/jobs/${file.job.number}/detective`);
    const ear = region(page, 'From a recording');
    const long = saved('long.wav', recording(once_hz(80), 120, 48_000));
    await ear.locator('input[type=file]').setInputFiles(long);
    await ear.getByText('It is long: its first 59 s were listened to.').waitFor();
    await ear.getByText('where once a turn should be').first().waitFor();
    expect(errors).toEqual([]);
    await close();
  });

  it('counts taps of a key, and takes their rate over', async () => {
    const file = await pulsating({ tyre: TYRE, felt_speed_km_per_h: 35 });
    const { page, errors, close } = await tablet(`/jobs/${file.job.number}/detective`);
    const counter = region(page, 'Count with the thumb');
    await counter.getByText('6 more taps').waitFor();
    await counter.getByRole('button', { name: 'Tap', exact: true }).focus();
    for (let i = 0; i < 8; i += 1) {
      await page.keyboard.press('Enter');
      await page.waitForTimeout(200);
    }
    await counter.getByText(/^8 taps in/).waitFor();
    const found = Number(await counter.locator('.large-figure').textContent());
    expect(found).toBeGreaterThan(2);
    expect(found).toBeLessThan(5.2);
    await press(page, 'Take it over into the job');
    await reading(page, 'The job now has');
    expect(Math.abs((await jobNow(file)).felt_frequency_hz - found)).toBeLessThan(0.06);
    expect(errors).toEqual([]);
    await close();
  });
});

/** A job with solid rotors that are measured, cut and measured again. */
async function cutJob(): Promise<Json> {
  const file = await openJob(shop, scene, ['left']);
  const { id } = file.job;
  const [part] = file.parts;
  await shop.want('PUT', `/jobs/${id}/parts/${part.id}${as}`, { ...part, vented: false });
  await addRound(shop, scene, id, part.id, round(21.6, 0.01), { confirmed: true });
  await shop.want('POST', `/jobs/${id}/decisions${as}`, { id: newId(), action: 'cut', reason: 'practice in class' });
  const cut = { id: newId(), part_id: part.id, outboard_marks: 10, inboard_marks: 10, note: '' };
  await shop.want('POST', `/jobs/${id}/cuts${as}`, cut);
  await putPlan(shop, scene, id, part.id, 'after');
  await addRound(shop, scene, id, part.id, round(21.1, 0.002), { confirmed: true, stage: 'after' });
  return shop.want('GET', `/jobs/${id}`);
}

describe('what the cut changes on the road', () => {
  it('asks for what is missing beside its picture, then shows the heat before and after the cut', async () => {
    const file = await cutJob();
    const { page, errors, close } = await tablet(`/jobs/${file.job.number}/record`);
    await page.getByRole('link', { name: 'What it changes on the road' }).click();
    const heat = region(page, 'Still needed for the heat');
    await heat.getByText('The mass of the vehicle').waitFor();
    await region(page, 'Still needed for what a driver would feel').getByText('The tyre’s size.').waitFor();
    await heat.getByRole('textbox', { name: 'Outer diameter of the rotor' }).fill('280');
    await heat.getByRole('button', { name: 'Keep it' }).click();
    const inner = heat.getByRole('textbox', { name: 'Inner diameter of the braking ring' });
    await inner.fill('180');
    await heat.getByRole('button', { name: 'Keep it' }).click();
    await expect.poll(() => inner.count()).toBe(0);
    await heat.getByRole('link', { name: 'Tell it at arrival' }).click();
    await page.getByText('Tyre and mass').waitFor();
    await field(page, 'Tyre size').fill(TYRE);
    await field(page, 'Mass of the vehicle, laden as it is driven').fill('1450');
    await press(page, 'Save');
    await page.waitForURL(/\/limits$/);
    await page.goto(`${shop.address}/jobs/${file.job.number}/road`);

    const stop = region(page, 'One stop');
    await stop.getByText('Before the cut').first().waitFor();
    const { parts } = await shop.want('GET', `/jobs/${file.job.id}/road`);
    const said = (disc: Json) => {
      const { low, high } = disc.stop.rise_surface_max_band_k;
      return `${low.toFixed(0)} to ${high.toFixed(0)} °C`;
    };
    expect(await stop.locator('.heat-before .heat-value').textContent()).toBe(said(parts[0].heat_before));
    expect(await stop.locator('.heat-after .heat-value').textContent()).toBe(said(parts[0].heat_after));
    const rise = (disc: Json) => disc.stop.rise_surface_max_k;
    expect(rise(parts[0].heat_after)).toBeGreaterThan(rise(parts[0].heat_before));
    expect(rise(parts[0].heat_discard)).toBeGreaterThan(rise(parts[0].heat_after));
    const repeats = region(page, '10 stops one after another');
    for (const heading of ['Before the cut', 'After the cut']) {
      await repeats.getByRole('heading', { name: heading }).waitFor();
    }
    await region(page, 'What a driver would feel').waitFor();

    await page.getByText('The stop that is counted with').click();
    await field(page, 'How many stops').fill('many');
    await reading(page, 'A number from 1 to 200.');
    await field(page, 'How many stops').fill('3');
    await region(page, '3 stops one after another').waitFor();
    await page.reload();
    await region(page, '3 stops one after another').waitFor();
    expect(errors).toEqual([]);
    await close();
  });
});

describe('the other axle of the vehicle', () => {
  it('opens as a job beside, with what is the vehicle’s own copied, and each leads to the other', async () => {
    const file = await pulsating({ tyre: TYRE, vehicle_mass_kg: 1450, vehicle: 'green van' });
    const { page, errors, close } = await tablet(`/jobs/${file.job.number}/arrival`);
    await press(page, 'Open the rear axle: drums');
    await page.waitForURL((url) => !url.pathname.includes(`/${file.job.number}/`));
    const number = Number(page.url().match(/jobs\/([0-9]+)/)?.[1]);
    const beside = await shop.want('GET', `/jobs/${number}`);
    expect(beside.job).toMatchObject({
      beside_job_id: file.job.id,
      axle: 'rear',
      vehicle: 'green van',
      tyre: TYRE,
      vehicle_mass_kg: 1450,
    });
    expect(beside.parts.map((part: Json) => [part.side, part.kind])).toEqual([
      ['left', 'drum'],
      ['right', 'drum'],
    ]);
    const same = region(page, 'The same vehicle');
    await same.getByRole('link', { name: `Job ${file.job.number}: front axle, discs` }).click();
    await page.goto(`${shop.address}/jobs/${file.job.number}/arrival`);
    await same.getByRole('link', { name: `Job ${number}: rear axle, drums` }).waitFor();
    expect(await same.getByRole('button', { name: /rear axle/ }).count()).toBe(0);
    await page.goto(shop.address);
    await page.getByRole('link', { name: `Job ${number}: rear axle, drums` }).waitFor();
    expect(errors).toEqual([]);
    await close();
  });
});
