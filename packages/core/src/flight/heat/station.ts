/**
 * A place on the fin at which its heat is told, and what is told there: plain data.
 */
import type { EdgePlace } from './attachment-line.ts'
import type { Peak } from './exposure.ts'
import type { PlatePlace } from './flat-plate.ts'
import type { InnerEnd, ThermalLayer } from './section.ts'

export type StationRole = 'flat' | 'bevel' | 'edge' | 'fillet'

export interface HeatStation {
  readonly name: string
  readonly at: PlatePlace | EdgePlace
  /** Default `edge` on an edge and `flat` elsewhere; what the fin does as a plate is judged by its flat. */
  readonly role?: StationRole
  /** Weight in the mean over the flat (`laminate-temperature.ts`), e.g. the share of the area it stands for; default 1. */
  readonly share?: number
  /** Outer face first; default those of the whole input. */
  readonly layers?: readonly ThermalLayer[]
  /** Default slab; a cylinder is heated all round, its layers end on its axis. */
  readonly shape?: 'slab' | 'cylinder'
  /** Default adiabatic: the layers end on the fin's middle plane. Heated: they run through to the other face. */
  readonly inner?: InnerEnd
  /** Multiplies the heat transfer coefficient, to carry its uncertainty; default 1. */
  readonly coefficientFactor?: number
}

export interface GlassTransition {
  /** E.g. `as cured at room temperature`. */
  readonly name: string
  /** K */
  readonly temperature: number
}

/** The depths at which temperatures are told; without a core the interface is the middle. */
export const depthNames = ['surface', 'skinMiddle', 'interface', 'middle'] as const
export type DepthName = (typeof depthNames)[number]

/** Columns over the history's times; K, W/(m² K). */
export interface StationHeat extends Readonly<Record<DepthName, readonly number[]>> {
  readonly name: string
  readonly at: PlatePlace | EdgePlace
  readonly role: StationRole
  readonly share: number
  readonly recovery: readonly number[]
  readonly coefficient: readonly number[]
  /** Mean over the skin. */
  readonly skinMean: readonly number[]
  /** Null without a core. */
  readonly coreMean: readonly number[] | null
  readonly peak: Readonly<Record<DepthName | 'recovery', Peak>>
  /** One a glass transition, in the order given. */
  readonly against: readonly GlassExposure[]
  /** Largest of the flight: coefficient times thickness over conductivity, of the outer skin and from face to middle. */
  readonly biot: { readonly skin: number; readonly half: number }
  /** J/m² of outer face: taken up through it, and held at the end more than at the start. */
  readonly energy: { readonly absorbed: number; readonly stored: number }
  readonly numerics: {
    readonly nodes: number
    readonly steps: number
    /** Most in a step, and the largest relative change left, of the surface temperature. */
    readonly iterations: number
    readonly residual: number
  }
}

export interface GlassExposure extends GlassTransition {
  readonly secondsAbove: Readonly<Record<DepthName, number>>
  /** Over the history's times: mean of `resinModulusFactor` over the skin, as bending feels it. */
  readonly resinFactor: readonly number[]
}
