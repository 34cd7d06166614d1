/** Fin normal force of Barrowman (1967) and closed forms of supersonic linear theory; see source.md. */
import { expect, test } from 'vitest'
import { finForm } from '../../src/air/fin-form.ts'
import { bodyUpwash, finNormalForce, subsonicSlope } from '../../src/air/fin-load.ts'
import { deltaSlope, ellipticE, machParameter, rectangularSlope } from '../../src/air/supersonic-slope.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'barrowman-1967'
const fin = { root: 0.3, tip: 0.15, span: 0.15, tipOffset: 0.15, r: 0.05, N: 4 }

const formOf = ({ root, tip, span, tipOffset, r }: typeof fin) =>
  finForm(
    [
      [0, 0],
      [tipOffset, span],
      [tipOffset + tip, span],
      [root, 0],
    ],
    r,
  )
const onBodyArea = (f: typeof fin): number => (subsonicSlope(formOf(f), 0) * formOf(f).area) / (Math.PI * f.r ** 2)

test('the worked example', () => {
  const form = formOf(fin)
  const one = onBodyArea(fin)
  const set = (fin.N / 2) * one * bodyUpwash(form)
  expectPublished({ source, quantity: 'C_Nα of one fin on π r², M = 0', printed: '8.010', computed: one })
  expectPublished({ source, quantity: 'C_Nα of four fins with body, M = 0', printed: '20.025', computed: set })
  expectPublished({ source, quantity: 'aspect ratio', printed: '1.3333', computed: form.aspectRatio })
  expectPublished({ source, quantity: 'spanwise centre, m', printed: '0.0667', computed: form.centroidSpan })
})

test('equals the closed form for Mach 0', () => {
  const { root, tip, span, tipOffset, r, N } = fin
  const midChord = Math.hypot(span, tipOffset + tip / 2 - root / 2)
  const closed =
    ((1 + r / (span + r)) * 4 * N * (span / (2 * r)) ** 2) / (1 + Math.sqrt(1 + ((2 * midChord) / (root + tip)) ** 2))
  const form = formOf(fin)
  const set = (N / 2) * ((finNormalForce(form, 0).slope * form.area) / (Math.PI * r ** 2))
  expect(set / closed).toBeCloseTo(1, 12)
})

test('has teeth: one per cent on the span is noticed', () => {
  expect(agrees(onBodyArea({ ...fin, span: 1.01 * fin.span }), published('8.010'))).toBe(false)
})

const rectangular = [
  [1.5, '2.778'],
  [1.96, '2.021'],
  [2.5, '1.555'],
  [3, '1.289'],
] as const

test.each(rectangular)('rectangular wing of aspect ratio 2 at Mach %d', (mach, printed) => {
  const computed = rectangularSlope(mach, 2)
  expectPublished({ source, quantity: `rectangular wing A = 2, Mach ${mach}, C_Lα`, printed, computed })
  expect(agrees(rectangularSlope(mach, 2.05), published(printed))).toBe(false)
})

test('delta wing with subsonic leading edges', () => {
  const mach = 2
  const halfAngle = Math.atan(0.5 / machParameter(mach))
  const computed = machParameter(mach) * deltaSlope(mach, halfAngle)
  expectPublished({ source, quantity: 'delta wing m = 0.5, β C_Lα', printed: '2.594', computed })
  expectPublished({ source, quantity: 'E(√0.75)', printed: '1.2111', computed: ellipticE(Math.sqrt(0.75)) })
  expect(agrees(machParameter(mach) * deltaSlope(mach, 1.01 * halfAngle), published('2.594'))).toBe(false)
})
