import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { examples } from './calc_examples';
import { description, holdTo } from './contract';
import { done, freshFolder, type Json, run, Served } from './shop';

const listed = done(['calc', '--list'])
  .trim()
  .split('\n')
  .map((line) => line.split(/\s+/)[0] as string);

const componentOf = (name: string) =>
  `Calc${name.replace(/(^|-)([a-z])/g, (_all, _dash: string, letter: string) => letter.toUpperCase())}`;

const calc = (name: string, input: Json) =>
  run(['calc', name], typeof input === 'string' ? input : JSON.stringify(input));

const refusal = (name: string, input: Json) => {
  const { code, out, error } = calc(name, input);
  expect(code).toBe(2);
  expect(out).toBe('');
  const body = JSON.parse(error);
  holdTo('Refusal', body);
  return body.error;
};

const numbersIn = (value: Json): number[] =>
  typeof value === 'number'
    ? [value]
    : value && typeof value === 'object'
      ? Object.values(value).flatMap(numbersIn)
      : [];

describe('brakewright calc', () => {
  test('names the computations of the main job', () => {
    for (const name of ['length', 'circle', 'thickness', 'budget', 'conformity', 'cleanup', 'verdict', 'anova']) {
      expect(listed).toContain(name);
    }
  });

  test.each(listed)('%s has an example here and its input and answer are described', (name) => {
    expect(Object.keys(examples)).toContain(name);
    expect(Object.keys(description.components.schemas)).toContain(`${componentOf(name)}Input`);
    expect(Object.keys(description.components.schemas)).toContain(`${componentOf(name)}Output`);
  });

  test.each(listed)('%s takes what is described and answers as described', (name) => {
    holdTo(`${componentOf(name)}Input`, examples[name]);
    const { code, out, error } = calc(name, examples[name]);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    const answer = JSON.parse(out);
    holdTo(`${componentOf(name)}Output`, answer);
    expect(numbersIn(answer).every(Number.isFinite)).toBe(true);
  });

  test.each(listed)('%s prints schemas that stand on their own', (name) => {
    const { input, output } = JSON.parse(done(['calc', name, '--schema']));
    expect(input.type).toBe('object');
    expect(output.type).toBe('object');
    const text = JSON.stringify({ input, output });
    expect(text).not.toContain('#/components/');
  });

  test.each(listed)('%s gives the same answer to the same input', (name) => {
    expect(calc(name, examples[name]).out).toBe(calc(name, examples[name]).out);
  });

  test.each(listed)('%s names the field that is missing, unknown or of another type', (name) => {
    const example = examples[name];
    const needed: string[] = (description.components.schemas[`${componentOf(name)}Input`]?.required as string[]) ?? [];
    expect(needed.length).toBeGreaterThan(0);
    for (const field of needed) {
      const { [field]: _gone, ...rest } = example;
      expect(refusal(name, rest)).toMatchObject({ code: 'missing', field });
    }
    for (const field of Object.keys(example)) {
      const wrong = typeof example[field] === 'object' ? 'three' : { a: 1 };
      expect(refusal(name, { ...example, [field]: wrong }).field).toBe(field);
    }
    expect(refusal(name, { ...example, misspelt: 1 })).toMatchObject({ code: 'unknown_field', field: 'misspelt' });
  });

  test.each(listed)('%s refuses what is no object', (name) => {
    for (const input of ['', 'null', '[]', '3', '"text"', '{', '{"a":1}x', '\u0000', '[[[['.repeat(1000)]) {
      expect(refusal(name, input).message).not.toBe('');
    }
  });

  test('refuses numbers that are none, wherever they stand', () => {
    for (const number of ['NaN', 'Infinity', '-Infinity', '1e999', '"12"', 'true', 'null']) {
      const { field } = refusal('conformity', `{"value":1,"u":${number},"lower":0,"upper":null,"confidence":0.95}`);
      expect(['u', '']).toContain(field);
    }
    expect(refusal('circle', '{"angles_deg":[0,90,180,270],"values_um":[1,2,null,4],"max_order":1}').field).toBe(
      'values_um[2]',
    );
  });

  test('refuses a computation that it does not know and says which it knows', () => {
    expect(refusal('lengths', {})).toMatchObject({
      code: 'unknown_method',
      message: expect.stringContaining('length'),
    });
  });

  test('refuses more than 8 MB', () => {
    expect(refusal('length', `{"text":"${'9'.repeat(9_000_000)}"}`).code).toBe('too_large');
  });
});

describe('POST /calc', () => {
  let shop: Served;
  beforeAll(async () => {
    shop = await Served.start(join(freshFolder(), 'shop.sqlite'));
  });
  afterAll(async () => {
    await shop.stop();
  });

  test('lists the same computations as the command line', async () => {
    const methods: Json[] = await shop.want('GET', '/calc');
    expect(methods.map(({ name }) => name)).toEqual(listed);
  });

  test.each(listed)('%s answers as the command line does', async (name) => {
    const answer = await shop.want('POST', `/calc/${name}`, examples[name]);
    expect(answer).toEqual(JSON.parse(calc(name, examples[name]).out));
  });

  test.each(listed)('%s refuses in the same words', async (name) => {
    const input = { ...examples[name], misspelt: 1 };
    const { status, ...refused } = await shop.refusal('POST', `/calc/${name}`, input);
    expect(status).toBe(422);
    expect(refused).toEqual(refusal(name, input));
  });

  test('an unknown computation is 404', async () => {
    expect((await shop.refusal('POST', '/calc/lengths', {})).status).toBe(404);
  });
});
