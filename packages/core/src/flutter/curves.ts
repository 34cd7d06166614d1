/**
 * Damping and frequency of every root against speed, each root in the place of the mode it comes from, and what a root consists of.
 *
 *   frequency  Im s / 2π        damping  2 Re s / |s|, the structure's own included; a root decays below zero and grows above
 *
 * The share of a mode in a root is its part of the motion's kinetic energy, |ξᵢ|² for a shape of unit length on modes of unit modal mass.
 */
import { type Branch, branchFrom, step } from './branch.ts'
import { firstSpeed } from './limits.ts'
import type { FlutterResult } from './pk.ts'
import { rootKernel } from './root-kernel.ts'
import { type Aeroelastic, vacuumRoot } from './roots.ts'
import { sweptAt } from './sweeping.ts'

export interface RootCurve {
  /** Place of the mode it comes from, from 0. */
  readonly mode: number
  /** Hz, and 2 Re s / |s|, one a speed; null where the root does not oscillate (any more) or could not be followed. */
  readonly frequency: readonly (number | null)[]
  readonly damping: readonly (number | null)[]
}

export interface RootCurves {
  readonly speeds: readonly number[]
  readonly roots: readonly RootCurve[]
}

/** Speeds of a curve. */
const speedsOnCurve = 50
/** First speed as a share of the last. */
const slowest = 0.02

/** Even speeds up to the one given. */
export const curveSpeeds = (fastest: number, count = speedsOnCurve): number[] =>
  Array.from({ length: count }, (_, i) => fastest * (slowest + ((1 - slowest) * i) / (count - 1)))

/** `speeds` rise from above zero. */
export function rootCurves(system: Aeroelastic, speeds: readonly number[]): RootCurves {
  const roots = system.forces.quasiSteady ? sweptCurves(system, speeds) : branchCurves(system, speeds)
  return { speeds, roots }
}

type Root = { readonly re: number; readonly im: number }

const curveOf = (mode: number, roots: readonly (Root | null)[]): RootCurve => ({
  mode,
  frequency: roots.map((root) => (root === null ? null : root.im / (2 * Math.PI))),
  damping: roots.map((root) => (root === null ? null : (2 * root.re) / Math.hypot(root.re, root.im))),
})

function sweptCurves(system: Aeroelastic, speeds: readonly number[]): RootCurve[] {
  const points = sweptAt(system, speeds, Math.min(firstSpeed(system), speeds[0]))
  return Array.from({ length: system.forces.n }, (_, mode) =>
    curveOf(
      mode,
      points.map(({ roots }) => roots[mode]),
    ),
  )
}

/** Steps of a curve are so many times closer than those of the search for flutter: it is drawn, and names the modes. */
const curveCloseness = 4

function branchCurves(system: Aeroelastic, speeds: readonly number[]): RootCurve[] {
  const kernel = rootKernel(system)
  const first = Math.min(firstSpeed(system), speeds[0])
  return Array.from({ length: kernel.n }, (_, mode) => {
    const branch = branchFrom(kernel, vacuumRoot(system, mode), mode, first)
    const roots = speeds.map((speed) => {
      if (branch === null) return null
      while (branch.end === 'open' && lastSpeed(branch) < speed) step(kernel, branch, speed, curveCloseness)
      return lastSpeed(branch) === speed ? branch.nodes[branch.nodes.length - 1] : null
    })
    return curveOf(mode, roots)
  })
}

const lastSpeed = ({ nodes }: Branch): number => nodes[nodes.length - 1].V

export interface ModeShare {
  /** From 0. */
  readonly mode: number
  /** Of the kinetic energy; the shares of all modes add up to 1. */
  readonly share: number
  /** Lead over the mode of the largest share, rad. */
  readonly phase: number
}

/** Modes in the root that flutters, the largest share first. */
export function modeShares({ shape }: Pick<Extract<FlutterResult, { kind: 'flutter' }>, 'shape'>): ModeShare[] {
  const energy = Array.from(shape.re, (re, i) => re * re + shape.im[i] ** 2)
  const total = energy.reduce((sum, e) => sum + e, 0)
  const order = energy.map((_, mode) => mode).sort((a, b) => energy[b] - energy[a])
  const turn = (mode: number): number => Math.atan2(shape.im[mode], shape.re[mode])
  return order.map((mode) => ({ mode, share: energy[mode] / total, phase: wrapped(turn(mode) - turn(order[0])) }))
}

const wrapped = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI))
