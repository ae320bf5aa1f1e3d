import { describe, expect, it } from 'vitest';
import { base64Of, type Kind, kindOf } from '../../web/src/detective/wav';

const bytes = (text: string) => new Uint8Array([...text].map((letter) => letter.charCodeAt(0)));

describe('the file of a recording', () => {
  it.each<[string, Kind, Uint8Array]>([
    ['a WAV file', 'wav', bytes('RIFF\0\0\0\0WAVE')],
    ['a picture in a RIFF', 'other', bytes('RIFF\0\0\0\0WEBP')],
    ['an M4A', 'm4a', bytes('\0\0\0\u0020ftypM4A ')],
    ['an MP3 with a tag', 'mp3', bytes('ID3\u0004\0\0\0\0\0\0\0\0')],
    ['an MP3 without one', 'mp3', new Uint8Array([0xff, 0xfb, 0x90, 0x44, 0, 0, 0, 0, 0, 0, 0, 0])],
    ['an Ogg', 'ogg', bytes('OggS\0\u0002\0\0\0\0\0\0')],
    ['a FLAC', 'flac', bytes('fLaC\0\0\0\u0022\0\0\0\0')],
    ['a JPEG', 'picture', new Uint8Array([0xff, 0xd8, 0xff, 0xe0])],
    ['a PNG', 'picture', new Uint8Array([0x89, 0x50, 0x4e, 0x47])],
    ['a letter', 'other', bytes('Dear sir or madam')],
    ['nothing', 'empty', new Uint8Array()],
    ['a WAV cut off in its name', 'other', bytes('RIFF\0\0\0\0WA')],
  ])('%s is told by how it begins', (_what, kind, head) => {
    expect(kindOf(head)).toBe(kind);
  });
  it('is written as text that is read back byte for byte', () => {
    for (const length of [0, 1, 2, 3, 32_767, 32_768, 32_769, 100_000]) {
      const sent = Uint8Array.from({ length }, (_, i) => (i * 31 + 7) & 0xff);
      expect(Buffer.from(base64Of(sent), 'base64').equals(Buffer.from(sent)), String(length)).toBe(true);
    }
  });
});
