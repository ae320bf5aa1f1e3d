import { computed, signal } from '@preact/signals';
import { actAs, call } from '../api/client';
import type { Instrument, Person, ShopView } from '../api/schema';
import { doors } from './doors';
import { draftsOf } from './drafts';

/** The shop as this tablet knows it, and who is working at it. */
export const shop = signal<ShopView | null>(null);

const KEY = 'brakewright/person';
const chosenId = signal<string | null>(localStorage.getItem(KEY));
/** Who is signed in; with open doors, who was chosen on this tablet. */
const personId = computed(() => (doors.value?.closed ? (doors.value.you?.person_id ?? null) : chosenId.value));

export const people = computed(() => (shop.value?.people ?? []).filter((one) => one.active));
export const person = computed<Person | null>(() => people.value.find((one) => one.id === personId.value) ?? null);
export const instruments = computed(() => (shop.value?.instruments ?? []).filter((one) => one.active));

actAs(() => person.value?.id ?? null);
draftsOf(() => (doors.value?.closed ? (personId.value ?? '') : ''));

export function workAs(id: string | null): void {
  chosenId.value = id;
  if (id) localStorage.setItem(KEY, id);
  else localStorage.removeItem(KEY);
}

export async function loadShop(): Promise<ShopView> {
  const view = await call('get', '/shop');
  shop.value = view;
  return view;
}

export function personName(id: string | null | undefined): string {
  return shop.value?.people.find((one) => one.id === id)?.name ?? '';
}

export function instrumentOf(id: string | null | undefined): Instrument | null {
  return shop.value?.instruments.find((one) => one.id === id) ?? null;
}
