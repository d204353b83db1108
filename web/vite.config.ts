import { defineConfig } from 'vite';

// No plugin: JSX by esbuild, everything else by tools/finish.mjs after the build.
export default defineConfig({
  base: './',
  esbuild: { jsx: 'automatic', jsxImportSource: 'preact' },
  server: { fs: { allow: ['..'] } },
  worker: { format: 'iife' },
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    chunkSizeWarningLimit: 1000,
  },
});
