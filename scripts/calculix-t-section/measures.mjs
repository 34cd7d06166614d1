/** The measures of the root joint, from the solver's stresses: mm, MPa, N/mm and N·mm/mm. Both sides of the fin are in the mesh. */
import { cutTractions, resultant } from './read.mjs'

/** The side that V > 0 and M > 0 open. */
const opening = 1

/** @returns a function of the load: every measure under V N/mm and M N·mm/mm. */
export function measuresOf(mesh, { R, h, r, skin, bond }, [shearStress, momentStress], window) {
  const { middle, rows, xc, phi } = mesh
  const inBlock =
    (block, test = () => true) =>
    (e) =>
      e.block === block && (e.side === opening || block === 'bond') && test(e)
  const lines = {
    finFace: [inBlock('fillet'), inBlock('core'), (x) => -x[0]],
    body: [inBlock('fillet'), inBlock('wall'), (x) => Math.atan2(x[1], x[0])],
    throat: [inBlock('fillet', (e) => e.i < middle), inBlock('fillet', (e) => e.i >= middle), (x) => x[1]],
    skin: [inBlock('fillet'), inBlock('skinArc'), (x) => Math.atan2(xc - x[0], h + r - x[1])],
    insideSkin: [
      inBlock('skinArc', (e) => e.j < rows.skinArc / 2),
      inBlock('skinArc', (e) => e.j >= rows.skinArc / 2),
      (x) => Math.atan2(xc - x[0], h + r - x[1]),
    ],
    bond: [inBlock('bond', (e) => e.j >= rows.bond / 2), inBlock('bond', (e) => e.j < rows.bond / 2), (x) => x[1]],
    skinCut: [
      inBlock('skinArc', (e) => e.i < middle),
      inBlock('skinArc', (e) => e.i >= middle),
      (x) => -Math.hypot(x[0] - xc, x[1] - h - r),
    ],
  }
  const unit = (stress) =>
    Object.fromEntries(
      Object.entries(lines).map(([name, [first, second, order]]) => {
        const cut = cutTractions(mesh, stress, first, second)
        return [name, cut.sort((a, b) => order(a.x) - order(b.x))]
      }),
    )
  const [shear, moment] = [unit(shearStress), unit(momentStress)]
  return ({ V, M }) => {
    const sum = Object.fromEntries(
      Object.keys(lines).map((name) => [
        name,
        shear[name].map((at, k) => ({
          ...at,
          traction: at.traction.map((value, c) => V * value + M * moment[name][k].traction[c]),
        })),
      ]),
    )
    const t = 2 * h
    const inBond = resultant(sum.bond, [R + bond / 2, 0])
    const psi = phi / 2
    const at = r - skin / 2
    const inSkin = resultant(sum.skinCut, [xc - at * Math.sin(psi), h + r - at * Math.cos(psi)])
    const root = (name) => resultant(sum[name], [R, 0])
    return {
      bondShear: inBond.q / t,
      bondPeel: (6 * inBond.moment) / t ** 2,
      fillet: Math.max(...['finFace', 'body', 'throat'].map((name) => worst(sum[name], window, principal))),
      skinPeel: worst(sum.skin, window, principal),
      skinOpening: Math.max(...['skin', 'insideSkin'].map((name) => worst(sum[name], window, Math.abs))),
      shear: { bond: root('bond').q, fillet: root('throat').q, skin: root('skinCut').q },
      moment: { bond: root('bond').moment, fillet: root('throat').moment, skin: root('skinCut').moment },
      skinForce: -inSkin.p * Math.cos(psi) + inSkin.q * Math.sin(psi),
      skinMoment: inSkin.moment,
    }
  }
}

const principal = (sigma, tau) => Math.abs(sigma) / 2 + Math.hypot(sigma / 2, tau)

/** The greatest measure of mean tractions over any stretch of the given length. */
function worst(line, window, measure) {
  const parts = line.map(({ traction: [p, q], normal: [n, m], length }) => ({
    length,
    normal: p * n + q * m,
    along: q * n - p * m,
  }))
  const ends = [0]
  const sums = { normal: [0], along: [0] }
  parts.forEach((part, k) => {
    ends.push(ends[k] + part.length)
    for (const name of ['normal', 'along']) sums[name].push(sums[name][k] + part[name] * part.length)
  })
  const total = ends[ends.length - 1]
  const integral = (name, s) => {
    let k = ends.findIndex((end) => end >= s - 1e-12)
    if (k < 1) k = 1
    const f = (s - ends[k - 1]) / (ends[k] - ends[k - 1])
    return sums[name][k - 1] + f * (sums[name][k] - sums[name][k - 1])
  }
  const length = Math.min(window, total)
  const starts = [...ends.filter((s) => s + length < total), total - length]
  const mean = (name, s) => (integral(name, s + length) - integral(name, s)) / length
  return Math.max(...starts.map((s) => measure(mean('normal', s), mean('along', s))))
}
