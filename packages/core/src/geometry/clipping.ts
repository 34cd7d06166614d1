/** Union, difference and intersection of plane polygons on a grid of 0.1 µm (10 000 steps a millimetre). */
import { Clipper, FillRule, type Path64, type Paths64 } from 'clipper2-ts'
import type { Point } from './point.ts'
import type { Polygon } from './polygon.ts'

const stepsPerMetre = 1e7

export const unionOf = (polygons: readonly Polygon[]): readonly Polygon[] =>
  fromGrid(Clipper.union(toGrid(polygons), FillRule.NonZero))

export const differenceOf = (from: readonly Polygon[], cutters: readonly Polygon[]): readonly Polygon[] =>
  fromGrid(Clipper.difference(toGrid(from), toGrid(cutters), FillRule.NonZero))

export const intersectionOf = (first: readonly Polygon[], second: readonly Polygon[]): readonly Polygon[] =>
  fromGrid(Clipper.intersect(toGrid(first), toGrid(second), FillRule.NonZero))

const toGrid = (polygons: readonly Polygon[]): Paths64 =>
  polygons.map(
    (polygon): Path64 =>
      polygon.map(([x, y]) => ({ x: Math.round(x * stepsPerMetre), y: Math.round(y * stepsPerMetre), z: 0 })),
  )

const fromGrid = (paths: Paths64): readonly Polygon[] =>
  paths.map((path) => path.map(({ x, y }): Point => [x / stepsPerMetre, y / stepsPerMetre]))
