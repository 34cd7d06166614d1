import { createRoot } from 'react-dom/client'
import { App } from './App.tsx'
import { demoServer } from './server/demo.ts'
import { session } from './state/session.ts'
import './style/tokens.css'
import './style/base.css'
import { showTheme } from './state/theme.ts'
import { workerAnswerer } from './worker/answerer.ts'

showTheme()
const here = session(demoServer(), workerAnswerer())
void here.document.start()
createRoot(document.getElementById('app')!).render(<App session={here} />)
