import { expect, test } from 'vitest'
import { integrate, stateAt } from '../../src/numeric/integrate.ts'

const decay = (_t: number, y: Float64Array, dydt: Float64Array) => {
  dydt[0] = -y[0]
}
/** y'' = -y */
const oscillator = (_t: number, y: Float64Array, dydt: Float64Array) => {
  dydt[0] = y[1]
  dydt[1] = -y[0]
}

test('an oscillator returns after ten periods', () => {
  const run = integrate({ f: oscillator, t0: 0, t1: 20 * Math.PI, y0: [1, 0], relative: 1e-10, absolute: 1e-12 })
  expect(run.kind).toBe('end')
  const end = run.y[run.y.length - 1]
  expect(Math.abs(end[0] - 1)).toBeLessThan(1e-7)
  expect(Math.abs(end[1])).toBeLessThan(1e-7)
  expect(run.t[run.t.length - 1]).toBe(20 * Math.PI)
})

test('a fixed step converges at order five, the continuous output at order four', () => {
  const errors = (n: number) => {
    const h = 2 / n
    const run = integrate({ f: oscillator, t0: 0, t1: 2, y0: [1, 0], relative: 1, absolute: 1, maximumStep: h })
    const [y, v] = run.y[run.y.length - 1]
    const end = Math.hypot(y - Math.cos(2), v + Math.sin(2))
    let between = 0
    for (const step of run.dense) {
      for (const theta of [0.3, 0.5, 0.7]) {
        const t = step.t + theta * step.h
        between = Math.max(between, Math.abs(stateAt(run, t)[1] + Math.sin(t)))
      }
    }
    return { end, between, steps: run.steps }
  }
  const coarse = errors(10)
  const fine = errors(20)
  expect(fine.steps).toBeLessThan(25)
  expect(Math.log2(coarse.end / fine.end)).toBeGreaterThan(4.7)
  expect(Math.log2(coarse.between / fine.between)).toBeGreaterThan(4)
  expect(Math.log2(coarse.between / fine.between)).toBeLessThan(5.7)
})

test('the error follows the tolerance', () => {
  const error = (relative: number) => {
    const { y } = integrate({ f: decay, t0: 0, t1: 5, y0: [1], relative, absolute: 1e-14 })
    return Math.abs(y[y.length - 1][0] - Math.exp(-5)) / Math.exp(-5)
  }
  expect(error(1e-6)).toBeLessThan(2e-5)
  expect(error(1e-10)).toBeLessThan(2e-9)
  expect(error(1e-10)).toBeLessThan(error(1e-6) / 100)
})

test('an event is found where the height of a thrown ball falls to zero, not at the start', () => {
  const g = 9.80665
  const f = (_t: number, y: Float64Array, dydt: Float64Array) => {
    dydt[0] = y[1]
    dydt[1] = -g
  }
  const run = integrate({ f, t0: 0, t1: 100, y0: [0, 30], events: [(_t, y) => y[0]] })
  expect(run.kind).toBe('event')
  expect(run.event).toBe(0)
  expect(run.t[run.t.length - 1]).toBeCloseTo(60 / g, 10)
  const apogee = integrate({ f, t0: 0, t1: 100, y0: [0, 30], events: [(_t, y) => y[0], (_t, y) => y[1]] })
  expect(apogee.event).toBe(1)
  expect(apogee.y[apogee.y.length - 1][0]).toBeCloseTo(900 / (2 * g), 8)
})

test('a jump in f at a breakpoint costs no accuracy, and costs much without it', () => {
  const f = (t: number, _y: Float64Array, dydt: Float64Array) => {
    dydt[0] = t < 1 ? 5 : t <= 2 ? 100 : -3
  }
  const exact = 5 + 100 - 3
  const run = integrate({ f, t0: 0, t1: 3, y0: [0], breakpoints: [2, 1] })
  expect(run.t).toContain(1)
  expect(run.t).toContain(2)
  expect(Math.abs(run.y[run.y.length - 1][0] - exact)).toBeLessThan(1e-12 * 105)
  expect(run.rejected).toBe(0)
  expect(integrate({ f, t0: 0, t1: 3, y0: [0] }).rejected).toBeGreaterThan(10)
})

test('a solution that grows without bound is reported, not returned', () => {
  const f = (_t: number, y: Float64Array, dydt: Float64Array) => {
    dydt[0] = y[0] ** 2
  }
  const run = integrate({ f, t0: 0, t1: 2, y0: [1] })
  expect(run.kind).toBe('not-converged')
  expect(run.t[run.t.length - 1]).toBeLessThan(1 + 1e-7)
})

test('an empty span returns the start', () => {
  const run = integrate({ f: decay, t0: 1, t1: 1, y0: [2] })
  expect(run.kind).toBe('end')
  expect([...stateAt(run, 1)]).toEqual([2])
})
