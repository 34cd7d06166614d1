/** Volkersen's single lap: shear at the ends and the middle of the overlap. N/mm, mm, MPa. */
import { expect, test } from 'vitest'
import { volkersenShear } from '../../src/bond/joint/lap.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

interface Lap {
  readonly name: string
  readonly adherends: readonly [readonly [number, number], readonly [number, number]]
  readonly printed: readonly [lambda: string, start: string, middle: string, end: string]
}

const laps: readonly Lap[] = [
  {
    name: 'like adherends',
    adherends: [
      [70000, 1.6],
      [70000, 1.6],
    ],
    printed: ['0.313392', '16.3057', '4.5099', '16.3057'],
  },
  {
    name: 'second twice as thick',
    adherends: [
      [70000, 1.6],
      [70000, 3.2],
    ],
    printed: ['0.271405', '18.7437', '5.1497', '10.2854'],
  },
  {
    name: 'soft, first twice as thick',
    adherends: [
      [20000, 3.2],
      [20000, 1.6],
    ],
    printed: ['0.507752', '17.0438', '2.1291', '33.9097'],
  },
]

const quantities = ['λ, 1/mm', 'τ(−L/2), MPa', 'τ(0), MPa', 'τ(L/2), MPa'] as const

function computed({ adherends: [[E1, t1], [E2, t2]] }: Lap, ta = 0.2): readonly number[] {
  const L = 12.5
  const { lambda, at } = volkersenShear({ P: 100, L, G: 1100, ta, Et: [E1 * t1, E2 * t2] })
  return [lambda, at(-L / 2), at(0), at(L / 2)]
}

test.each(laps)('$name', (lap) => {
  computed(lap).forEach((value, k) => {
    const quantity = `${quantities[k]}, ${lap.name}`
    expectPublished({ source: 'volkersen-1938', quantity, printed: lap.printed[k], computed: value })
  })
})
test.each(laps)('has teeth: one per cent on the bond line shows in $name', (lap) => {
  const noticed = computed(lap, 0.202).filter((value, k) => !agrees(value, published(lap.printed[k])))
  expect(noticed).toHaveLength(4)
})
