/**
 * Version 7 ids (RFC 9562, 5.7): they sort by the time of their making, and those of one page in the order of making
 * even within a millisecond. `crypto.getRandomValues` also works on plain http, where `randomUUID` is missing.
 */
export interface Surroundings {
  now: () => number;
  random: (bytes: Uint8Array) => Uint8Array;
}

const COUNTER_LIMIT = 0x1000;

export function idMaker(surroundings: Surroundings): () => string {
  let last_ms = 0;
  let counter = 0;
  return () => {
    const now_ms = surroundings.now();
    if (now_ms > last_ms) {
      last_ms = now_ms;
      counter = 0;
    } else if (++counter >= COUNTER_LIMIT) {
      last_ms += 1;
      counter = 0;
    }
    const bytes = surroundings.random(new Uint8Array(16));
    for (let i = 0; i < 6; ++i) bytes[i] = Math.floor(last_ms / 2 ** (8 * (5 - i))) & 0xff;
    bytes[6] = 0x70 | (counter >> 8);
    bytes[7] = counter & 0xff;
    bytes[8] = 0x80 | ((bytes[8] ?? 0) & 0x3f);
    const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
    return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
  };
}

export const newId = idMaker({ now: () => Date.now(), random: (bytes) => crypto.getRandomValues(bytes) });
