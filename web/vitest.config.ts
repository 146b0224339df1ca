import { defineConfig, mergeConfig } from "vitest/config";
import page from "./vite.config";

// What the tests are run with lies apart from what builds the page: the program is built without it.
export default mergeConfig(page, defineConfig({ test: { include: ["src/**/*.test.ts"], environment: "node" } }));
