import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  root: 'src/app',
  publicDir: 'public',
  base: './',
  plugins: [react()],
  worker: { format: 'es' },
  build: { outDir: '../../dist-page', emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 900 },
  optimizeDeps: { exclude: ['manifold-3d'] },
});
