import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newJob, openJob, type Scene, setScene } from './scene';
import { freshFolder, type Json, Served } from './shop';

const folder = freshFolder();
let shop: Served;
let scene: Scene;

beforeAll(async () => {
  shop = await Served.start(join(folder, 'shop.sqlite'));
  scene = await setScene(shop);
});
afterAll(async () => {
  await shop.stop();
});

const textOf = (pdf: Buffer): string => {
  const file = join(folder, 'record.pdf');
  writeFileSync(file, pdf);
  return execFileSync('pdftotext', ['-layout', file, '-']).toString().replace(/ +/g, ' ');
};

const openBeside = async (job: Json, axle: string): Promise<Json> => {
  const asked = newJob(scene, ['left']);
  return shop.want('POST', `/jobs?by_person_id=${scene.by}`, {
    ...asked,
    job: { ...asked.job, axle, beside_job_id: job.job.id },
  });
};

describe('the record of a vehicle', () => {
  test('carries every job of it, the front axle first, and each sheet names the others', async () => {
    const front = await openJob(shop, scene, ['left', 'right']);
    const rear = await openBeside(front, 'rear');
    const text = textOf(await shop.want('GET', `/jobs/${rear.job.id}/record.pdf?vehicle=true`));
    const first = text.indexOf(`job ${front.job.number} sheet 1 of 1`);
    const second = text.indexOf(`job ${rear.job.number} sheet 1 of 1`);
    expect(first).toBeGreaterThanOrEqual(0);
    expect(second).toBeGreaterThan(first);
    expect(text).toContain(`front, left and right; rear: job ${rear.job.number}`);
    expect(text).toContain(`rear, left; front: job ${front.job.number}`);
    const alone = textOf(await shop.want('GET', `/jobs/${rear.job.id}/record.pdf`));
    expect(alone).not.toContain(`job ${front.job.number} sheet`);
  });

  test('of a job that is alone is its record', async () => {
    const job = await openJob(shop, scene, ['left']);
    const text = textOf(await shop.want('GET', `/jobs/${job.job.number}/record.pdf?vehicle=true`));
    expect(text.match(/sheet 1 of 1/g)).toHaveLength(1);
  });
});
