import { createRoot } from 'react-dom/client'
import { App } from './App.tsx'
import { httpServer } from './server/http.ts'
import { planDocument } from './state/document.ts'
import { browserKeeper, thisBrowser } from './state/keeper.ts'
import { freshName } from './state/names.ts'
import { session } from './state/session.ts'
import './style/tokens.css'
import './style/base.css'
import { showTheme } from './state/theme.ts'
import { workerAnswerer } from './worker/answerer.ts'

showTheme()
/** `VITE_ALONE=1` works on the app without a server: the demo, kept in this browser. */
const alone = import.meta.env.VITE_ALONE === '1'
const server = alone ? (await import('./server/demo.ts')).demoServer() : httpServer()
const name = freshName()
const here = session(server, workerAnswerer(), planDocument(server, name, browserKeeper(name, thisBrowser())))
void here.document.start()
createRoot(document.getElementById('app')!).render(<App session={here} />)
