import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const inWeb = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

// The specs lie beside the other whole-program tests; their tools lie here.
export default defineConfig({
  root: inWeb("../test/browser"),
  cacheDir: inWeb("node_modules/.vite-browser"), // not beside the specs
  resolve: {
    alias: {
      "playwright-core": inWeb("node_modules/playwright-core"),
      "axe-core": inWeb("node_modules/axe-core"),
      vitest: inWeb("node_modules/vitest"),
    },
  },
  server: { fs: { allow: [inWeb("..")] } },
  test: {
    include: ["*.spec.ts"],
    fileParallelism: false, // one browser and one server at a time: figures of speed mean nothing otherwise
    expect: { poll: { timeout: 15_000, interval: 25 } }, // a busy machine is slow, not wrong
    testTimeout: 120_000,
    hookTimeout: 60_000,
  },
});
