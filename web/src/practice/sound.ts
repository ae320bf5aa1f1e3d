/**
 * The bench heard: the last piece of the cut goes round until the next one is there, and fades over into it. Nothing is
 * heard before a finger has started it; browsers hold to that as well.
 */
export interface SoundParts {
  open: () => AudioContext;
  fetch: (url: string) => Promise<ArrayBuffer>;
  now: () => number;
}

const FADE_S = 0.06;
const LOUD = 0.8;
/** A new piece at most so often: each is fetched whole. */
const EVERY_MS = 600;

export class BenchSound {
  private context: AudioContext | null = null;
  private playing: { source: AudioBufferSourceNode; gain: GainNode } | null = null;
  private asked_at = Number.NEGATIVE_INFINITY;
  private asking = false;
  private wanted = false;

  constructor(private readonly parts: SoundParts) {}

  /** By a tap or a key only. */
  start(): void {
    this.wanted = true;
    try {
      this.context ??= this.parts.open();
      if (this.context.state === 'suspended') void this.context.resume().catch(() => undefined);
    } catch {
      // A tablet without sound: the words and bars say the same.
      this.context = null;
    }
  }

  /** The bench has turned on: what it sounded like is at this address. */
  async follow(url: string): Promise<void> {
    const context = this.context;
    if (!context || !this.wanted || this.asking || this.parts.now() - this.asked_at < EVERY_MS) return;
    this.asking = true;
    this.asked_at = this.parts.now();
    try {
      const piece = await context.decodeAudioData(await this.parts.fetch(url));
      if (this.wanted) this.play(context, piece);
    } catch {
      // One piece that is missing: the next comes soon.
    } finally {
      this.asking = false;
    }
  }

  hush(): void {
    this.wanted = false;
    this.fadeOut();
  }

  close(): void {
    this.hush();
    void this.context?.close().catch(() => undefined);
    this.context = null;
  }

  private play(context: AudioContext, piece: AudioBuffer): void {
    this.fadeOut();
    const source = context.createBufferSource();
    const gain = context.createGain();
    source.buffer = piece;
    source.loop = true;
    gain.gain.setValueAtTime(0, context.currentTime);
    gain.gain.linearRampToValueAtTime(LOUD, context.currentTime + FADE_S);
    source.connect(gain).connect(context.destination);
    source.start();
    this.playing = { source, gain };
  }

  private fadeOut(): void {
    const { playing, context } = this;
    this.playing = null;
    if (!playing || !context) return;
    const end = context.currentTime + FADE_S;
    playing.gain.gain.setValueAtTime(LOUD, context.currentTime);
    playing.gain.gain.linearRampToValueAtTime(0, end);
    playing.source.stop(end);
  }
}
