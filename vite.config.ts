import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** Where the development server finds the service; only used while working on the browser's side. */
const service = process.env.PULLBOOK_SERVICE ?? 'http://127.0.0.1:4310';

export default defineConfig({
  root: 'web',
  plugins: [react()],
  resolve: {
    // What writes a workbook packs it in a worker made of text, which our content security policy refuses.
    alias: [{ find: /^fflate$/, replacement: join(import.meta.dirname, 'web/table/pack.ts') }],
  },
  // The service replaces the placeholder by a fresh nonce with every page it sends.
  html: { cspNonce: '__CSP_NONCE__' },
  build: {
    outDir: '../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    // A strict content security policy allows no data: URLs for fonts and pictures.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 900,
  },
  server: { proxy: { '/api': { target: service, changeOrigin: true } } },
});
