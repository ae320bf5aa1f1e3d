import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type Scene, setScene } from '../api/scene';
import { freshFolder, type Json, Served } from '../api/shop';
import { decidedJob, hangPieces, measureArbor, PIECES } from './iron';
import { focusedName, openBrowser, openPage, overflows, press, shot, tabTo, tooSmall, type, violations } from './page';

let browser: Browser;
let shop: Served;
let scene: Scene;
let open: { errors: string[]; close: () => Promise<void> }[] = [];

beforeAll(async () => {
  // Each test has a shop of its own, and each shop listens for the end of the tests.
  process.setMaxListeners(40);
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
});
beforeEach(async () => {
  open = [];
  shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  scene = await setScene(shop);
  await measureArbor(shop, scene);
});
afterEach(async () => {
  for (const one of open) {
    expect(one.errors).toEqual([]);
    await one.close();
  }
  await shop.stop();
});

async function tablet(at: string, looks: Parameters<typeof openPage>[1] = { width: 1024, height: 768 }) {
  const opened = await openPage(browser, looks);
  open.push(opened);
  await opened.page.addInitScript((id) => localStorage.setItem('brakewright/person', id), scene.by);
  await opened.page.goto(`${shop.address}${at}`);
  await opened.page.waitForSelector('.screen');
  return opened.page;
}

/** With the patience that a busy machine needs. */
const eventually = <T>(found: () => T | Promise<T>) => expect.poll(found, { timeout: 30_000 });
const heading = (page: Page, text: string | RegExp) =>
  page.getByRole('heading', { level: 1, name: text, exact: true }).waitFor();
const pieces = async (): Promise<Json[]> => (await shop.want('GET', '/pegboard')).map((hung: Json) => hung.piece);
const states = async (): Promise<Record<string, string>> =>
  Object.fromEntries((await shop.want('GET', '/pegboard')).map((hung: Json) => [hung.piece.name, hung.state]));
const file = (job: Json): Promise<Json> => shop.want('GET', `/jobs/${job.job.id}`);
const withKind = (id: string) => {
  const piece = PIECES.find((one) => one.id === id);
  return `${piece?.name} ${piece?.kind}`;
};

/** Each text and Enter, into whatever has the focus. */
async function enterEach(page: Page, texts: readonly string[]): Promise<void> {
  for (const text of texts) {
    if (text !== '') await page.keyboard.insertText(text);
    await page.keyboard.press('Enter');
  }
}

async function paste(page: Page, text: string): Promise<void> {
  await page.evaluate((block) => {
    const data = new DataTransfer();
    data.setData('text/plain', block);
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
  }, text);
}

