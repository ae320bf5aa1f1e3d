import { type Sent, send } from '../api/client';

/** An operation of the API, as its own description tells it. */
export interface Operation {
  operationId: string;
  /** A teacher can sign for it at somebody else's tablet. */
  'x-signable'?: boolean;
}

export interface Description {
  paths: Record<string, Record<string, Operation>>;
}

/** The operation that was sent: a path of its own comes before one with names in braces. Null for none of the API's. */
export function operationIn({ paths }: Description, { method, path }: Sent): Operation | null {
  const exact = paths[path]?.[method];
  if (exact) return exact;
  const parts = path.split('/');
  const fits = (template: string) => {
    const wanted = template.split('/');
    return wanted.length === parts.length && wanted.every((part, i) => part.startsWith('{') || part === parts[i]);
  };
  const found = Object.entries(paths).find(([template, methods]) => fits(template) && methods[method]);
  return found?.[1][method] ?? null;
}

let description: Promise<Description> | null = null;

/** Fetched once; where that fails it is tried again with the next question. */
export async function operationOf(sent: Sent): Promise<Operation | null> {
  description ??= send({ method: 'get', path: '/openapi.json' }) as Promise<Description>;
  try {
    return operationIn(await description, sent);
  } catch (cause) {
    description = null;
    throw cause;
  }
}
