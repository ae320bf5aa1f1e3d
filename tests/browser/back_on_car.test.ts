import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addRound, limits, putPlan, round, type Scene, setScene } from '../api/scene';
import { freshFolder, type Json, newId, Served } from '../api/shop';
import { breathe, heading, tabletAt, tick, title } from './at_lathe';
import { openBrowser } from './page';

let browser: Browser;
let shop: Served;
let scene: Scene;

beforeAll(async () => {
  browser = await openBrowser();
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  const dial = (await shop.want('GET', '/shop')).instruments.find((one: Json) => one.id === scene.dial);
  await shop.want('PUT', `/instruments/${scene.dial}?by_person_id=${scene.by}`, {
    ...dial,
    resolution_nm: 1000,
    mpe_nm: 2000,
    repeatability_nm: 1000,
  });
});

afterAll(async () => {
  await browser?.close();
  await shop?.stop();
});

const STUDS = 5;
const POINTS = 8;

interface Tilt {
  um: number;
  high_deg: number;
}

/** An invented hub that is out of true, the rotor as it came, and the rotor as the lathe left it. */
const HUB: Tilt = { um: 22, high_deg: 40 };
const CAME: Tilt = { um: 26, high_deg: 300 };
const CUT: Tilt = { um: 20, high_deg: 130 };

const cosine = (deg: number) => Math.cos((deg * Math.PI) / 180);

/** What the indicator shows at each point from the hub's mark, the rotor turned by so many studs. */
function traceOf(rotor: Tilt, turned: number): string[] {
  const at = (deg: number) =>
    HUB.um * cosine(deg - HUB.high_deg) + rotor.um * cosine(deg - rotor.high_deg - (360 * turned) / STUDS);
  return Array.from({ length: POINTS }, (_, point) => ((60 + at((360 * point) / POINTS)) / 1000).toFixed(3));
}

const peakToValley = (texts: readonly string[]) => Math.max(...texts.map(Number)) - Math.min(...texts.map(Number));

/** The position that leaves least, by trying them all on the invented truth. */
const best = Array.from({ length: STUDS }, (_, turned) => turned).reduce((a, b) =>
  peakToValley(traceOf(CUT, b)) < peakToValley(traceOf(CUT, a)) ? b : a,
);

const post = (path: string, body: Json) => shop.want('POST', `${path}?by_person_id=${scene.by}`, body);

/** Types the readings as a hand does, each point when the one before it is kept. */
async function readRound(page: Page, texts: readonly string[]): Promise<void> {
  for (const [i, text] of texts.entries()) {
    await page
      .getByText(`Point ${i + 1} of ${texts.length}`)
      .first()
      .waitFor();
    await page.keyboard.type(text, { delay: 40 });
    await page.keyboard.press('Enter');
    await page
      .getByText(`Point ${i + 1} ${text}`)
      .first()
      .waitFor();
  }
}

const click = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: true }).click();

async function openAtArrival(page: Page): Promise<Json> {
  await page.goto(`${shop.address}/jobs/new`);
  await heading(page, 'A new job');
  await page.getByRole('button', { name: /^Pulsation/ }).click();
  await page.getByLabel('Vehicle', { exact: true }).fill('grey saloon, 1.6');
  await page.getByLabel('Who brings it?').fill('class 3');
  await page.getByRole('radio', { name: 'Left only' }).click();
  await click(page, 'Open the job');
  await heading(page, 'Limits');
  const { lines } = await shop.want('GET', '/jobs?state=open&limit=1');
  return shop.want('GET', `/jobs/${lines[0].job.id}`);
}

/** What the hands do elsewhere: limits, a look, and thickness at the bench. */
async function toTheCar(job: string, part: Json): Promise<void> {
  await shop.want('PUT', `/jobs/${job}/parts/${part.id}?by_person_id=${scene.by}`, {
    ...part,
    limits,
    outer_diameter: { text: '280', unit: 'mm' },
  });
  await post(`/jobs/${job}/findings`, {
    id: newId(),
    part_id: part.id,
    kind: 'nothing_found',
    judgement: 'noted',
    note: '',
  });
}