describe('the pegboard is filled', () => {
  it('row by row with Enter alone, what a kind is not asked for passed over', async () => {
    const page = await tablet('/shop/pegboard?view=grid');
    await eventually(() => focusedName(page)).toBe('Row 1, name');
    await enterEach(page, ['K7', 'cone', 'A1', 'mm', '25.4', '35', '55', '71', '8', '']);
    await eventually(async () => (await pieces()).length).toBe(1);
    expect(await focusedName(page)).toBe('Row 2, name');
    // The kind, unit and bore of the row above stand there already; a nut has a length alone.
    await enterEach(page, ['N1', 'nut', 'F1', 'mm', '25.4', '28']);
    expect(await focusedName(page)).toBe('Row 2, runout, µm');
    await enterEach(page, ['', '']);
    await eventually(async () => (await pieces()).map((piece) => piece.name).sort()).toEqual(['K7', 'N1']);
    const cone = (await pieces()).find((piece) => piece.name === 'K7');
    expect(cone).toMatchObject({ small_nm: 55_000_000, large_nm: 71_000_000, length_nm: 35_000_000, runout_um: 8 });
  });

  it('with arrows, and loses no row that is not complete when the page is loaded again', async () => {
    const page = await tablet('/shop/pegboard?view=grid');
    await eventually(() => focusedName(page)).toBe('Row 1, name');
    await enterEach(page, ['Half done', 'spacer']);
    await page.keyboard.press('ArrowLeft');
    expect(await focusedName(page)).toBe('Row 1, kind');
    await page.reload();
    await page.getByLabel('Row 1, name').waitFor();
    expect(await page.getByLabel('Row 1, name').inputValue()).toBe('Half done');
    await page.getByText('wants bore, length').waitFor();
    expect(await pieces()).toEqual([]);
  });

  it('says in the row why the shop does not take it, and takes it when it is mended', async () => {
    const page = await tablet('/shop/pegboard?view=grid');
    await eventually(() => focusedName(page)).toBe('Row 1, name');
    await enterEach(page, ['Upside down', 'cone', 'A1', 'mm', '25.4', '35', '71', '55', '', '']);
    await page.getByText(/^Small end: must be less than/).waitFor();
    expect(await page.getByLabel('Row 1, small end').getAttribute('aria-invalid')).toBe('true');
    await page.getByLabel('Row 1, small end').fill('50');
    await page.keyboard.press('Tab');
    await page.getByLabel('Row 2, name').focus();
    await eventually(async () => (await pieces()).length).toBe(1);
  });

  it('with a block from a spreadsheet, headings in any order, decimal commas, both units', async () => {
    const page = await tablet('/shop/pegboard?view=grid');
    await eventually(() => focusedName(page)).toBe('Row 1, name');
    const sizes = Array.from({ length: 38 }, (_, i) => `spacer;D${i + 1};H${i + 1};mm;25,4;${i + 1},5`);
    const rows = ['Kind;Name;Hook;Unit;Bore;Length', ...sizes, 'nut;Inch nut;N1;in;1;1-1/8', 'cone;Half;A1;mm;25,4;30'];
    await paste(page, rows.join('\n'));
    await eventually(async () => (await pieces()).length).toBe(39);
    await page.getByText('wants small end, large end').waitFor();
    await page.getByText('39 saved, 1 not yet').waitFor();
    const all = await pieces();
    expect(all.find((piece) => piece.name === 'D3')).toMatchObject({ length_nm: 3_500_000, hook: 'H3' });
    expect(all.find((piece) => piece.name === 'Inch nut')).toMatchObject({ unit: 'in', length_nm: 28_575_000 });
  });

  it('from a table that is looked at first', async () => {
    const page = await tablet('/shop/pegboard?view=import');
    await page
      .getByLabel('Or paste it here')
      .fill('name,kind,hook,bore,length\nS1,spacer,E1,25.4,10\nS2,spacer,E2,25.4,');
    await press(page, 'Look at it first');
    await page.getByText(/1 would be refused/).waitFor();
    expect(await pieces()).toEqual([]);
    await page.getByLabel('Or paste it here').fill('name,kind,hook,bore,length\nS1,spacer,E1,25.4,10');
    await press(page, 'Look at it first');
    await press(page, 'Take in 1 piece');
    await eventually(async () => (await pieces()).map((piece) => piece.name)).toEqual(['S1']);
  });
});

