/** A triangle mesh of a plane outline. */
export interface Mesh {
  /** Node coordinates, interleaved x, y; 2 per node. */
  readonly X: Float64Array
  /** Node numbers, 3 per triangle, counter-clockwise. */
  readonly T: Int32Array
  /** Edges of the boundary: nodes a and b, counter-clockwise, and the segment of the outline they lie on. */
  readonly boundary: readonly { readonly a: number; readonly b: number; readonly segment: number }[]
}

export const nodeCount = ({ X }: Mesh): number => X.length / 2
export const triangleCount = ({ T }: Mesh): number => T.length / 3
