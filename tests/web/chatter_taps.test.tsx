import { render } from 'preact';
import { act } from 'preact/test-utils';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Figures } from '../../web/src/chatter/figures';
import { TapWay } from '../../web/src/chatter/tap';
import { type Listening, useTaps } from '../../web/src/chatter/use_taps';
import { useKept } from '../../web/src/state/kept';
import { words } from '../../web/src/words';

const { tap: said } = words.chatter;
let page: HTMLElement;
let taps: Listening;
let answer: (hz: number) => void;

vi.mock('../../web/src/chatter/reckon', () => ({
  listenTo: () =>
    new Promise((settle) => {
      answer = (hz) => settle({ ring: { tones: [{ hz, zeta: 0.002, u_zeta: 0, diameters: null, p_mode: 0 }] } });
    }),
}));

beforeEach(() => {
  page = document.createElement('div');
  localStorage.clear();
});
afterEach(() => render(null, page));

function Taps({ kept }: { kept: string | null }) {
  taps = useTaps(kept, {} as Figures);
  return <TapWay taps={taps} tone={taps.picked} band_times={null} />;
}

const show = (kept: string | null) => act(() => render(<Taps key={kept} kept={kept} />, page));
/** As after a reload, or from one page to another and back. */
const anew = (kept: string | null) => {
  act(() => render(null, page));
  return show(kept);
};

const fileOf = (name: string, text: string): File => {
  const bytes = new TextEncoder().encode(text);
  const slice = () => ({ arrayBuffer: async () => bytes.buffer });
  return { name, size: bytes.length, slice } as unknown as File;
};
const WAV = 'RIFF\0\0\0\0WAVE';
const settled = () => act(() => new Promise<void>((done) => setTimeout(done)));
const hear = async (name: string, text = WAV) => {
  act(() => taps.hear(fileOf(name, text)));
  await settled();
};
const heard = async (hz: number) => {
  answer(hz);
  await settled();
};
const names = () => [...page.querySelectorAll('.file-name')].map((one) => one.textContent);
const forgets = () => [...page.querySelectorAll('button')].some((one) => one.textContent === said.forget);

describe('taps of a disc', () => {
  it('are not forgotten while one is listened to, whose name is shown', async () => {
    show('part-1');
    await hear('first.wav');
    expect(names()).toEqual(['first.wav']);
    expect(page.textContent).toContain(said.listening);
    await heard(980);
    expect(forgets()).toBe(true);
    await hear('second.wav');
    expect(names()).toEqual(['second.wav', 'first.wav']);
    expect(forgets()).toBe(false);
    act(() => taps.forget());
    await heard(1200);
    expect(names()).toEqual(['second.wav']);
    expect(page.textContent).toContain('1200 Hz');
    act(() => taps.forget());
    expect(names()).toEqual([]);
    expect(page.textContent).not.toContain('Hz');
  });

  it('that are refused stand under their own name, and what was heard before under its own', async () => {
    show('part-1');
    await hear('first.wav');
    await heard(980);
    await hear('letter.wav', 'Dear sir or madam');
    expect(page.querySelector('[role="alert"]')?.previousElementSibling?.previousElementSibling?.textContent).toBe(
      'letter.wav',
    );
    expect(names()).toEqual(['letter.wav', 'first.wav']);
    expect(forgets()).toBe(true);
  });

  it('are kept for a disc of a job, and of no disc in particular go with the page', async () => {
    show('part-1');
    await hear('first.wav');
    await heard(980);
    anew('part-1');
    expect(page.textContent).toContain('980 Hz');
    anew(null);
    expect(page.textContent).not.toContain('980 Hz');
    await hear('other.wav');
    await heard(1200);
    expect(page.textContent).toContain('1200 Hz');
    anew(null);
    expect(page.textContent).not.toContain('1200 Hz');
    expect(localStorage).toHaveLength(1);
  });
});

it('a form without a name is changed and begun anew, and leaves nothing behind', () => {
  let kept = {} as ReturnType<typeof useKept<{ text: string }>>;
  function Form() {
    kept = useKept<{ text: string }>(null, () => ({ text: '' }));
    return <p>{kept.draft.text}</p>;
  }
  act(() => render(<Form />, page));
  act(() => kept.change({ text: 'half typed' }));
  expect(page.textContent).toBe('half typed');
  expect(localStorage).toHaveLength(0);
  act(() => kept.drop());
  expect(page.textContent).toBe('');
});
