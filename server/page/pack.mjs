// node pack.mjs DIST OUT: writes OUT/page_assets.S and OUT/page_assets.inc, which carry every file below DIST, and
// its gzip form where that is smaller.
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { constants, gzipSync } from 'node:zlib';

const [dist, out] = process.argv.slice(2);
mkdirSync(join(out, 'gzip'), { recursive: true });

const files = (folder) =>
  readdirSync(join(dist, folder))
    .sort()
    .flatMap((name) =>
      statSync(join(dist, folder, name)).isDirectory() ? files(`${folder}/${name}`) : [`${folder}/${name}`],
    );

const assembly = ['    .section .rodata'];
const declarations = [];
const rows = [];

const carry = (symbol, file, size) => {
  assembly.push(`    .global ${symbol}`, `${symbol}:`, `    .incbin "${file}"`);
  declarations.push(`extern "C" const char ${symbol}[];`);
  return `{${symbol}, ${size}}`;
};

for (const [i, path] of files('').entries()) {
  const content = readFileSync(join(dist, path));
  const etag = createHash('sha256').update(content).digest('hex').slice(0, 20);
  const packed = gzipSync(content, { level: constants.Z_BEST_COMPRESSION });
  const plain = carry(`brakewright_page_${i}`, join(dist, path), content.length);
  let gzip = '{}';
  if (packed.length < content.length * 0.95) {
    const file = join(out, 'gzip', String(i));
    writeFileSync(file, packed);
    gzip = carry(`brakewright_page_${i}_gzip`, file, packed.length);
  }
  rows.push(`    {${JSON.stringify(path)}, ${JSON.stringify(`"${etag}"`)}, ${plain}, ${gzip}},`);
}
assembly.push('    .section .note.GNU-stack,"",%progbits', '');

writeFileSync(join(out, 'page_assets.S'), assembly.join('\n'));
writeFileSync(
  join(out, 'page_assets.inc'),
  [
    ...declarations,
    'namespace brakewright::server {',
    'static const Asset kAssets[] = {',
    ...rows,
    '};',
    '}  // namespace brakewright::server',
    '',
  ].join('\n'),
);
