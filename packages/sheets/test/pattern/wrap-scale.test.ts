/** The conical wrap as it is printed: read back from its tiles by another program, its edges are as long as the body is round and long. */
import { canPatterns, patternSection } from '@finwright/core/assess/can-patterns.ts'
import { curedPlies } from '@finwright/core/assess/skins.ts'
import { expect, test } from 'vitest'
import { pagesAsPdf } from '../../src/drawing/pdf.ts'
import { figuresIn } from '../../src/layout/figures.ts'
import { papers } from '../../src/layout/paper.ts'
import { tiledDocument } from '../../src/pattern/tiled-document.ts'
import { tubeWrap } from '../../src/pattern/tube-wrap.ts'
import { readExample } from '../fixture/example.ts'
import { type ReadPath, readPdf, type XY } from '../reading/pdf.ts'

const design = readExample('boat-tail')
const made = canPatterns(design, curedPlies(design))
if (!made.ok) throw new Error('the boat-tail has patterns')
const tube = patternSection(made.value, { shear: [], relief: [] }).tube!
const { paperThickness } = design.printing
const pages = tiledDocument({
  title: 'Tube wrap',
  subject: 'tiles',
  pictures: [tubeWrap({ tube, paperThickness, figures: figuresIn('metric') })],
  paper: papers.a4,
  identity: { project: 'boat-tail', revision: { hash: '0123456789ab', date: '2026-01-02' } },
  allowed: 0.5,
  correction: '',
})

const lengthOf = (points: readonly XY[]): number =>
  points.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - points[i][0], y - points[i][1]), 0)

test('round both ends and along the meeting edges the printed wrap measures what the body does, on every tile', async () => {
  const read = await readPdf(await pagesAsPdf(pages, { title: 'wrap', subject: '', date: '2026-01-02' }))
  const sine = (design.tube.outerRadius - design.tube.aftRadius) / design.fins.outline.points.at(-1)![0]
  const [from, to] = [Math.min(...tube.fin.nextFoot.map(([a]) => a)), Math.max(...tube.fin.nextFoot.map(([a]) => a))]
  const round = (a: number): number =>
    2 * Math.PI * (design.tube.outerRadius - a * sine + paperThickness / 2 / Math.sqrt(1 - sine ** 2)) * 1e3
  // The cut edge is the only outline of so many corners that is closed: two arcs of 181 places.
  const isCut = ({ points, closed }: ReadPath): boolean => closed && (points.length === 362 || points.length === 363)
  const edges = read.pages.flatMap(({ paths }) => paths.filter(isCut))
  expect(edges.length).toBeGreaterThanOrEqual(2)
  for (const { points } of edges) {
    const corners = points.slice(0, 362)
    const half = corners.length / 2
    // Chords of 2° on an arc that turns by 18° in all are short by 2e-6.
    expect(lengthOf(corners.slice(0, half))).toBeCloseTo(round(from), 2)
    expect(lengthOf(corners.slice(half))).toBeCloseTo(round(to), 2)
    expect(Math.hypot(corners[half][0] - corners[half - 1][0], corners[half][1] - corners[half - 1][1])).toBeCloseTo(
      (to - from) * 1e3,
      2,
    )
  }
})
