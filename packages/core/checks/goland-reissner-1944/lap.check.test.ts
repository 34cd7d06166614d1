/** Goland and Reissner's single lap: moment factor, shear and peel. N/mm, mm, MPa. */
import { expect, test } from 'vitest'
import { golandReissner } from '../../src/bond/joint/lap.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

interface Lap {
  readonly name: string
  readonly P: number
  readonly E: number
  readonly t: number
  readonly nu: number
  readonly ta: number
  readonly L: number
  readonly printed: readonly string[]
}

const laps: readonly Lap[] = [
  {
    ...{ name: '1.6 mm sheet', P: 100, E: 70000, t: 1.6, nu: 0.33, ta: 0.2, L: 12.5 },
    printed: ['0.72496', '26.544', '2.640', '35.143', '4.6782', '0.13835'],
  },
  {
    ...{ name: 'twice the load', P: 200, E: 70000, t: 1.6, nu: 0.33, ta: 0.2, L: 12.5 },
    printed: ['0.65218', '50.538', '6.018', '65.206', '4.6782', '0.17602'],
  },
  {
    ...{ name: 'twice the overlap', P: 100, E: 70000, t: 1.6, nu: 0.33, ta: 0.2, L: 25 },
    printed: ['0.57295', '22.583', '1.298', '27.775', '9.3563', '0.21869'],
  },
  {
    ...{ name: 'soft sheet', P: 100, E: 20000, t: 3.2, nu: 0.15, ta: 0.5, L: 12.5 },
    printed: ['0.79136', '23.432', '2.923', '32.348', '3.0258', '0.10462'],
  },
]

const quantities = ['k', 'τ end, MPa', 'τ middle, MPa', 'σ end, MPa', 'λ', 'k′'] as const

function computed({ P, E, t, nu, ta, L }: Lap, Ea = 3000, Ga = 1100): readonly number[] {
  const { k, kPrime, lambda, shear, peel } = golandReissner({ P, L, E, nu, t, Ea, Ga, ta })
  return [k, shear(L / 2), shear(0), peel(L / 2), lambda, kPrime]
}

test.each(laps)('$name', (lap) => {
  computed(lap).forEach((value, n) => {
    const quantity = `${quantities[n]}, ${lap.name}`
    expectPublished({ source: 'goland-reissner-1944', quantity, printed: lap.printed[n], computed: value })
  })
})
test.each(laps)('has teeth: one per cent on the adhesive shows in stresses and λ of $name', (lap) => {
  const noticed = computed(lap, 3030, 1111).flatMap((value, n) =>
    agrees(value, published(lap.printed[n])) ? [] : [quantities[n]],
  )
  expect(noticed).toEqual(['τ end, MPa', 'τ middle, MPa', 'σ end, MPa', 'λ'])
})