async function readOnCar(page: Page, number: number): Promise<void> {
  await page.goto(`${shop.address}/jobs/${number}/arrival`);
  await page.getByRole('link', { name: 'Read it on the car' }).click();
  await heading(page, 'How these wheels are read');
  await page.getByRole('radiogroup', { name: 'Studs of the hub' }).getByRole('radio', { name: '5' }).click();
  await page.getByRole('radio', { name: 'Dial 3 0.001 mm' }).click();
  await click(page, 'Begin with the bearing');
  await heading(page, 'Bearing play first');
  await click(page, 'Begin to read');
  await page.keyboard.type('0.02');
  await page.keyboard.press('Enter');
  await page.getByText('Bearing play 0.02 mm').first().waitFor();
  await click(page, 'Next: the rotor on its hub');
  await heading(page, 'The rotor as it came');
  await click(page, 'Begin to read');
  await readRound(page, traceOf(CAME, 0));
  await click(page, 'Next: the bare hub');
  await heading(page, 'The bare hub');
  await click(page, 'Leave it out');
  await heading(page, 'Turn the rotor clockwise by 2 studs');
  await click(page, 'Begin to read');
  await readRound(page, traceOf(CAME, 2));
}

/** Decided, cut and read at the bench, where the rotor still runs out a little. */
async function cutAtTheBench(job: string, part: string): Promise<void> {
  await putPlan(shop, scene, job, part, 'before');
  await addRound(shop, scene, job, part, round(21.3, 0.02));
  await post(`/jobs/${job}/decisions`, { id: newId(), action: 'cut', reason: 'It shakes.' });
  await post(`/jobs/${job}/cuts`, {
    id: newId(),
    part_id: part,
    outboard_marks: 6,
    inboard_marks: 6,
    note: '',
  });
  await putPlan(shop, scene, job, part, 'after');
  const after = { stage: 'after' };
  await addRound(shop, scene, job, part, round(20.995, 0.001), after);
  const runout = Array.from({ length: POINTS }, (_, point) =>
    ((60 + CUT.um * cosine((360 * point) / POINTS - CUT.high_deg)) / 1000).toFixed(3),
  );
  await addRound(shop, scene, job, part, runout, {
    ...after,
    quantity: 'runout_outboard',
    instrument_id: scene.dial,
  });
}

/** The drums of the rear axle, a job beside that of the discs in front. */
async function openTheDrums(page: Page, number: number): Promise<Json> {
  await page.goto(`${shop.address}/jobs/${number}/arrival`);
  await click(page, 'Open the rear axle: drums');
  await page.waitForURL((url) => !url.pathname.includes(`/${number}/`));
  return shop.want('GET', `/jobs/${page.url().match(/jobs\/([0-9]+)/)?.[1]}`);
}

/** Both jobs of the vehicle are in the record that its page offers. */
async function printTheVehicle(page: Page, number: number, drums: Json): Promise<void> {
  await page.goto(`${shop.address}/jobs/${number}/record`);
  await page.getByRole('link', { name: `Job ${drums.job.number}: rear axle, drums` }).waitFor();
  const link = page.getByRole('link', { name: 'Print the whole vehicle' });
  const alone = page.getByRole('link', { name: 'Print, PDF' });
  const sheets = async (of: typeof link) => {
    const answer = await page.request.get(`${shop.address}${await of.getAttribute('href')}`);
    expect(answer.headers()['content-type']).toBe('application/pdf');
    return (await answer.body()).toString('latin1').match(/\/Type \/Page\b/g)?.length ?? 0;
  };
  expect(await sheets(link)).toBeGreaterThan(await sheets(alone));
}

