/** The fin's outline: it must start at the root's leading edge, end on the root, enclose an area and not cross itself. */
import type { FinOutline, Point } from '@finwright/core/assess/design.ts'
import { area } from '@finwright/core/geometry/polygon.ts'
import { selfCrossing } from '@finwright/core/geometry/polygon-crossing.ts'
import type { Report } from '../resolve/loose.ts'
import type { Checking } from './can.ts'

const path = 'fins.outline'
/** m² over the square of the outline's extent: thinner than a hair's breadth on a metre. */
const leastAreaShare = 1e-6

export function checkOutline({ design, plan, report, typed }: Checking): void {
  const outline = design.fins?.outline as FinOutline | undefined
  if (outline === undefined) return
  const free = plan.fins?.outline?.kind === 'points'
  if (free) {
    checkEdgeCount(outline, report)
    if (!checkEnds(outline.points, report, typed)) return
  }
  checkShape(outline.points, report)
}

function checkEdgeCount({ points, edges }: FinOutline, report: Report): void {
  if (edges.length === points.length - 1) return
  report({
    code: 'outline/edge-count',
    path: `${path}.edges`,
    value: edges.length,
    message: `There are ${edges.length} edge names for ${points.length} points; there must be ${points.length - 1}, one for each piece from point to point, the root left out.`,
    hint: "Add or remove names, or leave 'edges' out to have them named.",
  })
}

/** False when the ends are wrong, and a word about the shape would only confuse. */
function checkEnds(points: readonly Point[], report: Report, typed: Checking['typed']): boolean {
  const last = points.length - 1
  const written = (i: number): unknown => typed('fins', 'outline', 'points', i)
  const issue = (code: string, i: number, message: string, hint: string): void =>
    report({ code, path: `${path}.points[${i}]`, value: written(i), message, hint })
  let good = true
  for (const i of [0, last]) {
    if (points[i]![1] === 0) continue
    good = false
    issue(
      'outline/off-root',
      i,
      `The ${i === 0 ? 'first' : 'last'} point of the outline lies ${shownPoint(written(i))}; it must lie on the root, with 0 mm outboard.`,
      'List the points from the root leading edge over the tip to the root trailing edge.',
    )
  }
  if (points[0]![0] !== 0) {
    good = false
    issue(
      'outline/origin',
      0,
      `The first point of the outline lies ${shownPoint(written(0))}; it must be the root leading edge, with 0 mm aft.`,
      'Measure every point aft of the root leading edge.',
    )
  }
  if (points[last]![0] <= points[0]![0]) {
    good = false
    issue(
      'outline/reversed',
      last,
      `The last point of the outline lies ${shownPoint(written(last))}; it must be the root trailing edge, aft of the first point.`,
      'List the points from the leading to the trailing edge.',
    )
  }
  points.forEach(([, y], i) => {
    if (i === 0 || i === last || y > 0) return
    good = false
    issue(
      'outline/below-root',
      i,
      `Point ${i + 1} of the outline lies ${shownPoint(written(i))}; between the first and the last, points must lie outboard of the root.`,
      'Check its second coordinate.',
    )
  })
  return good
}

const shownPoint = (written: unknown): string =>
  Array.isArray(written) ? `${written[0]} aft and ${written[1]} outboard` : 'elsewhere'

function checkShape(points: readonly Point[], report: Report): void {
  const extent =
    Math.max(...points.map(([x]) => x)) - Math.min(...points.map(([x]) => x)) + Math.max(...points.map(([, y]) => y))
  const repeated = points.findIndex(
    (point, i) => i > 0 && Math.hypot(point[0] - points[i - 1]![0], point[1] - points[i - 1]![1]) <= 1e-9 * extent,
  )
  if (repeated > 0) {
    report({
      code: 'outline/repeated-point',
      path: `${path}.points[${repeated}]`,
      value: points[repeated],
      message: `Point ${repeated + 1} of the outline is the same as the point before; neighbours must differ.`,
      hint: 'Remove one of the two.',
    })
    return
  }
  const crossing = selfCrossing(points)
  if (crossing !== null) {
    const { first, second } = crossing
    report({
      code: 'outline/self-crossing',
      path,
      value: [first + 1, second + 1],
      message: `The outline crosses itself: its piece ${first + 1} meets its piece ${second + 1}; it must be a simple shape.`,
      hint: 'Put the points in order round the fin, and check for a wrong coordinate.',
    })
    return
  }
  if (area(points) > leastAreaShare * extent ** 2) return
  report({
    code: 'outline/no-area',
    path,
    value: area(points),
    message: `The outline encloses ${(area(points) * 1e4).toPrecision(3)} cm2; it must have an area.`,
    hint: 'Check the points, or root, tip and span.',
  })
}
