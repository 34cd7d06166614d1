/** The server's bundle: the program, and the thread that makes packages. */
import { currentBundle } from '../../scripts/bundle.mjs'

/** Folder of `main.js` and `thread.js`, no older than any source file. */
export const serverBundle = () =>
  currentBundle({
    home: 'server',
    sources: ['core', 'plan', 'sheets', 'server'],
    entries: { main: 'main.ts', thread: 'package/thread.ts' },
    external: ['pdfkit', 'esbuild', 'libsql'],
  })
