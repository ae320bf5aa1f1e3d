import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { AtBench, begin, type Hand, person } from './practice_bench';
import { setScene } from './scene';
import { done, fetchAlone, freshFolder, type Json, newId, Served } from './shop';

const folder = freshFolder();
const file = join(folder, 'shop.sqlite');
let shop: Served;
let teacher: Hand;
const hand = async (name: string, role = 'student'): Promise<Hand> => ({
  id: await person(shop, teacher, name, role),
  headers: {},
});

beforeAll(async () => {
  shop = await Served.start(file);
  teacher = { id: (await setScene(shop)).by, headers: {} };
});
afterAll(async () => {
  await shop.stop();
});

describe('a run at the simulated bench', () => {
  test('goes from the first look to the mark, and is kept with all that was done', async () => {
    const at = await AtBench.begin(shop, await hand('Bo Fern'), { difficulty: 0, seed: 7 });
    expect(at.run).toMatchObject({ person_name: 'Bo Fern', set_id: null, difficulty: 0, acts: [], mark: null });
    await at.mount();
    expect(at.last.view.mounted.length).toBeGreaterThan(2);
    await at.cut(400);
    expect(at.last.view.turns).toBeGreaterThan(300);
    const picture = await shop.want('GET', `/practice/runs/${at.run.id}/picture?side=outboard&angles=36&rings=8`);
    expect(picture.height_um).toHaveLength(36 * 8);
    for (const height of picture.height_um) expect(Math.abs(height) % 2).toBe(0);
    const mean = picture.height_um.reduce((sum: number, one: number) => sum + one, 0) / picture.height_um.length;
    expect(Math.abs(mean)).toBeLessThan(1);
    const sound = (await shop.ask('GET', `/practice/runs/${at.run.id}/sound?seconds=1`)).bytes;
    expect(sound.toString('latin1', 0, 4)).toBe('RIFF');
    expect([sound.readUInt16LE(22), sound.readUInt32LE(24), sound.readUInt16LE(34)]).toEqual([1, 22_050, 16]);
    expect(sound.readUInt32LE(40)).toBe(sound.length - 44);
    expect(sound.length).toBeGreaterThan(1000);
    await at.act({ do: 'feed', mm_per_rev: 0 });
    await at.act({ do: 'spindle', rpm: 0 });
    await at.act({ do: 'unmount' });
    await at.act(at.measureAt(0));
    const before = await at.again();
    expect(before.mark).toBeNull();
    await at.act({ do: 'finish' });
    expect(at.last.view.ended).toMatchObject({ code: 'finished', unsafe: false });
    const run = await at.again();
    expect(run.acts.map((one: Json) => one.number)).toEqual(Array.from({ length: at.done }, (_, k) => k + 1));
    expect(run.acts.slice(0, -1)).toEqual(before.acts);
    expect(run.mark.parts.length).toBeGreaterThan(3);
    expect(run.mark.next.faults).toBeNull();
    const { runs } = await shop.want('GET', `/practice/runs?person_id=${at.hand.id}`);
    expect(runs).toHaveLength(1);
    expect(runs[0]).toMatchObject({ points: run.mark.points, safe: run.mark.safe, ended: { code: 'finished' } });
    expect((await shop.want('GET', '/practice/runs?live=true')).runs.map((one: Json) => one.id)).not.toContain(run.id);
  });

  test('with a hub has races and tapers, takes new races, and no position on the car', async () => {
    const set = newId();
    const body = { name: 'Its own hub', seed: 1108, difficulty: 2, faults: ['wobble', 'pitted_races'], open: true };
    await shop.want('PUT', `/practice/sets/${set}?by_person_id=${teacher.id}`, body);
    const at = await AtBench.begin(shop, await hand('Ada Reed'), { set_id: set });
    const { make, pieces, stud_positions_deg, hub_runout_um } = at.run.bench;
    expect(make.seat).toMatchObject({ kind: 'hubbed', bore_mm: 0, flat_outer_mm: 0 });
    expect(make.seat.inner_race_mm).toBeGreaterThan(make.seat.outer_race_mm);
    expect([stud_positions_deg, hub_runout_um]).toEqual([[0], 0]);
    const kinds = (await at.stack()).map((id) => pieces.find((one: Json) => one.id === id).kind);
    expect(kinds.slice(0, 2)).toEqual(['taper', 'taper']);
    expect(kinds).not.toContain('clamp');
    expect((await at.act({ do: 'look' })).outcome.seen).toContain('pits_in_races');
    expect((await at.act({ do: 'renew_races' })).outcome.took_s).toBe(900);
    expect((await at.act({ do: 'look' })).outcome.seen).not.toContain('pits_in_races');
    await at.mount();
    expect(await at.refused({ do: 'renew_races' })).toMatchObject({ status: 409, code: 'not_now' });
    await at.act({ do: 'unmount' });
    expect(await at.refused({ do: 'refit', position: 1 })).toMatchObject({ code: 'out_of_range' });
    const refit = await at.act({ do: 'refit', position: 0, hub_cleaned: true });
    expect(refit.outcome.hub_runout_um).toBeGreaterThan(0);
    await at.act({ do: 'finish' });
    const { mark } = await at.again();
    expect(mark.faults).toEqual(['wobble', 'pitted_races']);
    expect(mark.parts.find((one: Json) => one.code === 'runout').why).toContain('its hub');
  });

  test('is listed a page at a time, the newest first', async () => {
    const who = await hand('Lu Birch');
    const begun: string[] = [];
    for (let seed = 0; seed < 3; seed += 1) {
      const at = await AtBench.begin(shop, who, { difficulty: 0, seed });
      await at.act({ do: 'look' });
      begun.unshift(at.run.id);
    }
    const page = (query: string) => shop.want('GET', `/practice/runs?person_id=${who.id}&limit=2${query}`);
    const idsOf = ({ runs }: Json) => runs.map((one: Json) => one.id);
    const [first, second] = [await page(''), await page(`&before=${begun[1]}`)];
    expect([...idsOf(first), ...idsOf(second)]).toEqual(begun);
    expect([first.earlier, second.earlier]).toEqual([1, 0]);
    const { status, code } = await shop.refusal('GET', `/practice/runs?before=${who.id}`);
    expect([status, code]).toEqual([404, 'unknown_run']);
    expect((await shop.refusal('GET', '/practice/runs?limit=0')).status).toBe(422);
  });

  test('answers the same act under the same number again, and no other', async () => {
    const at = await AtBench.begin(shop, await hand('Cai Ash'));
    const act = at.measureAt(30);
    const first = await at.act(act);
    --at.done;
    expect(await at.act({ ...act })).toEqual(first);
    const path = await at.again();
    expect(path.acts).toHaveLength(1);
    expect(await at.refused(at.measureAt(31), 1)).toMatchObject({ status: 409, code: 'number_taken' });
    expect(await at.refused(act, 3)).toMatchObject({ status: 409, code: 'number_ahead' });
    const last = await at.handOver();
    --at.done;
    expect(await at.act({ do: 'finish' })).toEqual(last);
    expect(await at.refused({ do: 'look' })).toMatchObject({ status: 409, code: 'ended' });
    expect(await at.refused({ do: 'look' }, 1)).toMatchObject({ code: 'number_taken' });
  });

  test('is given up by beginning another, and gone on with where nothing was done yet', async () => {
    const who = await hand('Dee Rowan');
    const first = await AtBench.begin(shop, who);
    expect((await begin(shop, who)).id).toBe(first.run.id);
    await first.act({ do: 'look' });
    const second = await begin(shop, who);
    expect(second.id).not.toBe(first.run.id);
    expect((await first.again()).view.ended).toMatchObject({ code: 'given_up', unsafe: false });
    expect((await first.again()).mark).toBeNull();
    expect((await first.again()).acts).toHaveLength(1);
    expect(await first.refused({ do: 'look' }, 2)).toMatchObject({ code: 'ended' });
    const { runs } = await shop.want('GET', `/practice/runs?person_id=${who.id}`);
    expect(runs.map((one: Json) => [one.id, one.points])).toEqual([
      [second.id, null],
      [first.run.id, null],
    ]);
  });

  test('ends where somebody would be hurt, says what happened, and counts for nothing', async () => {
    const at = await AtBench.begin(shop, await hand('Eli Thorn'));
    await at.mount();
    await at.act({ do: 'spindle', rpm: at.run.bench.lathe.speeds_rpm[0] });
    await at.act({ do: 'reach' });
    expect(at.last.view.ended).toMatchObject({ code: 'reached_in', unsafe: true });
    const run = await at.again();
    expect(run.mark.safe).toBe(false);
    const { runs } = await shop.want('GET', `/practice/runs?person_id=${at.hand.id}`);
    expect(runs[0].safe).toBe(false);
  });

  test('refuses nonsense with the field that is at fault, and nothing of it counts', async () => {
    const at = await AtBench.begin(shop, await hand('Fay Linden'));
    const wrong: [Json, number, string, string][] = [
      [{ do: 'dance' }, 422, 'unknown_act', 'act.do'],
      [{}, 422, 'missing', 'act.do'],
      ['look', 422, 'wrong_type', 'act'],
      [{ do: 'look', twice: true }, 422, 'unknown_field', 'act.twice'],
      [{ do: 'measure', instrument_id: 'x' }, 422, 'missing', 'act.radius_mm'],
      [{ ...at.measureAt(0), radius_mm: '80' }, 422, 'wrong_type', 'act.radius_mm'],
      [{ ...at.measureAt(0), instrument_id: 'hammer' }, 422, 'unknown_instrument', 'act.instrument_id'],
      [{ ...at.measureAt(0), radius_mm: -5 }, 422, 'out_of_range', 'act.radius_mm'],
      [{ do: 'wait', minutes: 1e9 }, 422, 'out_of_range', 'act.minutes'],
      [{ do: 'refit', position: 1e300 }, 422, 'out_of_range', 'act.position'],
      [{ do: 'refit', position: 0.5 }, 422, 'wrong_type', 'act.position'],
      [{ do: 'refit', position: 0, nuts_in_star: 'yes' }, 422, 'wrong_type', 'act.nuts_in_star'],
      [{ do: 'wash', soap: true }, 422, 'unknown_field', 'act.soap'],
      [{ do: 'decide', action: 'burn' }, 422, 'out_of_range', 'act.action'],
      [{ do: 'mount_part', pieces: Array(60).fill('x') }, 422, 'too_many', 'act.pieces'],
      [{ do: 'zero_micrometer', instrument_id: 'x'.repeat(100) }, 422, 'too_long', 'act.instrument_id'],
      [{ do: 'turns', turns: 5 }, 409, 'not_now', 'act'],
    ];
    for (const [act, status, code, field] of wrong) {
      const got = await at.refused(act);
      expect({ act, status: got.status, code: got.code, field: got.field.slice(0, field.length) }).toEqual({
        act,
        status,
        code,
        field,
      });
    }
    const path = `/practice/runs/${at.run.id}/acts?by_person_id=${at.hand.id}`;
    for (const number of [0, -1, 1.5, '1', null])
      expect(await shop.refusal('POST', path, { number, act: { do: 'look' } })).toMatchObject({ field: 'number' });
    expect((await at.again()).acts).toEqual([]);
    expect(await shop.refusal('GET', `/practice/runs/${newId()}`)).toMatchObject({ status: 404, code: 'unknown_run' });
    expect(await shop.refusal('GET', '/practice/runs/7')).toMatchObject({ status: 422, code: 'not_an_id' });
    for (const query of ['side=top', 'side=outboard&angles=5', 'side=outboard&rings=1000', 'angles=90'])
      expect((await shop.refusal('GET', `/practice/runs/${at.run.id}/picture?${query}`)).status).toBe(422);
    const begun = `/practice/runs?by_person_id=${at.hand.id}`;
    for (const [body, field] of [
      [{ difficulty: 6 }, 'difficulty'],
      [{ difficulty: 1, seed: -1 }, 'seed'],
      [{ difficulty: 1, seed: 2 ** 54 }, 'seed'],
      [{ difficulty: 1, set_id: 'x' }, 'set_id'],
      [{ difficulty: 1, faults: ['thin'] }, 'faults'],
    ] as [Json, string][])
      expect(await shop.refusal('POST', begun, body)).toMatchObject({ status: 422, field });
    const nowhere = { difficulty: 1, set_id: newId() };
    expect(await shop.refusal('POST', begun, nowhere)).toMatchObject({ status: 404, code: 'unknown_set' });
  });
});

