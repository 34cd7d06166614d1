/**
 * The places on a fin at which its heat is told.
 *
 *   flat          the middles of five strips, 10 % to 90 % of the chord behind the leading edge, turbulent, each for a
 *                 fifth of the area; at 50 % also laminar, as a lower bound that stands for no area
 *   bevel         half-way up the leading edge's bevel, on the local half thickness
 *   leading edge  attachment line of a cylinder; the wall is a cylinder of the same radius, heated all round: no heat
 *                 flows back into the fin, so it is an upper bound, and a close one: so thin an edge follows the air
 *                 within a second or two
 *   fillet        as the flat at 50 % of the chord, on the adhesive's depth below the middle of the fillet, r (√2 − 1)
 *                 for a square corner. The corner's own flow is not in it: vortices round the leading edge's foot can
 *                 double the coefficient near it, the body's thick boundary layer lowers it further aft (common
 *                 practice, no source)
 *
 * Radius of the leading edge: half its finished thickness for a square edge or a land; b² / w for an ellipse of half
 * thickness b and width w, at least half the land, skins added to either.
 */
import type { EdgePlace } from './attachment-line.ts'
import type { ThermalLayer } from './section.ts'
import type { HeatStation } from './station.ts'

export type ThermalMaterial = Pick<ThermalLayer, 'conductivity' | 'density' | 'specificHeat'>

export interface FinWall {
  /** Outer face first. */
  readonly skin: readonly ThermalLayer[]
  /** Whole core, both sides of the middle plane, m. */
  readonly coreThickness: number
}

export interface FinPlaces {
  /** Along the stream, m. */
  readonly chord: number
  /** Of the leading edge, rad. */
  readonly sweep: number
  /** Skin and core at a distance behind the leading edge along the stream, m; 0 is the edge itself. */
  readonly wallAt: (distance: number) => FinWall
  readonly core: ThermalMaterial
  readonly coreThickness: number
  /** `width` square to the edge. */
  readonly leadingEdge: { readonly kind: 'square' | 'bevel' | 'round'; readonly width: number; readonly land: number }
  readonly fillet: { readonly radius: number; readonly adhesive: ThermalMaterial } | null
}

/** Middles of even strips, % of the chord. */
const strips = [10, 30, 50, 70, 90]

export function finStations(fin: FinPlaces): readonly HeatStation[] {
  const { chord } = fin
  const flat = (percent: number, flow: 'turbulent' | 'laminar'): HeatStation => {
    const distance = (percent / 100) * chord
    return {
      name: `${percent} % of the chord${flow === 'laminar' ? ', laminar' : ''}`,
      at: { kind: 'plate', distance, flow },
      share: flow === 'laminar' ? 0 : 1,
      layers: halfWall(fin, distance),
    }
  }
  return [
    ...strips.map((percent) => flat(percent, 'turbulent')),
    flat(50, 'laminar'),
    ...bevelStation(fin),
    edgeStation(fin),
    ...filletStation(fin),
  ]
}

function halfWall({ wallAt, core }: FinPlaces, distance: number): readonly ThermalLayer[] {
  const { skin, coreThickness } = wallAt(distance)
  return [
    ...asSkin(skin),
    ...(coreThickness > 0 ? [{ ...core, thickness: coreThickness / 2, part: 'core' as const }] : []),
  ]
}

const asSkin = (skin: readonly ThermalLayer[]): readonly ThermalLayer[] =>
  skin.map((layer) => ({ ...layer, part: 'skin' as const }))

const total = (layers: readonly ThermalLayer[]): number => layers.reduce((sum, { thickness }) => sum + thickness, 0)

function bevelStation(fin: FinPlaces): readonly HeatStation[] {
  const { kind, width } = fin.leadingEdge
  if (kind === 'square' || !(width > 0)) return []
  const distance = width / 2 / Math.cos(fin.sweep)
  const at = { kind: 'plate', distance, flow: 'turbulent' } as const
  return [{ name: 'the middle of the bevel', at, role: 'bevel', layers: halfWall(fin, distance) }]
}

function edgeStation(fin: FinPlaces): HeatStation {
  const skin = asSkin(fin.wallAt(0).skin)
  const bare = bareRadius(fin)
  const at: EdgePlace = { kind: 'edge', radius: bare + total(skin), sweep: fin.sweep }
  const layers = [...skin, ...(bare > 0 ? [{ ...fin.core, thickness: bare, part: 'core' as const }] : [])]
  return { name: 'the leading edge', at, role: 'edge', layers, shape: 'cylinder' }
}

function bareRadius({ leadingEdge: { kind, width, land }, coreThickness }: FinPlaces): number {
  if (kind === 'square' || !(width > 0)) return coreThickness / 2
  if (kind === 'bevel') return land / 2
  const b = (coreThickness - land) / 2
  return Math.max(land / 2, b ** 2 / width)
}

function filletStation({ fillet, wallAt, chord }: FinPlaces): readonly HeatStation[] {
  if (fillet === null || !(fillet.radius > 0)) return []
  const distance = chord / 2
  const depth = fillet.radius * (Math.SQRT2 - 1)
  const layers = [...asSkin(wallAt(distance).skin), { ...fillet.adhesive, thickness: depth, part: 'core' as const }]
  return [{ name: 'the fillet', at: { kind: 'plate', distance, flow: 'turbulent' }, role: 'fillet', layers }]
}