describe('the lathe and its edges', () => {
  it('are entered by keys: an arbor that contradicts itself is refused beside its field, lists become chips', async () => {
    const page = await tablet('/shop/lathes');
    await press(page, /^Bench 1/);
    await page.getByText('One mark takes 25.4 µm (0.0010 in) off one face', { exact: false }).waitFor();
    await page.getByRole('radio', { name: 'diameter, the double of it' }).click();
    await page
      .getByText('A step that is printed as 50.8 µm (0.0020 in) takes 25.4 µm (0.0010 in) off one face.')
      .waitFor();
    const tip = page.getByRole('textbox', { name: 'Tip, from the shoulder' });
    await tip.fill('120');
    await page.getByText('The tip must lie further out than where the thread starts.', { exact: false }).waitFor();
    expect(await tip.getAttribute('aria-invalid')).toBe('true');
    // Slower than fingers: Save is pressed while the last length is still being read.
    await page.route('**/calc/length', async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 3000));
      await route.continue();
    });
    await tip.fill('9 in');
    await page.getByRole('textbox', { name: 'Speeds, turns a minute' }).fill('130 60, 90');
    await page.getByRole('button', { name: 'Take out 90 a minute' }).click();
    await press(page, 'Save');
    await page.getByRole('button', { name: /^Bench 1/ }).waitFor();
    const lathe = (await shop.want('GET', '/shop')).lathes.find((one: Json) => one.id === scene.lathe);
    expect(lathe).toMatchObject({ tip_nm: 228_600_000, speeds_rpm: [60, 130], dial_reads: 'diameter' });
  });

  it('turn from a worn corner to the next, and keep a band with its hook', async () => {
    const page = await tablet('/shop/edges');
    await press(page, 'Add an insert');
    await type(page, 'Name', 'Triangle');
    await type(page, 'Nose radius', '0.4');
    await type(page, 'Most surface speed in grey iron', '150');
    await press(page, 'Save');
    await press(page, 'Turn to a new corner');
    await page.getByText('Corner 1 is worn, corner 2 is in use.').waitFor();
    const view = await shop.want('GET', '/shop');
    expect(view.inserts[0]).toMatchObject({ nose_radius_nm: 400_000, corners: 3 });
    expect(view.corners.map((one: Json) => [one.number, one.condition]).sort()).toEqual([
      [1, 'worn'],
      [2, 'sharp'],
    ]);
    await page.getByRole('radio', { name: 'Damping bands' }).click();
    await press(page, 'Add a band');
    await type(page, 'Name', 'Wide rubber');
    await type(page, 'Hook', 'G1');
    await type(page, 'Smallest rotor that it fits, diameter', '240');
    await type(page, 'Largest rotor that it fits, diameter', '320');
    await press(page, 'Save');
    await page.getByRole('button', { name: /^Wide rubber hook G1 · 240\.0 mm to 320\.0 mm/ }).waitFor();
  });
});

