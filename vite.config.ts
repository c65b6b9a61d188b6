import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

/** What the built page may load: its own files only; the solid kernel compiles its own WebAssembly. */
const POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/** Only in the build: the development server needs inline scripts for its reloading. */
const policy = (): Plugin => ({
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
      injectTo: 'head-prepend',
    },
  ],
});

export default defineConfig({
  root: 'src/app',
  publicDir: 'public',
  base: './',
  plugins: [react(), policy()],
  worker: { format: 'es' },
  build: { outDir: '../../dist-page', emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 900 },
  optimizeDeps: { exclude: ['manifold-3d', 'replicad-opencascadejs'] },
});
