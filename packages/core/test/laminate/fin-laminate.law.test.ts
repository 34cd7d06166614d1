import fc from 'fast-check'
import { expect, test } from 'vitest'
import { coupling, NO_COUPLING } from '../../src/laminate/coupling.ts'
import { finLaminate, skin, skinTheta } from '../../src/laminate/fin-laminate.ts'
import { sheetLayer } from '../../src/laminate/layer.ts'
import { curedPly } from '../../src/laminate/ply.ts'
import { cloths, resinSystems, sheets } from '../../src/material/catalogue.ts'

const rad = (deg: number) => (deg * Math.PI) / 180
const own = (value: number) => ({ value, source: 'stated for the test', confidence: 'plan' as const })

const plyOf = (warpShare = 0.5) =>
  curedPly({
    cloth: { ...cloths['glass-plain-200'], warpShare: own(warpShare) },
    resin: resinSystems['epoxy-slow'],
    resinPerCloth: 1,
    voidFraction: 0.02,
  })
const plies = (degrees: readonly number[], warpShare = 0.5) =>
  degrees.map((deg, i) => ({ id: `P${i + 1}`, ply: plyOf(warpShare), angle: rad(deg) }))
const core = sheetLayer(sheets.g10, { theta: 0, t: 3.2e-3, name: 'core' })

/** Both faces carry the schedule; with `alternate` the bay of the next face is mirrored. */
const fin = (schedule: ReturnType<typeof plies>, alternate = false) =>
  finLaminate({
    core,
    previousFace: skin('previous', schedule),
    nextFace: skin('next', schedule, { mirrored: alternate }),
  })

test('the warp of a ply at angle a points at +a from +y towards +x on the previous face, at -a on the next', () => {
  const direction = (theta: number) => [Math.cos(theta), Math.sin(theta)]
  const a = rad(30)
  const onPrevious = direction(skinTheta('previous', a))
  const onNext = direction(skinTheta('next', a))
  expect(onPrevious[0]).toBeCloseTo(Math.sin(a), 12)
  expect(onPrevious[1]).toBeCloseTo(Math.cos(a), 12)
  expect(onNext[0]).toBeCloseTo(-Math.sin(a), 12)
  expect(onNext[1]).toBeCloseTo(Math.cos(a), 12)
})

test('balanced cloth at 0, 45 and 90 does not couple in any way', () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom(0, 45, 90, -45), { minLength: 1, maxLength: 7 }), (degrees) => {
      const { bendStretch, bendTwist, stretchShear } = coupling(fin(plies(degrees)))
      expect(bendStretch).toBeLessThan(NO_COUPLING)
      expect(bendTwist).toBeLessThan(NO_COUPLING)
      expect(stretchShear).toBeLessThan(NO_COUPLING)
    }),
  )
})

test('any other angle couples bending and stretching through B16 and B26, and neither bends nor stretches askew', () => {
  fc.assert(
    fc.property(fc.constantFrom(10, 20, 30, 60, 75), (deg) => {
      const laminate = fin(plies([0, deg, 0]))
      const { A, B } = laminate
      const { bendStretch, bendTwist, stretchShear } = coupling(laminate)
      expect(bendStretch).toBeGreaterThan(1e-3)
      expect(bendTwist).toBeLessThan(NO_COUPLING)
      expect(stretchShear).toBeLessThan(NO_COUPLING)
      const scale = A[0] * laminate.h
      for (const i of [0, 1, 4, 8]) expect(Math.abs(B[i])).toBeLessThan(NO_COUPLING * scale)
      for (const i of [2, 5]) expect(Math.abs(B[i])).toBeGreaterThan(1e-6 * scale)
    }),
  )
})

test('unbalanced cloth couples even at 45, and not at 0 or 90', () => {
  expect(coupling(fin(plies([0, 45, 0], 0.55))).bendStretch).toBeGreaterThan(1e-3)
  expect(coupling(fin(plies([0, 90, 0], 0.55))).bendStretch).toBeLessThan(NO_COUPLING)
})

test('mirrored alternate bays: no stretching, but each fin twists as it bends, its neighbours the other way', () => {
  const schedule = plies([0, 30, 0])
  const laminate = fin(schedule, true)
  const { bendStretch, bendTwist } = coupling(laminate)
  expect(bendStretch).toBeLessThan(NO_COUPLING)
  expect(bendTwist).toBeGreaterThan(1e-3)
  // The next fin has its mirrored bay on the other face.
  const neighbour = finLaminate({
    core,
    previousFace: skin('previous', schedule, { mirrored: true }),
    nextFace: skin('next', schedule),
  })
  expect(neighbour.D[2]).toBeCloseTo(-laminate.D[2], 9)
  expect(neighbour.D[0]).toBeCloseTo(laminate.D[0], 9)
})

test('has teeth: both faces at the same theta would hide the coupling', () => {
  const schedule = plies([0, 30, 0])
  const wrong = finLaminate({ core, previousFace: skin('previous', schedule), nextFace: skin('previous', schedule) })
  expect(coupling(wrong).bendStretch).toBeLessThan(NO_COUPLING)
  expect(coupling(fin(schedule)).bendStretch).toBeGreaterThan(1e-3)
})

test('the reference plane is the core mid-plane, whatever the skins', () => {
  const thin = skin('previous', plies([0]))
  const thick = skin('next', plies([0, 45, 0]))
  const laminate = finLaminate({ core, previousFace: thin, nextFace: thick })
  const t = plyOf().t
  expect(laminate.reference).toBeCloseTo(3 * t + 1.6e-3, 12)
  expect(laminate.h).toBeCloseTo(4 * t + 3.2e-3, 12)
  expect(laminate.layers.map(({ name }) => name)).toEqual([
    'P3 next face',
    'P2 next face',
    'P1 next face',
    'core',
    'P1 previous face',
  ])
  expect(laminate.inertia.m1).toBeLessThan(0)
})

test('mass is that of core, cloth and resin', () => {
  const { inertia } = fin(plies([0, 45, 0, 45, 0]))
  expect(inertia.m0).toBeCloseTo(3.2e-3 * 1820 + 10 * 0.4, 9)
  // One homogeneous plate: ρ h³ / 12.
  const bare = finLaminate({ core, previousFace: [], nextFace: [] })
  expect(bare.inertia.m2).toBeCloseTo((1820 * 3.2e-3 ** 3) / 12, 15)
})

test('where the core has run out the skins lie on each other', () => {
  const schedule = plies([0, 45])
  const laminate = finLaminate({
    core: null,
    previousFace: skin('previous', schedule),
    nextFace: skin('next', schedule),
  })
  expect(laminate.h).toBeCloseTo(4 * plyOf().t, 12)
  expect(laminate.reference).toBeCloseTo(laminate.h / 2, 12)
})

// About 0.2 ms on a busy core; the limit only catches a change of order.
test('a laminate costs about a tenth of a millisecond', () => {
  const schedule = plies([0, 45, 0, 45, 0])
  for (let i = 0; i < 200; i++) fin(schedule)
  const start = performance.now()
  const count = 300
  for (let i = 0; i < count; i++) fin(schedule)
  expect((performance.now() - start) / count).toBeLessThan(2)
})
