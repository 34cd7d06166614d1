/** ASTM D3171 Test Method II relations: fibre fraction, density, cured ply thickness and resin demand. */
import { expect, test } from 'vitest'
import { curedPly } from '../../src/laminate/ply.ts'
import { cloths, resinSystems } from '../../src/material/catalogue.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const own = (value: number) => ({ value, source: 'stated for the check', confidence: 'plan' as const })
const resin = { ...resinSystems['epoxy-slow'], density: own(1150) }
const glass = cloths['glass-plain-200']

/** A ply of `faw` kg/m² cloth at fibre mass fraction Wf. */
const ply = (faw: number, Wf: number) =>
  curedPly({
    cloth: { ...glass, arealMass: own(faw), fibre: { ...glass.fibre, density: own(2580) } },
    resin,
    resinPerCloth: (1 - Wf) / Wf,
    voidFraction: 0,
  })

const areal = [0.107, 0.203, 0.3, 0.327] as const
const table = [
  {
    Wf: 0.45,
    Vf: '0.267',
    density: '1.532',
    t: ['0.155', '0.294', '0.435', '0.474'],
    resin: ['131', '248', '367', '400'],
  },
  {
    Wf: 0.5,
    Vf: '0.308',
    density: '1.591',
    t: ['0.135', '0.255', '0.377', '0.411'],
    resin: ['107', '203', '300', '327'],
  },
  {
    Wf: 0.6,
    Vf: '0.401',
    density: '1.723',
    t: ['0.104', '0.196', '0.290', '0.316'],
    resin: ['71', '135', '200', '218'],
  },
  {
    Wf: 0.7,
    Vf: '0.510',
    density: '1.879',
    t: ['0.081', '0.154', '0.228', '0.249'],
    resin: ['46', '87', '129', '140'],
  },
] as const

const source = 'astm-d3171'
test.each(table)('at $Wf fibre by mass', ({ Wf, Vf, density, t, resin: demand }) => {
  for (const [i, faw] of areal.entries()) {
    const cured = ply(faw, Wf)
    const of = `, ${Wf} fibre by mass`
    const name = `${Math.round(faw * 1000)} g/m²${of}`
    expectPublished({ source, quantity: `thickness of ${name}, mm`, printed: t[i], computed: cured.t * 1e3 })
    expectPublished({
      source,
      quantity: `resin in ${name}, g/m²`,
      printed: demand[i],
      computed: (cured.arealMass - faw) * 1e3,
    })
    if (i > 0) continue
    expectPublished({ source, quantity: `Vf${of}`, printed: Vf, computed: cured.fibreVolumeFraction })
    expectPublished({ source, quantity: `density${of}, g/cm³`, printed: density, computed: cured.density / 1e3 })
  }
})

test('has teeth: two per cent of the mass moved from resin to fibre is noticed everywhere', () => {
  for (const { Wf, Vf, density, t, resin: demand } of table)
    for (const [i, faw] of areal.entries()) {
      const cured = ply(faw, Wf + 0.02)
      expect(agrees(cured.t * 1e3, published(t[i]))).toBe(false)
      expect(agrees((cured.arealMass - faw) * 1e3, published(demand[i]))).toBe(false)
      expect(agrees(cured.fibreVolumeFraction, published(Vf))).toBe(false)
      expect(agrees(cured.density / 1e3, published(density))).toBe(false)
    }
})