describe('a car that shakes, with discs in front and drums behind', () => {
  it('is read on the car in two positions, cut, and put back in the position that is worked out', async () => {
    const { page, errors, close } = await tabletAt(browser, scene, { width: 820, height: 1180 });
    const { job, parts } = await openAtArrival(page);
    const part = parts[0];
    const drums = await openTheDrums(page, job.number);
    expect(drums.job.beside_job_id).toBe(job.id);
    await toTheCar(job.id, part);
    await readOnCar(page, job.number);
    const came = await shop.want('GET', `/jobs/${job.id}`);
    expect(came.parts[0].studs).toBe(STUDS);
    expect(came.readings.filter((one: Json) => one.stage === 'on_car')).toHaveLength(1 + 2 * POINTS);

    await cutAtTheBench(job.id, part.id);
    expect((await shop.want('GET', `/jobs/${job.id}/assessment`)).waits_for).toBe('refit');
    const advice = await shop.want('GET', `/jobs/${job.id}/parts/${part.id}/refit`);
    expect(advice.refit.best.position).toBe(best);

    await page.goto(`${shop.address}/jobs/${job.number}/refit`);
    const turn = best === 1 ? 'Turn it clockwise by 1 stud' : '';
    await heading(page, turn);
    await page.getByRole('figure', { name: 'How the rotor goes on' }).waitFor();
    const foreseen_mm = Number(await page.locator('.refit-digits').textContent());
    expect(foreseen_mm).toBeCloseTo(advice.refit.best.runout_um / 1000, 3);
    expect(Math.abs(foreseen_mm - peakToValley(traceOf(CUT, best)))).toBeLessThan(0.012);

    await page.getByRole('button', { name: /^on its mark/ }).click();
    await heading(page, 'Put it back on its mark');
    expect(await page.getByRole('button', { name: /^Say why another position/ }).isDisabled()).toBe(true);
    await page.getByRole('button', { name: /^1 clockwise/ }).click();
    await heading(page, turn);

    await click(page, 'Begin: clean the hub');
    await heading(page, 'Clean the hub’s flange');
    await putBackOn(page, turn);
    await readFitted(page, job.id);
    await tellTheDriver(page);

    const file = await shop.want('GET', `/jobs/${job.id}`);
    expect(file.refits).toHaveLength(1);
    expect(file.refits[0]).toMatchObject({
      position: best,
      studs: STUDS,
      nut_torque_nm: 110,
      torque_source: 'owner’s book, page 212',
      reason: '',
    });
    expect(file.refits[0].foreseen_runout_um).toBeCloseTo(advice.refit.best.runout_um, 6);
    expect((await shop.want('GET', `/jobs/${job.id}/assessment`)).waits_for).toBe('seal');
    await printTheVehicle(page, job.number, drums);
    expect(errors).toEqual([]);
    await close();
  });
});

async function putBackOn(page: Page, turn: string): Promise<void> {
  expect(await tick(page)).toBe('Clean inside the hat');
  expect(await tick(page)).toBe(turn);
  expect(await tick(page)).toBe('All nuts on by hand');
  await breathe(page);
  await click(page, 'All are on');
  await page.getByText('Say where the figure stands.').waitFor();
  await page.getByLabel('Torque of this vehicle').fill('110');
  await page.getByLabel('Where it stands').fill('owner’s book, page 212');
  expect(await tick(page)).toBe('First round');
  await page.getByText('33', { exact: true }).waitFor();
  expect(await tick(page)).toBe('Second round');
  await page.getByText('66', { exact: true }).waitFor();
  expect(await tick(page)).toBe('Last round');
  await page.getByText('110', { exact: true }).waitFor();
  expect(await tick(page)).toBe('Read it as it is fitted');
}

/** Read again as it is fitted: within the limit, and what was foreseen. */
async function readFitted(page: Page, job: string): Promise<void> {
  await breathe(page);
  await click(page, 'Begin to read');
  await readRound(page, traceOf(CUT, best));
  await click(page, 'Back to the steps');
  await page.getByText(peakToValley(traceOf(CUT, best)).toFixed(3), { exact: true }).waitFor();
  await page.getByText(/Within the limit that was entered/).waitFor();
  const { readings } = await shop.want('GET', `/jobs/${job}`);
  const fitted = readings.filter((one: Json) => one.stage === 'refit');
  expect(fitted).toHaveLength(POINTS);
  expect(fitted.every((one: Json) => one.circle === best)).toBe(true);
}

async function tellTheDriver(page: Page): Promise<void> {
  expect(await tick(page)).toBe('Pump the pedal hard');
  expect(await tick(page)).toBe('Give the driver the card');
  await page.getByRole('region', { name: 'For the driver' }).waitFor();
  expect(await tick(page)).toBe('Say when the nuts are drawn up again');
  expect(await tick(page)).toBe('It is back on the car');
  expect(await title(page)).toBe('It is back on the car');
  await page.getByRole('link', { name: 'To the record' }).waitFor();
}
