import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { lengthGained, widthKept } from '../../src/pattern/trellis.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'trellis-shear'
const rad = Math.PI / 180

const rows = [
  { g: 2, length: '1.7', width: '-1.8' },
  { g: 4, length: '3.4', width: '-3.6' },
  { g: 6, length: '5.1', width: '-5.4' },
  { g: 10, length: '8.3', width: '-9.1' },
  { g: 15, length: '12', width: '-14' },
]

describe('a 45° ply pulled off its square', () => {
  test.each(rows)('by $g°', ({ g, length, width }) => {
    const quantity = (what: string) => `${what} of a 45° ply sheared by ${g}°, %`
    const gained = 100 * (lengthGained(45 * rad, g * rad) - 1)
    expectPublished({ source, quantity: quantity('change in length'), printed: length, computed: gained })
    const kept = 100 * (widthKept(45 * rad, g * rad) - 1)
    expectPublished({ source, quantity: quantity('change in width'), printed: width, computed: kept })
  })

  test('has teeth: a degree more is noticed', () => {
    expect(agrees(100 * (widthKept(45 * rad, 5 * rad) - 1), published('-3.6'))).toBe(false)
    expect(agrees(100 * (widthKept(40 * rad, 10 * rad) - 1), published('-9.1'))).toBe(false)
  })
})

/** Width across of a net of rigid yarns after the pull: a vector along Y is a steps of warp and b steps of weft. */
function netWidth(angle: number, shear: number): number {
  const warp = [Math.sin(angle), Math.cos(angle)]
  const weft = [-Math.cos(angle), Math.sin(angle)]
  // Solve a · warp + b · weft = (0, 1), then turn each yarn half the shear towards the X axis and add up again.
  const det = warp[0]! * weft[1]! - weft[0]! * warp[1]!
  const a = (0 * weft[1]! - weft[0]! * 1) / det
  const b = (warp[0]! * 1 - 0 * warp[1]!) / det
  const turned = (yarn: number[], by: number) => [
    yarn[0]! * Math.cos(by) + yarn[1]! * Math.sin(by),
    -yarn[0]! * Math.sin(by) + yarn[1]! * Math.cos(by),
  ]
  return a * turned(warp, shear / 2)[1]! + b * turned(weft, -shear / 2)[1]!
}

test('the width of any off-axis ply is that of a net of rigid yarns', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 89, noNaN: true }),
      fc.double({ min: 0, max: 40, noNaN: true }),
      (angle, shear) => {
        expect(widthKept(angle * rad, shear * rad)).toBeCloseTo(netWidth(angle * rad, shear * rad), 12)
        expect(widthKept(-angle * rad, shear * rad)).toBeCloseTo(widthKept(angle * rad, shear * rad), 12)
      },
    ),
  )
  expect(widthKept(0, 0.2)).toBe(1)
  expect(widthKept(Math.PI / 2, 0.2)).toBe(1)
})
