/** Tube and fins of the plan, in SI. */
import type { EdgeShape, Fins, Tube } from '@finwright/core/assess/design.ts'
import type { CanPlan } from '../schema/can.ts'
import { siValue } from '../schema/judge.ts'
import type { Loose } from './loose.ts'
import type { Find } from './materials.ts'
import { resolveOutline } from './outline.ts'

export function resolveTube(tube: Loose<CanPlan['tube']> | undefined, find: Find): Loose<Tube> {
  const diameter = siValue('tube.outerDiameter', tube?.outerDiameter)
  const aftDiameter = siValue('tube.aftDiameter', tube?.aftDiameter)
  return {
    outerRadius: diameter === undefined ? undefined : diameter / 2,
    aftRadius: aftDiameter === undefined ? undefined : aftDiameter / 2,
    ahead: tube?.ahead === undefined ? null : siValue('tube.ahead', tube.ahead),
    behind: tube?.behind === undefined ? null : siValue('tube.behind', tube.behind),
    wall: siValue('tube.wall', tube?.wall),
    material: find('sheet', tube?.material, 'tube.material'),
    backing: tube?.backing,
  }
}

export function resolveFins(fins: Loose<CanPlan['fins']> | undefined, find: Find): Loose<Fins> {
  const thickness = siValue('fins.core.thickness', fins?.core?.thickness)
  return {
    count: siValue('fins.count', fins?.count),
    mounting: resolveMounting(fins?.mounting),
    cant: siValue('fins.cant', fins?.cant),
    outline: resolveOutline(fins?.outline),
    core: {
      material: find('sheet', fins?.core?.material, 'fins.core.material'),
      thickness,
      grain: siValue('fins.core.grain', fins?.core?.grain),
    },
    edges: {
      leading: resolveEdge('leading', fins?.edges?.leading, thickness),
      tip: resolveEdge('tip', fins?.edges?.tip, thickness),
      trailing: resolveEdge('trailing', fins?.edges?.trailing, thickness),
    },
    fillet: {
      radius: siValue('fins.fillet.radius', fins?.fillet?.radius),
      radiusAft: siValue('fins.fillet.radiusAft', fins?.fillet?.radiusAft),
      runOut: {
        forward: siValue('fins.fillet.runOut.forward', fins?.fillet?.runOut?.forward),
        aft: siValue('fins.fillet.runOut.aft', fins?.fillet?.runOut?.aft),
      },
      adhesive: find('adhesive', fins?.fillet?.adhesive, 'fins.fillet.adhesive'),
      waste: siValue('fins.fillet.waste', fins?.fillet?.waste),
    },
    joint: {
      bondLine: siValue('fins.joint.bondLine', fins?.joint?.bondLine),
      knockDown: siValue('fins.joint.knockDown', fins?.joint?.knockDown),
      opening: siValue('fins.joint.opening', fins?.joint?.opening),
    },
  }
}

function resolveMounting(mounting: Loose<CanPlan['fins']>['mounting']): Loose<Fins['mounting']> | undefined {
  if (mounting?.kind !== 'tabbed') return mounting?.kind === 'surface' ? { kind: 'surface' } : undefined
  return {
    kind: 'tabbed',
    depth: siValue('fins.mounting.depth', mounting.depth),
    forward: siValue('fins.mounting.forward', mounting.forward),
    aft: siValue('fins.mounting.aft', mounting.aft),
  }
}

type TypedEdge = NonNullable<NonNullable<Loose<CanPlan['fins']>['edges']>['leading']>

/** A round edge without a width is a full half circle, half the core wide; without a land it runs out to nothing. */
function resolveEdge(
  name: 'leading' | 'tip' | 'trailing',
  edge: TypedEdge | undefined,
  thickness: number | undefined,
): Loose<EdgeShape> | undefined {
  switch (edge?.shape) {
    case 'square':
      return { kind: 'square', width: 0, land: thickness }
    case 'bevel': {
      const width = siValue(`fins.edges.${name}.width`, edge.width)
      return { kind: 'bevel', width, land: siValue(`fins.edges.${name}.land`, edge.land) }
    }
    case 'round': {
      const half = thickness === undefined ? undefined : thickness / 2
      const width = 'width' in edge ? siValue(`fins.edges.${name}.width`, edge.width) : half
      return { kind: 'round', width, land: 'land' in edge ? siValue(`fins.edges.${name}.land`, edge.land) : 0 }
    }
    default:
      return undefined
  }
}
