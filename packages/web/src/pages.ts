/**
 * Every page: its place, the question it answers, and its view, loaded when it is first asked for. A row here puts it in the
 * navigation; one without `short` is reached from other pages only.
 */
import { type ComponentType, type LazyExoticComponent, lazy } from 'react'

export interface PageEntry {
  readonly path: string
  readonly question: string
  /** Where there is little room. */
  readonly short?: string
  readonly view: LazyExoticComponent<ComponentType>
}

export const pages: readonly PageEntry[] = [
  {
    path: '/start',
    question: 'Start a plan',
    short: 'Start',
    view: lazy(() => import('./features/first-run/StartPage.tsx')),
  },
  { path: '/', question: 'The plan', short: 'Plan', view: lazy(() => import('./features/plan/PlanPage.tsx')) },
  {
    path: '/can',
    question: 'What does it look like?',
    short: 'Can',
    view: lazy(() => import('./features/can3d/CanPage.tsx')),
  },
  {
    path: '/shape',
    question: 'What shape is it?',
    short: 'Shape',
    view: lazy(() => import('./features/outline/OutlinePage.tsx')),
  },
  {
    path: '/plies',
    question: 'Which plies, which way?',
    short: 'Plies',
    view: lazy(() => import('./features/schedule/SchedulePage.tsx')),
  },
  { path: '/see', question: 'What will it see?', short: 'See', view: lazy(() => import('./features/see/SeePage.tsx')) },
  { path: '/hold', question: 'Will it hold?', short: 'Hold', view: lazy(() => import('./features/hold/HoldPage.tsx')) },
  { path: '/cut', question: 'What do I cut?', short: 'Cut', view: lazy(() => import('./features/cut/CutPage.tsx')) },
  {
    path: '/mix',
    question: 'What do I mix, and when?',
    short: 'Mix',
    view: lazy(() => import('./features/mix/MixPage.tsx')),
  },
  {
    path: '/print',
    question: 'What do I print?',
    short: 'Print',
    view: lazy(() => import('./features/print/PrintPage.tsx')),
  },
  { path: '/plans', question: 'Which plan?', view: lazy(() => import('./features/plans/PlansPage.tsx')) },
]
