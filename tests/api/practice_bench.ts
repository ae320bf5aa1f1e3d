import { type Json, newId, type Served } from './shop';

/** Somebody in an open shop, or signed in with a cookie of their own. */
export interface Hand {
  readonly id: string;
  readonly headers: Record<string, string>;
}

export const person = async (shop: Served, by: Hand, name: string, role: string): Promise<string> => {
  const id = newId();
  const body = { id, name, role, active: true };
  await shop.want('PUT', `/people/${id}?by_person_id=${by.id}`, body, by.headers);
  return id;
};

export const begin = (shop: Served, hand: Hand, rest: object = {}): Promise<Json> =>
  shop.want('POST', `/practice/runs?by_person_id=${hand.id}`, { difficulty: 1, ...rest }, hand.headers);

export const actsPath = (run: Json, hand: Hand) => `/practice/runs/${run.id}/acts?by_person_id=${hand.id}`;

/** A run that is gone on with act by act, by the one whose it is. */
export class AtBench {
  done = 0;
  last: Json;
  constructor(
    readonly shop: Served,
    readonly hand: Hand,
    readonly run: Json,
  ) {
    this.done = run.acts.length;
    this.last = { view: run.view };
  }

  static async begin(shop: Served, hand: Hand, rest: object = {}): Promise<AtBench> {
    return new AtBench(shop, hand, await begin(shop, hand, rest));
  }

  async act(act: Json): Promise<Json> {
    this.last = await this.shop.want(
      'POST',
      actsPath(this.run, this.hand),
      { number: this.done + 1, act },
      this.hand.headers,
    );
    ++this.done;
    return this.last;
  }

  /** Decided to leave the part as it is, and handed over. */
  async handOver(): Promise<Json> {
    await this.act({ do: 'decide', action: 'leave' });
    return this.act({ do: 'finish' });
  }

  refused(act: Json, number = this.done + 1) {
    return this.shop.refusal('POST', actsPath(this.run, this.hand), { number, act }, this.hand.headers);
  }

  again(): Promise<Json> {
    return this.shop.want('GET', `/practice/runs/${this.run.id}`, undefined, this.hand.headers);
  }

  get middle_mm(): number {
    const { band_inner_radius_mm, band_outer_radius_mm } = this.run.bench.make;
    return (band_inner_radius_mm + band_outer_radius_mm) / 2;
  }

  measureAt(angle_deg: number): Json {
    const instrument_id = this.run.bench.instruments[0].id;
    return { do: 'measure', instrument_id, radius_mm: this.middle_mm, angle_deg };
  }

  /** The best stack for this part, by the computation that the page uses too. */
  async stack(): Promise<string[]> {
    const { make, lathe, pieces } = this.run.bench;
    const asked = { arbor: lathe.arbor, part: make.seat, pieces };
    const { stacks } = await this.shop.want('POST', '/calc/mount', asked, this.hand.headers);
    return stacks[0].pieces;
  }

  /** Glasses on, zeroed, read at four angles, decided, wiped and mounted. */
  async mount(): Promise<void> {
    await this.act({ do: 'wear', glasses: true, gloves: false });
    await this.act({ do: 'look' });
    await this.act({ do: 'zero_micrometer', instrument_id: this.run.bench.instruments[0].id });
    for (const angle of [0, 90, 180, 270]) await this.act(this.measureAt(angle));
    await this.act({ do: 'decide', action: 'cut' });
    await this.act({ do: 'wipe' });
    await this.act({ do: 'mount_part', pieces: await this.stack(), turn_deg: 0, nut_tight: true });
    await this.act({ do: 'band', on: true });
  }

  /** Both tools a little into the iron, and so many turns. */
  async cut(turns: number): Promise<void> {
    const { lathe, start_radius_mm } = this.run.bench;
    await this.act({ do: 'spindle', rpm: lathe.speeds_rpm[0] });
    await this.act({ do: 'place', radius_mm: start_radius_mm });
    for (const side of ['outboard', 'inboard']) {
      await this.act({ do: 'turn_dial', side, marks: 4 });
      await this.act({ do: 'lock_tool', side, locked: true });
    }
    await this.act({ do: 'feed', mm_per_rev: lathe.feeds_mm_per_rev.at(-1) });
    for (let left = turns; left > 0; left -= 200) await this.act({ do: 'turns', turns: Math.min(200, left) });
  }
}