describe('twenty students', () => {
  test('act at once, each at their own bench', async () => {
    const class_of_20 = await Promise.all(Array.from({ length: 20 }, (_, k) => hand(`Student ${k + 1}`)));
    const benches = await Promise.all(class_of_20.map((who, k) => AtBench.begin(shop, who, { seed: 1 + (k % 2) })));
    await Promise.all(
      benches.map(async (at) => {
        await at.act({ do: 'zero_micrometer', instrument_id: at.run.bench.instruments[0].id });
        for (let k = 0; k < 6; ++k) await at.act(at.measureAt(60 * k));
      }),
    );
    const runs = await Promise.all(benches.map((at) => at.again()));
    for (const [k, run] of runs.entries()) expect(run.acts).toEqual(runs[k % 2].acts);
    expect(runs[0].acts).not.toEqual(runs[1].acts);
    const live = (await shop.want('GET', '/practice/runs?live=true')).runs;
    for (const run of runs) expect(live.map((one: Json) => one.id)).toContain(run.id);
  });

  test('are heard of together and not act by act', async () => {
    const giveUp = new AbortController();
    const stream = await fetchAlone(`${shop.address}/api/v1/events`, { headers: {}, signal: giveUp.signal });
    const at = await AtBench.begin(shop, await hand('Gus Alder'));
    for (let k = 0; k < 30; ++k) await at.act(at.measureAt(12 * k));
    const heard: Json[] = [];
    let text = '';
    const decoder = new TextDecoder();
    const acted = () => heard.filter((one) => one.run_ids.includes(at.run.id)).length;
    for await (const part of stream.body as unknown as AsyncIterable<Uint8Array>) {
      text += decoder.decode(part);
      heard.length = 0;
      for (const [, data] of text.matchAll(/^event: practice\ndata: (.*)\n\n/gm))
        heard.push(JSON.parse(data as string));
      if (acted() > 0) break;
    }
    giveUp.abort();
    expect(acted()).toBeGreaterThan(0);
    expect(acted()).toBeLessThan(30);
    expect(text).not.toContain('seed');
    expect(text).not.toContain('faults');
  });
});

