/** The event stream's API. */

import { Refusal } from '../http/refusal.ts'
import { query, type RouteTable } from '../http/route.ts'

export const eventRoutes: RouteTable = {
  'GET /api/events': query((_, { events, settings }) => {
    const stream = events.listen({ kind: 'hello', open: settings.open() })
    if (stream === null) throw tooManyWindows()
    return { stream }
  }),
}

const tooManyWindows = (): Refusal =>
  new Refusal(503, [
    {
      code: 'server/too-many-windows',
      path: '',
      value: null,
      message: 'Too many windows listen already; at most 64 may.',
      hint: 'Close some of them.',
    },
  ])
