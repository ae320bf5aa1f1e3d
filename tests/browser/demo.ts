import { join } from 'node:path';
import { done, freshFolder, Served } from '../api/shop';

/** A new demo shop, served, with one of its teachers signed in. */
export async function serveDemo(): Promise<{ shop: Served; teacher: { id: string; name: string } }> {
  const file = join(freshFolder(), 'shop.sqlite');
  done(['demo', '--shop', file]);
  const shop = await Served.start(file);
  return { shop, teacher: await shop.signInToDemo() };
}
