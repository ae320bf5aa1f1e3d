import { signal } from '@preact/signals';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Doors } from '../api/schema';

/** The door of the shop as this tablet knows it: who there is, whether one has to come in, who has. */
export const doors = signal<Doors | null>(null);

/** Why the door is shown again, where nobody asked for it. */
export const whyOut = signal<'idle' | 'ended' | null>(null);

/** Set while the shop has not been told that whoever was here has left: over a reload too, nobody else goes on as them. */
const LEFT = 'brakewright.left';

let last: Promise<unknown> = Promise.resolve();

/** Coming in and leaving go one after the other: a session that ends late would take the next one's place with it. */
function inTurn(work: () => Promise<void>): Promise<void> {
  const mine = last.then(work);
  last = mine.catch(() => undefined);
  return mine;
}

const endWhatWasLeft = () =>
  inTurn(async () => {
    if (!localStorage.getItem(LEFT)) return;
    await call('delete', '/sessions');
    localStorage.removeItem(LEFT);
  });

export async function loadDoors(): Promise<Doors> {
  await endWhatWasLeft();
  const view = await call('get', '/doors');
  doors.value = view;
  return view;
}

export async function comeIn(person_id: string, secret: string, isNew: boolean): Promise<void> {
  await inTurn(async () => {
    await call('post', '/sessions', { body: { person_id, secret, new: isNew } });
    localStorage.removeItem(LEFT);
  });
  whyOut.value = null;
  await loadDoors();
}

/** The first account of an empty shop, or a password for a teacher of a shop with open doors. */
export async function closeDoors(teacher: { id?: string; name: string }, password: string): Promise<void> {
  await call('post', '/doors/first', { body: { id: teacher.id ?? newId(), name: teacher.name, password } });
  whyOut.value = null;
  await loadDoors();
}

function nobody(): void {
  if (doors.value?.closed) doors.value = { ...doors.value, you: null };
}

/** Leaves this tablet. The door is shown even where the shop cannot be told: it ends the session by itself. */
export async function leave(why: 'idle' | null): Promise<void> {
  whyOut.value = why;
  nobody();
  localStorage.setItem(LEFT, 'yes');
  await loadDoors().catch(() => undefined);
}

/** The network is there again: the shop is told of whoever left without one. */
export function networkIsBack(): void {
  if (localStorage.getItem(LEFT)) loadDoors().catch(() => undefined);
}

/** The shop has forgotten who is here. */
export function wasSignedOut(): void {
  if (doors.value?.you) {
    whyOut.value = 'ended';
    nobody();
  } else if (doors.value?.closed) {
    return;
  }
  loadDoors().catch(() => undefined);
}
