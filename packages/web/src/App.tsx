/** The window: title block, questions, margins, the page, and why. It composes; it does not think. */
import { memo, Suspense, useDeferredValue } from 'react'
import { RouterProvider } from 'react-aria-components'
import { Route, Switch, useLocation } from 'wouter'
import styles from './App.module.css'
import { MarginStrip } from './features/margins/MarginStrip.tsx'
import { WhyPanel } from './features/why/WhyPanel.tsx'
import { pages } from './pages.ts'
import { HistoryPlaces } from './shell/HistoryPlaces.tsx'
import { LastWord } from './shell/LastWord.tsx'
import { NoPage } from './shell/NoPage.tsx'
import { Notices } from './shell/Notices.tsx'
import { PageTitle } from './shell/PageTitle.tsx'
import { Questions } from './shell/Questions.tsx'
import { TitleBlock } from './shell/TitleBlock.tsx'
import { UndoKeys } from './shell/UndoKeys.tsx'
import type { Session } from './state/session.ts'
import { SessionProvider, useAtRest, useSelected, useSession } from './state/use.ts'

export function App({ session }: { readonly session: Session }) {
  const [, navigate] = useLocation()
  return (
    <SessionProvider value={session}>
      <RouterProvider navigate={navigate}>
        <UndoKeys />
        <LastWord />
        <HistoryPlaces />
        <PageTitle />
        <a className={styles.skip} href="#page">
          Skip to the page
        </a>
        <Window />
      </RouterProvider>
    </SessionProvider>
  )
}

function Window() {
  const [open, connection] = useSelected(
    useSession().document,
    ({ draft, connection: now }) => [draft !== null, now] as const,
  )
  // drawn with the page, which is drawn after the margins
  const fresh = useDeferredValue(useAtRest())
  if (!open)
    return (
      <p className={styles.waiting} role="status">
        {connection === 'gone'
          ? 'The server does not answer. Start it with npm start; this page goes on by itself.'
          : 'Opening the plan …'}
      </p>
    )
  return (
    <div className={styles.window} data-answers={fresh ? 'fresh' : 'old'}>
      <Inside />
    </div>
  )
}

/** Nothing here hangs on the answers: each part watches what it shows. */
const Inside = memo(() => (
  <>
    <TitleBlock />
    <Questions />
    <div className={styles.body}>
      <MarginStrip />
      <Notices />
      <main id="page" className={styles.page} tabIndex={-1}>
        <Suspense fallback={<p role="status">Opening …</p>}>
          <Switch>
            {pages.map(({ path, view: View }) => (
              <Route key={path} path={path}>
                <View />
              </Route>
            ))}
            <Route>
              <NoPage />
            </Route>
          </Switch>
        </Suspense>
      </main>
    </div>
    <WhyPanel />
  </>
))
