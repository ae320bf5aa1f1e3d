/** Sound as a phone saves it: 16 bits, one channel, in a little noise that is the same each time. */
export function wavOf(seconds: number, rate: number, seed: number, at: (i: number, noise: number) => number): Buffer {
  const samples = seconds * rate;
  const wav = Buffer.alloc(44 + 2 * samples);
  wav.write('RIFF', 0);
  wav.writeUInt32LE(36 + 2 * samples, 4);
  wav.write('WAVEfmt ', 8);
  wav.writeUInt32LE(16, 16);
  wav.writeUInt16LE(1, 20);
  wav.writeUInt16LE(1, 22);
  wav.writeUInt32LE(rate, 24);
  wav.writeUInt32LE(2 * rate, 28);
  wav.writeUInt16LE(2, 32);
  wav.writeUInt16LE(16, 34);
  wav.write('data', 36);
  wav.writeUInt32LE(2 * samples, 40);
  let state = seed;
  for (let i = 0; i < samples; i += 1) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    wav.writeInt16LE(Math.round(at(i, state / 4294967296 - 0.5)), 44 + 2 * i);
  }
  return wav;
}
