import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { openJob, reading, setScene } from './scene';
import { done, freshFolder, type Json, run, Served } from './shop';

const backupsOf = (file: string) => join(dirname(file), `${basename(file, '.sqlite')}-backups`);

/** The whole shop as text, to compare. */
const exported = (file: string) => done(['export', '--shop', file]);

const keptShop = async (): Promise<{ file: string; seq: number }> => {
  const file = join(freshFolder(), 'shop.sqlite');
  const shop = await Served.start(file);
  const scene = await setScene(shop);
  const { job, parts } = await openJob(shop, scene, ['left']);
  for (let k = 0; k < 8; ++k) {
    await shop.want(
      'POST',
      `/jobs/${job.id}/readings?by_person_id=${scene.by}`,
      reading(scene, parts[0].id, k, '21.50'),
    );
  }
  const { seq } = await shop.want('GET', '/health');
  await shop.stop();
  return { file, seq };
};

describe('a backup', () => {
  test('made while four tablets write is whole, and restores what it holds', async () => {
    const file = join(freshFolder(), 'shop.sqlite');
    const shop = await Served.start(file);
    const scene = await setScene(shop);
    const job = await openJob(shop, scene, ['left']);
    let writing = true;
    const acknowledged: string[] = [];
    const tablets = [0, 1, 2, 3].map(async (point) => {
      while (writing) {
        const body = { ...reading(scene, job.parts[0].id, point, '21.50'), confirmed: true };
        await shop.want('POST', `/jobs/${job.job.id}/readings?by_person_id=${scene.by}`, body);
        acknowledged.push(body.id);
      }
    });
    await new Promise((resolve) => setTimeout(resolve, 300));
    const before = new Set(acknowledged);
    const made = await shop.want('POST', '/backups');
    const path = done(['backup', '--shop', file]).trim();
    await new Promise((resolve) => setTimeout(resolve, 200));
    writing = false;
    await Promise.all(tablets);
    const listed: Json[] = await shop.want('GET', '/backups');
    expect(listed.map(({ name }) => name)).toContain(made.name);
    expect(listed.map(({ name }) => name)).toContain(basename(path));
    await shop.stop();

    for (const backup of [join(backupsOf(file), made.name), path]) {
      expect(done(['check', '--shop', backup])).toContain('nothing wrong');
      const inside = JSON.parse(exported(backup)).jobs[0].readings.map(({ id }: Json) => id);
      expect([...before].filter((id) => !inside.includes(id))).toEqual([]);
    }
    const now = exported(file);
    const wanted = exported(path);
    expect(wanted).not.toBe(now);
    const told = done(['restore', '--shop', file, '--from', path]);
    expect(exported(file)).toBe(wanted);
    const safety = /kept as (.+)/.exec(told)?.[1] as string;
    expect(exported(safety)).toBe(now);
  });

  test('is not restored over a shop that is being served', async () => {
    const { file } = await keptShop();
    const backup = done(['backup', '--shop', file]).trim();
    const shop = await Served.start(file);
    const { code, error } = run(['restore', '--shop', file, '--from', backup]);
    expect(code).toBe(3);
    expect(error).toContain(String(shop.pid));
    await shop.stop();
  });

  test('that is damaged is not restored, and the shop stays as it was', async () => {
    const { file } = await keptShop();
    const backup = done(['backup', '--shop', file]).trim();
    truncateSync(backup, statSync(backup).size >> 1);
    const now = exported(file);
    expect(run(['restore', '--shop', file, '--from', backup]).code).toBe(3);
    expect(exported(file)).toBe(now);
  });

  test('is kept as often as asked, the oldest go', async () => {
    const { file } = await keptShop();
    const folder = join(freshFolder(), 'kept');
    for (let k = 0; k < 4; ++k) {
      done(['backup', '--shop', file, '--folder', folder, '--keep', '2']);
      await new Promise((resolve) => setTimeout(resolve, 1100));
    }
    expect(readdirSync(folder).filter((name) => name.endsWith('.sqlite'))).toHaveLength(2);
    expect(done(['backup', '--shop', file, '--folder', folder, '--list']).trim().split('\n')).toHaveLength(2);
  });
});

