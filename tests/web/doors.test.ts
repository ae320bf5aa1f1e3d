import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { comeIn, doors, leave, networkIsBack } from '../../web/src/state/doors';

/** What the shop was asked, in the order in which it answered; leaving answers when it is told to. */
let heard: string[];
let away: boolean;
let letLeave: (() => void) | null;

const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

beforeEach(() => {
  localStorage.clear();
  heard = [];
  away = false;
  letLeave = null;
  vi.stubGlobal('fetch', async (address: string, { method = 'GET' }: RequestInit = {}) => {
    if (away) throw new TypeError('no network');
    const what = `${method} ${address.split('/').at(-1)}`;
    if (method === 'DELETE') await new Promise<void>((resolve) => (letLeave = resolve));
    heard.push(what);
    return new Response(JSON.stringify({ closed: true, people: [], you: null }), { status: 200 });
  });
  doors.value = {
    closed: true,
    people: [],
    you: { person_id: 'ada', idle_minutes: 20 },
  } as unknown as typeof doors.value;
});
afterEach(() => vi.unstubAllGlobals());

it('whoever comes in waits until the one before has left, whose late end would put them out', async () => {
  const left = leave(null);
  await settle();
  const came = comeIn('bo', '2468', false);
  await settle();
  expect(heard).toEqual([]);
  letLeave?.();
  await Promise.all([left, came]);
  expect(heard.filter((one) => one.endsWith('sessions'))).toEqual(['DELETE sessions', 'POST sessions']);
});

it('whoever left without a network is told to the shop as soon as there is one', async () => {
  away = true;
  await leave('idle');
  expect(doors.value?.you).toBeNull();
  away = false;
  networkIsBack();
  await settle();
  letLeave?.();
  await vi.waitFor(() => expect(heard).toEqual(['DELETE sessions', 'GET doors']));
  networkIsBack();
  await settle();
  expect(heard).toHaveLength(2);
});
