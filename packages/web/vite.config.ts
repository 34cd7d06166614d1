/** The app as the server serves it: everything from its own address, nothing inline, so that a strict content policy holds. */
import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

/** Where `npm run dev` finds the server; the built app is served by the server itself. */
const server = process.env.FINWRIGHT_SERVER ?? 'http://127.0.0.1:4319'

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react()],
  worker: { format: 'es' },
  build: { target: 'es2023', assetsInlineLimit: 0, modulePreload: { polyfill: false }, chunkSizeWarningLimit: 2000 },
  server: { host: '127.0.0.1', proxy: { '/api': { target: server, changeOrigin: true, headers: { origin: server } } } },
})
