import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";

// The page is served from inside the binary under a content security policy of its own origin only: nothing is inlined,
// one script, one style sheet, names without hashes (the server answers with an ETag).
export default defineConfig({
  plugins: [svelte()],
  base: "./",
  build: {
    outDir: "dist",
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    cssCodeSplit: false,
    rollupOptions: {
      output: {
        entryFileNames: "assets/workbench.js",
        assetFileNames: "assets/[name][extname]",
        inlineDynamicImports: true,
      },
    },
  },
});