describe('a hubless rotor, from the decided job to the proven mount, by keys alone', () => {
  it('asks for what the stack touches, shows it hook by hook, and proves it with an indicator', async () => {
    await hangPieces(shop, scene);
    const job = await decidedJob(shop, scene, 'hubless');
    const page = await tablet(`/jobs/${job.job.number}/mount`);
    await heading(page, 'What the stack touches');
    await eventually(() => focusedName(page)).toBe('A · Centre bore');
    await enterEach(page, ['65.0', '7', '72', '140', '', '', '170', '280 mm']);
    await heading(page, 'Mount');
    await eventually(() => page.locator('.stack-name').allTextContents()).toContain('Cone middle cone');
    expect(await page.locator('.stack-line .hook-place').allTextContents()).toContain('A2');
    await page.getByText('Left-hand thread: tighten the nut against the clock, seen from the tip.').first().waitFor();
    expect(await page.locator('.stack-number').count()).toBe(await page.locator('.stack-line').count());

    await press(page, 'Rubber 25 is not on its hook');
    await eventually(() => page.locator('.stack-name').allTextContents()).not.toContain('Rubber 25 spacer');
    expect((await states())['Rubber 25']).toBe('missing');

    const shown = (await page.locator('.stack-name').allTextContents()).filter((name) => name !== 'the rotor');
    await press(page, 'These are on the arbor');
    await heading(page, 'Prove the mount');
    const [mount] = (await file(job)).mounts;
    expect(mount.piece_ids.map(withKind)).toEqual(shown);
    expect(shown.slice(1, 3)).toEqual(['Spring spring', 'Cone middle cone']);
    expect(shown.at(-1)).toBe('Nut nut');
    expect((await states())['Cone middle']).toBe('in_use');

    await tabTo(page, 'Bore of the rotor: no rust, no burr.');
    await page.keyboard.press('Space');
    await eventually(async () => (await file(job)).bench_steps.map((one: Json) => one.step)).toEqual(['bore_clean']);
    await tabTo(page, 'Swing of the needle in one turn');
    await page.keyboard.type('0.08');
    await page.getByText('whose wobble it is cannot be told').waitFor();
    await press(page, 'Record it, mount again');
    await heading(page, 'Mount');
    await press(page, 'These are on the arbor');
    await heading(page, 'Prove the mount');
    await tabTo(page, 'Swing of the needle in one turn');
    await page.keyboard.insertText('0.022');
    await page.keyboard.press('Enter');
    await page.getByText('Within the shop’s rule: go on.').waitFor();
    await tabTo(page, 'Next: plan of the cut');
    const proofs = (await file(job)).mount_proofs;
    expect(proofs.map((one: Json) => [one.runout_um, one.goes_on])).toEqual([
      [80, false],
      [22, true],
    ]);

    await page.goto(`${shop.address}/shop/pegboard`);
    await press(page, /^F1 ?Nut/);
    await page.getByText(`In use: job ${job.job.number}, Ada Stone`, { exact: false }).last().waitFor();
    await press(page, 'Bring back');
    await eventually(async () => (await states()).Nut).toBe('on_board');
    await page.getByText('brought back').waitFor();
  });

  it('names the one dimension that misses, large, when nothing fits', async () => {
    await hangPieces(shop, scene);
    const job = await decidedJob(shop, scene, 'hubless');
    const page = await tablet(`/jobs/${job.job.number}/mount`);
    await eventually(() => focusedName(page)).toBe('A · Centre bore');
    await enterEach(page, ['88', '7', '72', '140', '', '', '', '']);
    await heading(page, 'Nothing on the pegboard carries this rotor');
    // A cone takes a bore up to three quarters of its height: 66 + 0.75 · 18 = 79.5 mm, 8.5 mm short of this one.
    expect(await page.locator('.miss-large .miss-figure').textContent()).toBe('8.50 mm');
    await page
      .getByText(/Cone large/)
      .first()
      .waitFor();
  });

  it('takes an own choice of pieces only with a reason', async () => {
    await hangPieces(shop, scene);
    const job = await decidedJob(shop, scene, 'hubless');
    const page = await tablet(`/jobs/${job.job.number}/mount`);
    await eventually(() => focusedName(page)).toBe('A · Centre bore');
    await enterEach(page, ['65.0', '7', '72', '140', '', '', '', '']);
    await heading(page, 'Mount');
    await page.getByRole('radio', { name: 'Own choice' }).click();
    await press(page, 'Leave Spring out');
    await press(page, 'These are on the arbor');
    await page.getByText(/say in words why it is right all the same/).waitFor();
    await type(page, 'Why it is right all the same', 'The teacher holds the cone by hand.');
    await press(page, 'These are on the arbor');
    await heading(page, 'Prove the mount');
    expect((await file(job)).mounts[0].reason).toBe('The teacher holds the cone by hand.');
  });
});

