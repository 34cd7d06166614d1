/**
 * Edges of structural plies against each other, at each end: none on another's, none closer than the taper allows.
 *
 * Between two successive edges the laminate loses the ply that ends further in, of thickness t; they must be
 * `stepPerThickness` · t apart. Edges within a millimetre of each other lie on one line: no hand places cloth closer.
 */
import { atLeast, millimetres } from '../geometry/dimension-text.ts'
import type { Issue } from '../issue.ts'
import type { Placed } from './rules.ts'
import { endName, type PlyEnd, plyEnds } from './schedule.ts'

const oneLine = 1e-3

export function spacingRules(structural: readonly Placed[], stepPerThickness: number): readonly Issue[] {
  return plyEnds.flatMap((end) => {
    const inward = [...structural].sort((a, b) => b.ply.stepBack[end] - a.ply.stepBack[end])
    return [...stackedAt(inward, end, stepPerThickness), ...steepAt(inward, end, stepPerThickness)]
  })
}

const gap = (inner: Placed, outer: Placed, end: PlyEnd): number => inner.ply.stepBack[end] - outer.ply.stepBack[end]

/** Runs of edges on one line. */
function stackedAt(inward: readonly Placed[], end: PlyEnd, stepPerThickness: number): Issue[] {
  const runs: Placed[][] = []
  for (const place of inward) {
    const run = runs.at(-1)
    if (run !== undefined && gap(run[0]!, place, end) < oneLine) run.push(place)
    else runs.push([place])
  }
  return runs
    .filter((run) => run.length > 1)
    .map((run) => {
      const names = run.map(({ ply }) => ply.id).sort()
      const { index, ply } = run.reduce((a, b) => (b.index > a.index ? b : a))
      const away = stepPerThickness * Math.max(...run.map((place) => place.ply.thickness))
      return {
        code: 'pattern/edges-stacked',
        path: `plies[${index}].stepBack.${end}`,
        value: ply.stepBack[end],
        message: `At the ${endName[end]} the edges of ${names.slice(0, -1).join(', ')} and ${names.at(-1)} lie on one line, ${millimetres(ply.stepBack[end])} back; edges of different plies must be at least ${atLeast(away)} apart.`,
        hint: `Give each of them its own step-back, ${atLeast(away)} more from ply to ply towards the core.`,
      }
    })
}

/** Neighbouring edges that are apart, but not by enough. */
function steepAt(inward: readonly Placed[], end: PlyEnd, stepPerThickness: number): Issue[] {
  return inward.slice(1).flatMap((outer, i) => {
    const inner = inward[i]!
    const step = gap(inner, outer, end)
    const needed = stepPerThickness * inner.ply.thickness
    if (step < oneLine || step >= needed - 1e-9) return []
    return [
      {
        code: 'pattern/step-steep',
        path: `plies[${inner.index}].stepBack.${end}`,
        value: inner.ply.stepBack[end],
        message: `At the ${endName[end]} ${inner.ply.id} ends ${millimetres(step)} inside ${outer.ply.id}; at ${millimetres(inner.ply.thickness, 2)} thickness the step must be at least ${atLeast(needed)} (${stepPerThickness} thicknesses).`,
        hint: `Step ${inner.ply.id} back to ${atLeast(outer.ply.stepBack[end] + needed)}, or allow a steeper step in layup.stepPerThickness.`,
      },
    ]
  })
}
