import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { request as plainRequest } from 'node:http';
import { type RequestOptions, request } from 'node:https';
import { connect } from 'node:net';
import { join } from 'node:path';
import { connect as connectTls, type TLSSocket } from 'node:tls';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { binary, freshFolder } from './shop';

interface Answer {
  readonly status: number | undefined;
  readonly location: string | undefined;
  readonly body: string;
}

const shop = join(freshFolder(), 'shop.sqlite');
const kept = `${shop}.certificate.pem`;
let child: ChildProcess;
let port = 0;
let fingerprint = '';

const start = async (): Promise<void> => {
  child = spawn(binary, ['serve', '--shop', shop, '--port', String(port), '--https'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let printed = '';
  await new Promise<void>((resolve, reject) => {
    child.stdout?.on('data', (part: Buffer) => {
      printed += part.toString();
      if (printed.includes('Ctrl-C')) resolve();
    });
    child.once('exit', () => reject(new Error(`ended before it served: ${printed}`)));
  });
  port = Number(/https:\/\/127\.0\.0\.1:(\d+)/.exec(printed)?.[1]);
  fingerprint = /(?:[0-9A-F]{2}:){31}[0-9A-F]{2}/.exec(printed)?.[0] ?? '';
};

const stop = async (): Promise<void> => {
  const ended = new Promise((resolve) => child.once('exit', resolve));
  child.kill('SIGTERM');
  await ended;
};

const asked = (ask: typeof request | typeof plainRequest, options: RequestOptions, body = ''): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const sent = ask({ host: '127.0.0.1', port, agent: false, ...options }, (answer) => {
      let text = '';
      answer.on('data', (part: Buffer) => {
        text += part.toString();
      });
      answer.on('end', () => resolve({ status: answer.statusCode, location: answer.headers.location, body: text }));
    });
    sent.on('error', reject);
    sent.end(body);
  });

/** Trusts the shop's certificate and nothing else, its names included. */
const overTls = (path: string, more: RequestOptions = {}, body = '') =>
  asked(request, { path, ca: readFileSync(kept), ...more }, body);

const handshake = (options: object): Promise<TLSSocket> =>
  new Promise((resolve, reject) => {
    const socket = connectTls({ host: '127.0.0.1', port, ca: readFileSync(kept), ...options }, () => resolve(socket));
    socket.on('error', reject);
  });

beforeAll(start);
afterAll(stop);

describe('a shop over https', () => {
  test('answers to who trusts its certificate, under each of its names', async () => {
    for (const host of ['127.0.0.1', 'localhost']) {
      const { status, body } = await overTls('/api/v1/health', { host });
      expect(status).toBe(200);
      expect(JSON.parse(body).store).toBe('ok');
    }
    await expect(asked(request, { path: '/api/v1/health' })).rejects.toThrow(/self-signed/);
  });

  test('shows the fingerprint that it printed, and keeps it over a restart', async () => {
    const first = fingerprint;
    const socket = await handshake({});
    expect(socket.getPeerCertificate().fingerprint256).toBe(first);
    expect(['TLSv1.2', 'TLSv1.3']).toContain(socket.getProtocol());
    socket.destroy();
    await stop();
    await start();
    expect(fingerprint).toBe(first);
  });

  test('speaks nothing older than TLS 1.2', async () => {
    await expect(
      handshake({ minVersion: 'TLSv1', maxVersion: 'TLSv1.1', ciphers: 'DEFAULT@SECLEVEL=0' }),
    ).rejects.toThrow();
  });

  test('sends who comes without it to the same place with it, whatever was asked', async () => {
    const { status, location } = await asked(plainRequest, { path: '/jobs/7/verdict?paper=a4' });
    expect(status).toBe(308);
    expect(location).toBe(`https://127.0.0.1:${port}/jobs/7/verdict?paper=a4`);
    const written = await asked(plainRequest, { path: '/api/v1/shop', method: 'POST' }, '{}');
    expect(written.status).toBe(308);
  });

  test('takes and gives large bodies whole', async () => {
    const calculated = JSON.stringify({ groups: [0, 1].map((k) => Array.from({ length: 60_000 }, (_, i) => i + k)) });
    const { status, body } = await overTls(
      '/api/v1/calc/anova',
      { method: 'POST', headers: { 'content-type': 'application/json' } },
      calculated,
    );
    expect(status).toBe(200);
    expect(JSON.parse(body).df_within).toBe(119_998);
    const page = await overTls('/api/v1/openapi.json');
    expect(JSON.parse(page.body).openapi).toMatch(/^3\./);
  });

  test('tells events', async () => {
    const heard = await new Promise<string>((resolve, reject) => {
      const sent = request({ host: '127.0.0.1', port, path: '/api/v1/events', ca: readFileSync(kept) }, (answer) => {
        answer.once('data', (part: Buffer) => {
          resolve(`${answer.headers['content-type']} ${part}`);
          sent.destroy();
        });
      });
      sent.on('error', reject);
      sent.end();
    });
    expect(heard).toMatch(/^text\/event-stream/);
  });

  test('is not held up by who says nothing, nonsense or half a handshake', async () => {
    const silent = Array.from({ length: 20 }, () => connect(port, '127.0.0.1'));
    for (const [k, socket] of silent.entries()) {
      socket.on('error', () => {});
      if (k % 2 === 0) socket.write(Buffer.from([22, 3, 1, 0, 200, 1, 2, 3]));
    }
    expect((await overTls('/api/v1/health')).status).toBe(200);
    const nonsense = connect(port, '127.0.0.1');
    const ended = new Promise((resolve) => nonsense.on('close', resolve));
    nonsense.on('error', () => {});
    nonsense.resume();
    nonsense.write(Buffer.concat([Buffer.from([22, 3, 1, 0, 5]), Buffer.alloc(400, 7)]));
    await ended;
    expect((await overTls('/api/v1/health')).status).toBe(200);
    for (const socket of silent) socket.destroy();
  });
});
