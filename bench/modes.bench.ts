/**
 * The first four modes of the demo fin: how long, and how far from converged, at the recommended mesh.
 *
 *   cold          everything in a fresh process: mesh, numbering, assembly, factors, modes
 *   from scratch  the same, warm
 *   new laminate  the same mesh and supports with other sections, as when a ply is changed: warm
 *
 * Fails when a warm run takes more than 100 ms of processor time (wall-clock time is shown beside it) or a frequency is further than 1 % from that of a mesh four times as fine.
 */
import { triangleCount } from '@finwright/core/geometry/mesh.ts'
import { meshOutline } from '@finwright/core/geometry/outline-mesh.ts'
import { assemblePlate } from '@finwright/core/plate/assemble.ts'
import { recommendedMeshSize } from '@finwright/core/plate/mesh-size.ts'
import { modeNamer } from '@finwright/core/plate/mode-kind.ts'
import { plateModes } from '@finwright/core/plate/modes.ts'
import { finSection, outline, supports } from './demo-fin.ts'

const allowedTime = 100 // ms
const allowedError = 0.01
const repeats = 31

const timed = <T>(work: () => T): { result: T; time: number } => {
  const start = performance.now()
  const result = work()
  return { result, time: performance.now() - start }
}

/** Wall-clock median, and processor time a run: on a busy machine the first is larger than what the work took. */
const median = (work: () => unknown): { wall: number; processor: number } => {
  const before = process.cpuUsage()
  const times = Array.from({ length: repeats }, () => timed(work).time).sort((p, q) => p - q)
  const { user, system } = process.cpuUsage(before)
  return { wall: times[repeats >> 1], processor: (user + system) / 1000 / repeats }
}

const words = ({ wall, processor }: { wall: number; processor: number }): string =>
  `${wall.toFixed(1)} ms (processor ${processor.toFixed(1)} ms)`

const size = recommendedMeshSize(outline)
let failed = false
for (const skew of [false, true]) {
  const sectionAt = finSection(skew)
  const fresh = (meshSize: number) => {
    const mesh = meshOutline({ outline, size: meshSize })
    const model = assemblePlate({ mesh, supports, sectionAt })
    return { mesh, model, modes: plateModes(model, 4) }
  }
  const cold = timed(() => fresh(size))
  const { mesh, model, modes } = cold.result
  const fine = fresh(size / 4)
  const errors = modes.omega.map((omega, i) => omega / fine.modes.omega[i] - 1)
  const again = () => plateModes(assemblePlate({ mesh, supports, sectionAt, like: model }), 4)
  for (let i = 0; i < 10; i++) again() // warm
  const scratch = median(() => fresh(size))
  const laminate = median(again)
  const name = modeNamer(model)
  console.log(
    `${skew ? 'bending and stretching coupled' : 'symmetric laminate'}: ${triangleCount(mesh)} triangles, ` +
      `${model.layout.n} unknowns`,
  )
  modes.omega.forEach((omega, i) => {
    const [f, exact] = [omega, fine.modes.omega[i]].map((value) => (value / (2 * Math.PI)).toFixed(1))
    const difference = `${(100 * errors[i]).toFixed(2)} %`
    console.log(`  ${f.padStart(7)} Hz  ${name(modes.shapes[i]).name.padEnd(26)} fine ${exact} Hz, ${difference}`)
  })
  const coldLabel = skew ? 'first run (process warm from the case above)' : 'cold'
  console.log(`  ${coldLabel} ${cold.time.toFixed(0)} ms`)
  console.log(`  warm median of ${repeats}: from scratch ${words(scratch)}, new laminate ${words(laminate)}`)
  const slow = Math.max(scratch.processor, laminate.processor) > allowedTime
  const wrong = errors.some((error) => !(Math.abs(error) <= allowedError))
  if (slow) console.log(`  TOO SLOW: more than ${allowedTime} ms`)
  if (wrong) console.log('  NOT CONVERGED: more than 1 % from the fine mesh')
  failed ||= slow || wrong
}
process.exitCode = failed ? 1 : 0
