/** A shape as the command that writes it, in the builder's units, to a hundredth of a millimetre or a thousandth of an inch. */
import type { Intent } from '@finwright/plan/protocol/commands.ts'
import { numberIn, type UnitSystem } from '@finwright/plan/quantity/format.ts'
import type { Shape } from './shape.ts'

export function outlineIntent(shape: Shape, units: UnitSystem): Intent {
  const w = (value: number): string => lengthText(value, units)
  if (shape.kind === 'trapezoid') {
    const { root, tip, span, tipOffset } = shape
    const payload = { root: w(root), tip: w(tip), span: w(span), tipOffset: w(tipOffset) }
    return { name: 'outline.setTrapezoid', payload }
  }
  const points = shape.points.map(([x, y]): [string, string] => [w(x), w(y)])
  const edges = shape.edges === null ? {} : { edges: [...shape.edges] }
  return { name: 'outline.setPoints', payload: { points, ...edges } }
}

export function lengthText(value: number, units: UnitSystem): string {
  const unit = units === 'us' ? 'in' : 'mm'
  const number = Number(numberIn(value, 'length', unit).toFixed(units === 'us' ? 3 : 2))
  return `${Object.is(number, -0) ? 0 : number} ${unit}`
}

export interface Grid {
  readonly value: string
  readonly label: string
  /** m. */
  readonly step: number
}

/** A 64th of an inch to a quarter, half a millimetre to ten. An inch is 25.4 mm by definition. */
export const grids: { readonly [units in UnitSystem]: readonly Grid[] } = {
  metric: [
    { value: '0', label: 'off', step: 0 },
    { value: '1', label: '1 mm', step: 1e-3 },
    { value: '5', label: '5 mm', step: 5e-3 },
    { value: '10', label: '10 mm', step: 10e-3 },
  ],
  us: [
    { value: '0', label: 'off', step: 0 },
    { value: '1', label: '1/16 in', step: 0.0254 / 16 },
    { value: '5', label: '1/8 in', step: 0.0254 / 8 },
    { value: '10', label: '1/4 in', step: 0.0254 / 4 },
  ],
}
