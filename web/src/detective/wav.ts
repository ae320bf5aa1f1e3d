/** What a recording's file is, by how it begins. */
export type Kind = 'wav' | 'm4a' | 'mp3' | 'ogg' | 'flac' | 'picture' | 'other' | 'empty';

/** What is asked for in a file chooser. */
export const WAV = '.wav,audio/wav,audio/x-wav,audio/wave';

export const HEAD_BYTES = 12;

const says = (head: Uint8Array, at: number, word: string) =>
  [...word].every((letter, i) => head[at + i] === letter.charCodeAt(0));

export function kindOf(head: Uint8Array): Kind {
  if (head.length === 0) return 'empty';
  if (says(head, 0, 'RIFF') && says(head, 8, 'WAVE')) return 'wav';
  if (says(head, 4, 'ftyp')) return 'm4a';
  if (says(head, 0, 'ID3') || (head[0] === 0xff && ((head[1] ?? 0) & 0xe0) === 0xe0 && head[1] !== 0xd8)) return 'mp3';
  if (says(head, 0, 'OggS')) return 'ogg';
  if (says(head, 0, 'fLaC')) return 'flac';
  if (says(head, 1, 'PNG') || (head[0] === 0xff && head[1] === 0xd8)) return 'picture';
  return 'other';
}

/** No recording of a few minutes is larger. */
export const MOST_BYTES = 120_000_000;
/** So much of its beginning is sent: as text it stays under what the shop takes in one message. */
export const SENT_BYTES = 5_700_000;

const AT_ONCE = 32_768;

export function base64Of(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += AT_ONCE) text += String.fromCharCode(...bytes.subarray(at, at + AT_ONCE));
  return btoa(text);
}
