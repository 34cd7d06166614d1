/** The schedule: what each ply may be, in which order, and how far it may be stated. */
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
        hint: 'Write "role": "surface" for a veil, "peel" for peel ply.',
      })
    }
    checkTwice(plan.plies?.[i]?.stepBack, 'chord', ['leading', 'trailing'], path, report)
    checkTwice(plan.plies?.[i]?.stepBack, 'body', ['bodyForward', 'bodyAft'], path, report)
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

/** What lies outside the peel ply comes off with it. */
function checkOrder({ design, report }: Checking): void {
  const roles = design.plies?.map((ply) => ply?.role) ?? []
  const peel = roles.indexOf('peel')
  if (peel < 0) return
  roles.forEach((role, i) => {
    if (i < peel || role === undefined || role === 'peel') return
    report({
      code: 'plies/outside-peel-ply',
      path: `plies[${i}].role`,
      value: role,
      message: `Ply ${i + 1} is ${role} and lies outside the peel ply ${peel + 1}; plies that stay must be listed before it.`,
      hint: 'List the plies from the core outward, the peel ply last.',
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
