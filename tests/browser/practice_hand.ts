import type { Page } from 'playwright-core';
import { type Json, newId, type Served } from '../api/shop';

/** A person of an open shop, and a set of known faults, as a teacher would make them. */
export async function addPerson(shop: Served, by: string, name: string): Promise<string> {
  const id = newId();
  await shop.want('PUT', `/people/${id}?by_person_id=${by}`, { id, name, role: 'student', active: true });
  return id;
}

export async function addSet(shop: Served, by: string, name: string, faults: string[]): Promise<string> {
  const id = newId();
  const body = { name, seed: 11, difficulty: 1, faults, open: true };
  await shop.want('PUT', `/practice/sets/${id}?by_person_id=${by}`, body);
  return id;
}

export const readRun = (shop: Served, id: string): Promise<Json> => shop.want('GET', `/practice/runs/${id}`);

export const runIdOf = (page: Page): string => new URL(page.url()).pathname.split('/').at(-1) ?? '';

/** "Cone 2" of cone_2: how the pegboard says it. */
export const spokenPiece = (id: string): string => `${id.charAt(0).toUpperCase()}${id.slice(1)}`.replace('_', ' ');

/** The best stack of the run's bench, in the words of its pegboard. */
export async function stackOf(shop: Served, run: Json): Promise<string[]> {
  const { make, lathe, pieces } = run.bench;
  const { stacks } = await shop.want('POST', '/calc/mount', { arbor: lathe.arbor, part: make.seat, pieces });
  return stacks[0].pieces.map(spokenPiece);
}

/** Drags a finger round the middle of what is there, from one clock direction to another. */
export async function dragRound(page: Page, selector: string, from_deg: number, to_deg: number): Promise<void> {
  const thing = page.locator(selector).first();
  await thing.scrollIntoViewIfNeeded();
  const box = await thing.boundingBox();
  if (!box) throw new Error(`${selector} is not there`);
  const [x, y, r] = [box.x + box.width / 2, box.y + box.height / 2, 0.4 * box.width];
  const at = (deg: number) => ({
    x: x + r * Math.sin((deg * Math.PI) / 180),
    y: y - r * Math.cos((deg * Math.PI) / 180),
  });
  const touch = await page.context().newCDPSession(page);
  await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [at(from_deg)] });
  const steps = 12;
  for (let i = 1; i <= steps; i += 1) {
    const point = at(from_deg + ((to_deg - from_deg) * i) / steps);
    await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: [point] });
  }
  await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  await touch.detach();
}

interface Watched {
  sources: number;
  drawn_in_frames: number;
}

/** Counts, in the page, what is played and what is drawn from within animation frames. */
export async function watchBench(page: Page): Promise<() => Promise<Watched>> {
  await page.addInitScript(() => {
    const seen = { sources: 0, drawn_in_frames: 0 };
    Object.assign(window, { seen_at_bench: seen });
    const { createBufferSource } = BaseAudioContext.prototype;
    BaseAudioContext.prototype.createBufferSource = function source() {
      seen.sources += 1;
      return createBufferSource.call(this);
    };
    let in_frame = false;
    const frame = window.requestAnimationFrame.bind(window);
    window.requestAnimationFrame = (work) =>
      frame((now) => {
        in_frame = true;
        try {
          work(now);
        } finally {
          in_frame = false;
        }
      });
    const { drawElements } = WebGL2RenderingContext.prototype;
    WebGL2RenderingContext.prototype.drawElements = function draw(...given) {
      if (in_frame) seen.drawn_in_frames += 1;
      return drawElements.apply(this, given);
    };
  });
  return () => page.evaluate(() => (window as unknown as { seen_at_bench: Watched }).seen_at_bench);
}
