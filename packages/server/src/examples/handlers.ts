/** The examples' API. To open one, `POST /api/plans` with `from.kind` `example`. */
import { json, query, type RouteTable } from '../http/route.ts'
import { exampleSummary } from './examples.ts'

export const exampleRoutes: RouteTable = {
  'GET /api/examples': query((_, { examples }) => json({ examples: examples.map(exampleSummary) })),
}
