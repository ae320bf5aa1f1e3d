import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { parse } from 'yaml';
import { root } from '../structure/tree';

type Schema = Record<string, unknown>;

interface Operation {
  responses: Record<string, { $ref?: string; content?: Record<string, unknown> }>;
}

interface Description {
  paths: Record<string, Record<string, Operation>>;
  components: { schemas: Record<string, Schema>; responses: Record<string, { content: Record<string, unknown> }> };
}

export const description = parse(readFileSync(join(root, 'api', 'openapi.yaml'), 'utf8')) as Description;

/** What is described is all there is: an answer with a field that the description does not name is wrong too. */
const closed = (schema: unknown): unknown => {
  if (Array.isArray(schema)) return schema.map(closed);
  if (typeof schema !== 'object' || schema === null) return schema;
  const copy = Object.fromEntries(Object.entries(schema).map(([key, value]) => [key, closed(value)])) as Schema;
  if (copy.type === 'object' && copy.properties && copy.additionalProperties === undefined) {
    copy.additionalProperties = false;
  }
  return copy;
};

const ajv = new Ajv2020({ strict: false, allErrors: true });
ajv.addSchema({ $id: 'https://brakewright.invalid/api', ...(closed(description) as object) });
const compiled = new Map<string, ValidateFunction>();

const validator = (pointer: string): ValidateFunction => {
  const known = compiled.get(pointer);
  if (known) return known;
  const made = ajv.compile({ $ref: `https://brakewright.invalid/api#${pointer}` });
  compiled.set(pointer, made);
  return made;
};

const escaped = (part: string) => part.replace(/~/g, '~0').replace(/\//g, '~1');

const complaint = (validate: ValidateFunction, value: unknown) =>
  validate(value)
    ? undefined
    : `${ajv.errorsText(validate.errors, { separator: '\n' })}\nin ${JSON.stringify(value)?.slice(0, 2000)}`;

/** Throws unless `value` is as the schema of that name describes. */
export const holdTo = (component: string, value: unknown): void => {
  if (!description.components.schemas[component]) throw new Error(`the API describes no ${component}`);
  const wrong = complaint(validator(`/components/schemas/${component}`), value);
  if (wrong) throw new Error(`not a ${component}: ${wrong}`);
};

const templateOf = (path: string): string => {
  const templates = Object.keys(description.paths);
  if (templates.includes(path)) return path;
  const parts = path.split('/');
  const found = templates.find((template) => {
    const wanted = template.split('/');
    return wanted.length === parts.length && wanted.every((part, i) => part.startsWith('{') || part === parts[i]);
  });
  if (!found) throw new Error(`the API describes no path ${path}`);
  return found;
};

export interface Answer {
  readonly method: string;
  /** Without /api/v1 and without a query. */
  readonly path: string;
  readonly status: number;
  readonly type: string;
  readonly body: unknown;
}

/** Throws unless the answer has a status, a content type and a body that the API describes for this request. */
export const holdAnswer = ({ method, path, status, type, body }: Answer): void => {
  const template = templateOf(path);
  const operation = description.paths[template]?.[method.toLowerCase()];
  if (!operation) throw new Error(`the API describes no ${method} ${template}`);
  const name = operation.responses[String(status)] ? String(status) : 'default';
  let pointer = `/paths/${escaped(template)}/${method.toLowerCase()}/responses/${name}`;
  let response = operation.responses[name];
  if (!response) throw new Error(`the API describes no answer ${status} to ${method} ${template}`);
  if (response.$ref) {
    pointer = response.$ref.slice(1);
    response = description.components.responses[pointer.split('/').at(-1) as string];
  }
  const media = type.split(';')[0] as string;
  if (!response?.content?.[media]) {
    throw new Error(
      `${method} ${path} answered ${status} as ${media}, described: ${Object.keys(response?.content ?? {})}`,
    );
  }
  if (media !== 'application/json') return;
  const wrong = complaint(validator(`${pointer}/content/${escaped(media)}/schema`), body);
  if (wrong) throw new Error(`${method} ${path} answered ${status}, not as described: ${wrong}`);
};