describe('a rotor with its hub, from the decided job to the proven mount', () => {
  it('sits on two tapers, and two scratches tell the rotor from the mount', async () => {
    await hangPieces(shop, scene);
    const job = await decidedJob(shop, scene, 'integral_hub');
    const page = await tablet(`/jobs/${job.job.number}/mount`, { width: 390, height: 844, theme: 'dark' });
    await eventually(() => focusedName(page)).toBe('A · Hub, from race to race');
    await enterEach(page, ['78', '64', '48', '170', '280']);
    await heading(page, 'Mount');
    await eventually(() => page.locator('.stack-name').allTextContents()).toContain('Taper wide taper');
    await press(page, 'These are on the arbor');
    await heading(page, 'Prove the mount');
    await page.getByText('Grease is out; the cups are tight and unmarked.').waitFor();
    await page.getByRole('radio', { name: 'Two scratches' }).click();
    await page.getByRole('textbox', { name: 'Middle, from index' }).first().focus();
    // Methods 5: a mark of 180 degrees at 0.02 mm is an amplitude of 20 µm. The same place twice is all the rotor's.
    await enterEach(page, ['40', '180', '0.02', '40', '180']);
    await page.keyboard.type('0.02');
    await page.locator('.share').first().waitFor();
    expect(await page.locator('.share').allTextContents()).toEqual([
      expect.stringMatching(/^Rotor0\.040 mm, high at 40°/),
      expect.stringMatching(/^Mount0\.000 mm/),
    ]);
    await page.getByText('it would cost 0.000 mm of thickness').waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('link', { name: 'Next: plan of the cut' }).waitFor();
    const [proof] = (await file(job)).mount_proofs;
    expect(proof.part_runout_um).toBeCloseTo(40, 6);
    expect(proof.mount_runout_um).toBeCloseTo(0, 6);
  });

  it('reads a trace with a gauge’s cable, each reading with its Enter, at its own speed', async () => {
    await hangPieces(shop, scene);
    const job = await decidedJob(shop, scene, 'integral_hub');
    const page = await tablet(`/jobs/${job.job.number}/mount`);
    await eventually(() => focusedName(page)).toBe('A · Hub, from race to race');
    await enterEach(page, ['78', '64', '48', '', '']);
    await heading(page, 'Mount');
    await press(page, 'These are on the arbor');
    await heading(page, 'Prove the mount');
    await page.getByRole('radio', { name: 'Round the turn' }).click();
    await page.getByLabel('At 0°').focus();
    for (const reading of ['0.000', '0.008', '0.012', '0.010', '0.002', '-0.006', '-0.012', '-0.007']) {
      await page.keyboard.type(`${reading}\n`);
    }
    await page.getByRole('link', { name: 'Next: plan of the cut' }).waitFor();
    const [proof] = (await file(job)).mount_proofs;
    expect(proof.trace_um).toEqual([0, 8, 12, 10, 2, -6, -12, -7]);
    expect(proof.runout_um).toBeCloseTo(24, 9);
  });
});

describe.each<{ width: number; theme: 'light' | 'dark' }>([
  { width: 390, theme: 'light' },
  { width: 1024, theme: 'dark' },
])('at $width px, $theme', ({ width, theme }) => {
  it('the mount and the iron fit, can be hit, and are heard', async () => {
    await hangPieces(shop, scene);
    const job = await decidedJob(shop, scene, 'hubless');
    const page = await tablet(`/jobs/${job.job.number}/mount`, { width, theme });
    const look = async (name: string) => {
      await page.waitForTimeout(300);
      expect(await overflows(page), name).toBe(false);
      expect(await tooSmall(page, 44), name).toEqual([]);
      expect(await violations(page), name).toEqual([]);
      await shot(page, `${name}-${width}-${theme}`);
    };
    await eventually(() => focusedName(page)).toBe('A · Centre bore');
    await look('mount_seat');
    await enterEach(page, ['65.0', '7', '72', '140', '', '', '170', '280']);
    await heading(page, 'Mount');
    await page.locator('.stack').waitFor();
    await look('mount_stack');
    await page.getByRole('button', { name: 'These are on the arbor' }).click();
    await heading(page, 'Prove the mount');
    await page.getByRole('textbox', { name: 'Swing of the needle in one turn' }).fill('0.08');
    await page.locator('.proof-figure').waitFor();
    await look('mount_proof');
    await page.getByRole('radio', { name: 'Two scratches' }).click();
    await look('mount_scratch');
    for (const [name, at] of [
      ['pegboard', '/shop/pegboard'],
      ['pegboard_grid', '/shop/pegboard?view=grid'],
      ['pegboard_import', '/shop/pegboard?view=import'],
      ['edges', '/shop/edges'],
    ] as const) {
      await page.goto(`${shop.address}${at}`);
      await page.waitForSelector('.screen');
      await look(name);
    }
  });
});
