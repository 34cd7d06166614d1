/** Fins on their tube: what fits beside what. */
import type { EdgeName, Point } from '@finwright/core/assess/design.ts'
import type { Checking } from './can.ts'

export function checkFins(checking: Checking): void {
  checkWall(checking)
  checkCore(checking)
  checkTab(checking)
  checkLands(checking)
  checkEdgeWidths(checking)
}

function checkWall({ design, report, typed }: Checking): void {
  const { outerRadius: R, wall } = design.tube ?? {}
  if (R === undefined || wall === undefined || wall < R) return
  report({
    code: 'tube/wall-too-thick',
    path: 'tube.wall',
    value: typed('tube', 'wall'),
    message: `The tube wall is ${typed('tube', 'wall')}; it must stay below half the outer diameter of ${typed('tube', 'outerDiameter')}.`,
    hint: 'Check the units of both.',
  })
}

/** Neighbouring cores stay apart on the tube as long as half a core is below R sin(π / N). */
function checkCore({ design, report, typed }: Checking): void {
  const R = design.tube?.outerRadius
  const { count: N, core } = design.fins ?? {}
  if (R === undefined || N === undefined || core?.thickness === undefined) return
  const most = 2 * R * Math.sin(Math.PI / N)
  if (core.thickness < most) return
  report({
    code: 'fins/core-too-thick',
    path: 'fins.core.thickness',
    value: typed('fins', 'core', 'thickness'),
    message: `The core is ${typed('fins', 'core', 'thickness')} thick; with ${N} fins on a tube of ${typed('tube', 'outerDiameter')} it must stay below ${(most * 1e3).toFixed(1)} mm, where neighbouring fins meet.`,
    hint: 'Check the units of the core thickness and of the tube diameter.',
  })
}

/** Tabs of neighbouring fins meet inside the tube where half a core reaches (R - depth) tan(π / N). */
function checkTab({ design, report, typed }: Checking): void {
  const mounting = design.fins?.mounting
  if (mounting?.kind !== 'tabbed') return
  const { outerRadius: R, wall } = design.tube ?? {}
  const { count: N, core, outline } = design.fins ?? {}
  const { depth, forward, aft } = mounting
  const written = typed('fins', 'mounting', 'depth')
  const issue = (code: string, message: string, hint: string): void =>
    report({ code, path: 'fins.mounting.depth', value: written, message, hint })
  if (depth !== undefined && wall !== undefined && depth < wall) {
    issue(
      'fins/tab-too-short',
      `The tabs are ${written} deep; they must reach through the wall of ${typed('tube', 'wall')}.`,
      'Make the tabs deeper, or mount the fins on the surface.',
    )
  }
  if (depth !== undefined && R !== undefined && N !== undefined && core?.thickness !== undefined) {
    const most = R - core.thickness / 2 / Math.tan(Math.PI / N)
    if (depth >= most)
      issue(
        'fins/tab-too-deep',
        `The tabs are ${written} deep; they must stay below ${(most * 1e3).toFixed(1)} mm, where the tabs of ${N} fins meet inside the tube.`,
        'Make the tabs less deep.',
      )
  }
  const points = outline?.points as readonly Point[] | undefined
  const root = points === undefined ? undefined : points.at(-1)![0]
  if (forward === undefined || aft === undefined || root === undefined || forward + aft < root) return
  report({
    code: 'fins/tab-too-short',
    path: 'fins.mounting.forward',
    value: typed('fins', 'mounting', 'forward'),
    message: `The tab starts ${typed('fins', 'mounting', 'forward')} behind the root leading edge and ends ${typed('fins', 'mounting', 'aft')} ahead of the trailing edge; nothing is left of it on a root of ${(root * 1e3).toFixed(1)} mm.`,
    hint: 'Both are measured from the ends of the root and must add up to less than the root chord.',
  })
}

const names: readonly EdgeName[] = ['leading', 'tip', 'trailing']

function checkLands({ design, report, typed }: Checking): void {
  const thickness = design.fins?.core?.thickness
  for (const name of names) {
    const edge = design.fins?.edges?.[name]
    if (thickness === undefined || edge?.kind !== 'bevel' || edge.land === undefined || edge.land < thickness) continue
    const written = typed('fins', 'edges', name, 'land')
    report({
      code: 'edges/land-too-thick',
      path: `fins.edges.${name}.land`,
      value: written,
      message: `The ${name} edge leaves a land of ${written}; it must be thinner than the core of ${typed('fins', 'core', 'thickness')}.`,
      hint: 'A land is what is left of the thickness at the very edge; for no bevel write "shape": "square".',
    })
  }
}

function checkEdgeWidths({ design, report, typed }: Checking): void {
  const { edges, outline } = design.fins ?? {}
  const points = outline?.points as readonly Point[] | undefined
  if (points === undefined || edges === undefined) return
  const chord = Math.max(...points.map(([x]) => x)) - Math.min(...points.map(([x]) => x))
  const span = Math.max(...points.map(([, y]) => y))
  const [leading, trailing] = [edges.leading?.width, edges.trailing?.width]
  if (leading !== undefined && trailing !== undefined && leading + trailing >= chord) {
    report({
      code: 'edges/wider-than-chord',
      path: leading >= trailing ? 'fins.edges.leading.width' : 'fins.edges.trailing.width',
      value: typed('fins', 'edges', leading >= trailing ? 'leading' : 'trailing', 'width'),
      message: `The leading and trailing edges are shaped over ${((leading + trailing) * 1e3).toFixed(1)} mm together; that must be less than the longest chord of ${(chord * 1e3).toFixed(1)} mm.`,
      hint: 'Make them narrower; check their units.',
    })
  }
  if (edges.tip?.width !== undefined && edges.tip.width >= span) {
    report({
      code: 'edges/wider-than-span',
      path: 'fins.edges.tip.width',
      value: typed('fins', 'edges', 'tip', 'width'),
      message: `The tip edge is shaped over ${(edges.tip.width * 1e3).toFixed(1)} mm; that must be less than the span of ${(span * 1e3).toFixed(1)} mm.`,
      hint: 'Make it narrower; check its unit.',
    })
  }
}
