import { defineConfig } from 'vite';

// No plugin: JSX by esbuild, everything else by tools/finish.mjs after the build. `--mode single` puts what is otherwise
// fetched later into one script and one style: what the single file carries.
export default defineConfig(({ mode }) => ({
  base: './',
  esbuild: { jsx: 'automatic', jsxImportSource: 'preact' },
  server: { fs: { allow: ['..'] } },
  worker: { format: 'iife' },
  build: {
    target: 'es2022',
    outDir: mode === 'single' ? 'dist-single' : 'dist',
    cssCodeSplit: mode !== 'single',
    ...(mode === 'single' ? { rollupOptions: { output: { inlineDynamicImports: true } } } : {}),
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    chunkSizeWarningLimit: 1000,
  },
}));