describe('a file', () => {
  test('that is no shop is named, and left alone', () => {
    const file = join(freshFolder(), 'shop.sqlite');
    writeFileSync(file, 'This is a letter, not a database. '.repeat(200));
    for (const command of [['check'], ['job', 'list'], ['serve', '--port', '0'], ['export']]) {
      const { code, error } = run([...command, '--shop', file]);
      expect(code).toBe(3);
      expect(error).toContain(file);
    }
    expect(readFileSync(file, 'utf8')).toMatch(/^This is a letter/);
  });

  test('that is damaged is named, and the last good backup is offered with the command that restores it', async () => {
    const { file } = await keptShop();
    const backup = done(['backup', '--shop', file]).trim();
    const wanted = exported(file);
    const bytes = readFileSync(file);
    for (let at = 4096; at < bytes.length; at += 512) bytes.fill(0xa5, at, at + 300);
    writeFileSync(file, bytes);
    const { code, error } = run(['serve', '--shop', file, '--port', '0']);
    expect(code).toBe(3);
    expect(error).toContain(file);
    expect(error).toContain(basename(backup));
    expect(error).toContain('restore');
    done(['restore', '--shop', file]);
    expect(exported(file)).toBe(wanted);
  });

  test('of a newer program is refused and left as it is', async () => {
    const { file } = await keptShop();
    const bytes = readFileSync(file);
    // The version of the tables: bytes 60 to 63 of the header (https://www.sqlite.org/fileformat2.html, 1.3).
    bytes.writeUInt32BE(bytes.readUInt32BE(60) + 1, 60);
    writeFileSync(file, bytes);
    for (const command of [['serve', '--port', '0'], ['job', 'list'], ['check']]) {
      const { code, error } = run([...command, '--shop', file]);
      expect(code).toBe(3);
      expect(error).toMatch(/newer/);
    }
    expect(readFileSync(file).equals(bytes)).toBe(true);
  });

  test('is used by one program at a time, and the second is told', async () => {
    const { file } = await keptShop();
    const shop = await Served.start(file);
    const { code, error } = run(['serve', '--shop', file, '--port', '0']);
    expect(code).toBe(3);
    expect(error).toContain(String(shop.pid));
    expect(run(['job', 'list', '--shop', file]).code).toBe(0);
    await shop.stop();
  });
});

describe('a full disk', () => {
  const folder = join(freshFolder(), 'small');
  mkdirSync(folder);
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=3m', 'tmpfs', folder]).status === 0;
  afterAll(() => {
    if (mounted) spawnSync('umount', [folder]);
  });

  /** Something else on the same disk grows meanwhile. */
  const fillUp = (k: number) => {
    try {
      writeFileSync(join(folder, `photographs-${k}`), Buffer.alloc(120_000));
    } catch {
      return;
    }
  };

  test('is told in words, and nothing that was acknowledged is lost', async () => {
    const file = join(folder, 'shop.sqlite');
    // Without the right to mount, a limit on the size of files stands in for the full disk.
    const wrapper = mounted ? [] : ['sh', '-c', 'trap "" XFSZ; ulimit -f 1200; exec "$@"', 'sh'];
    const shop = await Served.start(file, { wrapper });
    const scene = await setScene(shop);
    const job = await openJob(shop, scene, ['left']);
    const stored = new Set<string>();
    let refused: Json;
    for (let k = 0; k < 20_000 && !refused; ++k) {
      if (mounted && k % 50 === 0) fillUp(k);
      const body = { ...reading(scene, job.parts[0].id, k % 8, '21.500'), confirmed: true };
      const got = await shop.ask('POST', `/jobs/${job.job.id}/readings?by_person_id=${scene.by}`, body);
      if (got.status === 200) stored.add(body.id);
      else refused = got;
    }
    expect(refused.status).toBe(503);
    expect(refused.body.error.message).toMatch(/full|space/);
    const { readings } = await shop.want('GET', `/jobs/${job.job.id}`);
    expect(readings.map(({ id }: Json) => id).sort()).toEqual([...stored].sort());
    await shop.stop('SIGKILL');
    const elsewhere = join(freshFolder(), 'shop.sqlite');
    for (const ending of ['', '-wal']) {
      if (existsSync(file + ending)) copyFileSync(file + ending, elsewhere + ending);
    }
    expect(done(['check', '--shop', elsewhere])).toContain('nothing wrong');
    const kept = JSON.parse(exported(elsewhere)).jobs[0].readings.map(({ id }: Json) => id);
    expect(kept.sort()).toEqual([...stored].sort());
  });
});
