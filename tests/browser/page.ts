import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';

/** Debian's own browser, driven as a person would. */
export function openBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
}

export type Theme = 'light' | 'dark';
export interface Looks {
  width: number;
  height?: number;
  theme?: Theme;
  touch?: boolean;
}

/** Twenty tablets that open at once share what cores the machine has. */
const OPENS_MS = 90_000;

/** A fresh tablet: its own storage, errors of the page collected in `errors`. */
export async function openPage(browser: Browser, { width, height = 900, theme = 'light', touch = false }: Looks) {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: theme,
    hasTouch: touch,
    isMobile: touch,
    locale: 'en-GB',
  });
  context.setDefaultNavigationTimeout(OPENS_MS);
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  return { page, errors, close: () => context.close() };
}

/** What a screen reader would call the element that has the focus. */
export function focusedName(page: Page): Promise<string> {
  return page.evaluate(() => {
    const at = document.activeElement;
    if (!(at instanceof HTMLElement) || at === document.body) return '';
    const labels =
      at instanceof HTMLInputElement || at instanceof HTMLTextAreaElement || at instanceof HTMLSelectElement;
    const label = labels ? (at.labels?.[0]?.textContent ?? '') : '';
    return (at.getAttribute('aria-label') ?? (label || at.textContent) ?? '').replace(/\s+/g, ' ').trim();
  });
}

const MOST_TABS = 120;

/** Presses Tab until the element of this name has the focus. */
export async function tabTo(page: Page, name: string | RegExp): Promise<void> {
  const seen: string[] = [];
  for (let i = 0; i < MOST_TABS; i += 1) {
    const here = await focusedName(page);
    if (typeof name === 'string' ? here === name : name.test(here)) return;
    seen.push(here);
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab does not lead to ${name}; it led to ${[...new Set(seen)].join(' | ')}`);
}

export async function press(page: Page, name: string | RegExp): Promise<void> {
  await tabTo(page, name);
  await page.keyboard.press('Enter');
}

export async function type(page: Page, name: string | RegExp, text: string): Promise<void> {
  await tabTo(page, name);
  await page.keyboard.type(text);
}

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Waits until nothing moves or fades: half-way, a colour is none that the page has chosen. */
const settled = (page: Page) =>
  page.waitForFunction(() =>
    document.getAnimations().every(({ effect, playState }) => {
      const ends = Number.isFinite(effect?.getComputedTiming().endTime);
      return !ends || playState === 'finished' || playState === 'idle' || playState === 'paused';
    }),
  );

/** Everything that axe finds wrong with the page, once it is settled, by these rules of axe or by all, one line each. */
export async function violations(page: Page, rules?: string[]): Promise<string[]> {
  await settled(page);
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe);
  return page.evaluate(async (only) => {
    const { axe: checker } = window as unknown as {
      axe: { run: (root: Document, how: object) => Promise<AxeResults> };
    };
    interface AxeResults {
      violations: { id: string; help: string; nodes: { html: string }[] }[];
    }
    const results = await checker.run(document, {
      resultTypes: ['violations'],
      ...(only ? { runOnly: { type: 'rule', values: only } } : {}),
    });
    return results.violations.map(
      (one) => `${one.id}: ${one.help}: ${one.nodes.map((node) => node.html.slice(0, 160)).join(' ')}`,
    );
  }, rules);
}

/** Nothing is wider than the screen: no sideways scrolling. */
export const overflows = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);

/** Buttons, links and fields that a finger would miss: smaller than this in either direction, and seen. */
export function tooSmall(page: Page, least_px: number): Promise<string[]> {
  return page.evaluate((least) => {
    const controls = [
      ...document.querySelectorAll<HTMLElement>('button, a.button, input, select, textarea, summary, nav a'),
    ];
    return controls.flatMap((control) => {
      const box = control.getBoundingClientRect();
      const label = control.closest('label');
      const reach = label ? label.getBoundingClientRect() : box;
      const hidden = box.width <= 1 || box.height <= 1 || getComputedStyle(control).visibility === 'hidden';
      if (hidden || box.bottom < 0 || (reach.height >= least - 0.5 && reach.width >= least - 0.5)) return [];
      return [`${control.outerHTML.slice(0, 120)} is ${Math.round(reach.width)} x ${Math.round(reach.height)}`];
    });
  }, least_px);
}

const SHOTS = join(__dirname, '../../artifacts/screens');

/** The whole screen as it would be on paper, kept to be looked at where BRAKEWRIGHT_SHOTS is set; it takes its time. */
export async function shot(page: Page, name: string): Promise<void> {
  if (!process.env.BRAKEWRIGHT_SHOTS) return;
  mkdirSync(SHOTS, { recursive: true });
  const size = page.viewportSize();
  const tall = await page.evaluate(() =>
    document.querySelector('dialog[open]') ? 0 : document.documentElement.scrollHeight,
  );
  if (size && tall > size.height) await page.setViewportSize({ width: size.width, height: tall });
  await page.evaluate(() => document.fonts.ready);
  await page.waitForTimeout(80);
  await page.screenshot({ path: join(SHOTS, `${name}.png`) });
  if (size) await page.setViewportSize(size);
}