describe('a server that is killed in the middle of acts', () => {
  test('has lost nothing that it acknowledged when it is started again, and goes on as if nothing had been', async () => {
    const there = join(freshFolder(), 'shop.sqlite');
    let here = await Served.start(there);
    const by: Hand = { id: (await setScene(here)).by, headers: {} };
    const who: Hand = { id: await person(here, by, 'Hal Birch', 'student'), headers: {} };
    const other: Hand = { id: await person(here, by, 'Ivy Sorrel', 'student'), headers: {} };
    let at = await AtBench.begin(here, who, { seed: 5 });
    await at.mount();
    await at.cut(30);
    const acknowledged = [...(await at.again()).acts];
    for (let kill = 0; kill < 4; ++kill) {
      const dying = here;
      setTimeout(() => dying.stop('SIGKILL'), 40 + 70 * kill);
      for (;;) {
        const act = { do: 'turns', turns: 2 };
        const answer = await at.act(act).catch(() => undefined);
        if (!answer) break;
        acknowledged.push({ number: answer.number, act, outcome: answer.outcome });
      }
      await dying.stop('SIGKILL');
      here = await Served.start(there);
      const run = await here.want('GET', `/practice/runs/${at.run.id}`);
      expect(run.acts.slice(0, acknowledged.length)).toEqual(acknowledged);
      expect(run.acts.length - acknowledged.length).toBeLessThanOrEqual(1);
      at = new AtBench(here, who, run);
      at.done = acknowledged.length;
      const asked = await at.act({ do: 'turns', turns: 2 }); // the one whose answer was lost, or the next
      acknowledged.push({ number: asked.number, act: { do: 'turns', turns: 2 }, outcome: asked.outcome });
    }
    const same = await AtBench.begin(here, other, { seed: 5 });
    for (const { act, outcome } of acknowledged) expect((await same.act(act)).outcome).toEqual(outcome);
    expect({ ...same.last.view }).toEqual(at.last.view);
    await at.act({ do: 'spindle', rpm: 0 });
    await at.act({ do: 'finish' });
    expect((await at.again()).mark.points).toBeGreaterThanOrEqual(0);
    await here.stop('SIGKILL');
    expect(done(['check', '--shop', there])).toContain('nothing wrong');
    here = await Served.start(there);
    const run = await here.want('GET', `/practice/runs/${at.run.id}`);
    expect(run.acts).toHaveLength(at.done);
    expect(run.mark).not.toBeNull();
    await here.stop();
  });
});

describe('the record', () => {
  test('of a shop with runs is proven, and keeps them whole when a name is erased', async () => {
    const at = await AtBench.begin(shop, await hand('Jon Quince'));
    await at.act(at.measureAt(10));
    await at.handOver();
    const before = await at.again();
    await shop.want('POST', `/people/${at.hand.id}/erasure?by_person_id=${teacher.id}`);
    const after = await at.again();
    expect(after.person_name).toMatch(/^Former student \d+$/);
    expect({ ...after, person_name: '' }).toEqual({ ...before, person_name: '' });
    expect(JSON.stringify(await shop.want('GET', '/practice/runs'))).not.toContain('Jon Quince');
    await shop.stop();
    expect(done(['check', '--shop', file])).toContain('nothing wrong');
    shop = await Served.start(file);
    expect(await shop.want('GET', `/practice/runs/${at.run.id}`)).toEqual(after);
  });
});
