/** The schedule: what each ply may be, in which order, and how far it may be stated. */
import type { PlyRole } from '@finwright/core/assess/design.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import type { Checking } from './can.ts'

export function checkPlies(checking: Checking): void {
  checkEachPly(checking)
  checkOrder(checking)
  checkStructural(checking)
  checkMirror(checking)
}

function checkEachPly({ design, plan, report, typed }: Checking): void {
  design.plies?.forEach((ply, i) => {
    if (ply === undefined) return
    const path = `plies[${i}]`
    const place = typed('plies', i)
    if (ply.role === 'structural' && typeof place === 'object' && place !== null && !Object.hasOwn(place, 'angle')) {
      report({
        code: 'plan/missing',
        path: `${path}.angle`,
        value: undefined,
        message: `Ply ${i + 1} has no angle; a structural ply must state that of its warp, from across the bay towards aft.`,
        hint: 'Write "angle": "0 deg" for a cloth laid 0/90, "45 deg" for one on the bias.',
      })
    }
    if (ply.role === 'structural' && ply.cloth !== undefined && ply.cloth.strengths === null) {
      report({
        code: 'plies/carries-no-load',
        path: `${path}.cloth`,
        value: ply.cloth.id,
        message: `Ply ${i + 1} is structural and of '${ply.cloth.id}', which carries no load; a structural ply must be of a woven cloth.`,
        hint: 'Write "role": "surface" for a veil, "peel" for peel ply, "film" for a film.',
      })
    }
    checkCloth(ply, i, report)
    checkFilmAngle(ply, i, report)
    checkTwice(plan.plies?.[i]?.stepBack, 'chord', ['leading', 'trailing'], path, report)
    checkTwice(plan.plies?.[i]?.stepBack, 'body', ['bodyForward', 'bodyAft'], path, report)
  })
}

type CheckedPly = NonNullable<NonNullable<Checking['design']['plies']>[number]>

const onlyFor: { readonly [weave: string]: PlyRole } = { 'peel ply': 'peel', film: 'film' }

/** The laminate goes by the cloth, the lay-up by the role: they must agree on what comes off. */
function checkCloth({ cloth, role }: CheckedPly, i: number, report: Checking['report']): void {
  if (cloth === undefined || role === undefined || role === 'structural') return
  const wanted = onlyFor[cloth.weave] ?? 'surface'
  if (wanted === role) return
  const meant = wanted === 'surface' ? 'stays on the part' : 'is pulled off after cure'
  report({
    code: 'plies/not-for-this',
    path: `plies[${i}].cloth`,
    value: cloth.id,
    message: `Ply ${i + 1} has the role ${role} and is of '${cloth.id}', which ${meant}; the role must fit the cloth.`,
    hint:
      wanted === 'surface'
        ? `Choose ${role === 'film' ? "a film, 'plastic-film'," : "a peel ply, 'peel-ply',"} or a material of your own that is like it.`
        : `Write "role": "${wanted}".`,
  })
}

function checkFilmAngle({ role, angle }: CheckedPly, i: number, report: Checking['report']): void {
  if (role !== 'film' || angle === undefined || angle === 0) return
  report({
    code: 'plies/film-angle',
    path: `plies[${i}].angle`,
    value: angle,
    message: `Ply ${i + 1} is a film with an angle of ${((angle * 180) / Math.PI).toFixed(0)} deg; a film has no warp and must have none.`,
    hint: 'Leave the angle out.',
  })
}

function checkTwice(
  stepBack: Readonly<Record<string, string | undefined>> | undefined,
  short: string,
  long: readonly string[],
  path: string,
  report: Checking['report'],
): void {
  if (stepBack?.[short] === undefined) return
  for (const key of long) {
    if (stepBack[key] === undefined || stepBack[key] === stepBack[short]) continue
    report({
      code: 'plies/step-back-twice',
      path: `${path}.stepBack.${key}`,
      value: stepBack[key],
      message: `'${short}' states ${stepBack[short]} for ${long.join(' and ')} together, and '${key}' states ${stepBack[key]}; a step back may be stated once.`,
      hint: `Remove '${short}' or '${key}'.`,
    })
  }
}

/** What lies outside the peel ply or the film comes off with it; the film lies outermost. */
function checkOrder({ design, report }: Checking): void {
  const roles = design.plies?.map((ply) => ply?.role) ?? []
  const film = roles.indexOf('film')
  const first = roles.findIndex((role) => role !== undefined && comesOff(role))
  if (first < 0) return
  roles.forEach((role, i) => {
    if (i < first || role === undefined || role === 'film') return
    if (role === 'peel') {
      if (film < 0 || i < film) return
      report({
        code: 'plies/outside-film',
        path: `plies[${i}].role`,
        value: role,
        message: `Ply ${i + 1} is peel ply and lies outside the film ${film + 1}, where no resin reaches it; the film must be listed last.`,
        hint: 'List the plies from the core outward, then the peel ply, then the film.',
      })
      return
    }
    const beyond = roles[first] === 'film' ? 'film' : 'peel ply'
    report({
      code: 'plies/outside-peel-ply',
      path: `plies[${i}].role`,
      value: role,
      message: `Ply ${i + 1} is ${role} and lies outside the ${beyond} ${first + 1}; plies that stay must be listed before it.`,
      hint: 'List the plies from the core outward, the peel ply after them, a film last.',
    })
  })
}

function checkStructural({ design, report }: Checking): void {
  const roles = design.plies?.map((ply) => ply?.role)
  if (roles === undefined || roles.some((role) => role === undefined || role === 'structural')) return
  report({
    code: 'plies/none-structural',
    path: 'plies',
    value: roles,
    message: 'The schedule has no structural ply; it must have at least one.',
    hint: 'Add a ply of woven cloth.',
  })
}

function checkMirror({ design, report }: Checking): void {
  const N = design.fins?.count
  if (design.layup?.mirrorAlternateBays !== true || N === undefined || N % 2 === 0) return
  report({
    code: 'layup/mirror-odd',
    path: 'layup.mirrorAlternateBays',
    value: true,
    message: `Alternate bays are to be mirrored, with ${N} fins; that needs an even number, because bay ${N} lies beside bay 1.`,
    hint: 'Set it to false and keep to cloth at 0, 45 or 90 deg.',
  })
}
