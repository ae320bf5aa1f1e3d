import { defineConfig } from 'vitest/config';

const folder = (name: string, rest: object = {}) => ({
  extends: true as const,
  test: { name, include: [`tests/${name}/**/*.test.ts`, `tests/${name}/**/*.test.tsx`], environment: 'node', ...rest },
});

export default defineConfig({
  esbuild: { jsx: 'automatic', jsxImportSource: 'preact' },
  test: {
    projects: [
      folder('structure'),
      folder('web', { environment: 'jsdom' }),
      folder('api', { testTimeout: 60_000, hookTimeout: 60_000, fileParallelism: false }),
      folder('browser', { testTimeout: 300_000, hookTimeout: 120_000, fileParallelism: false }),
    ],
  },
});
