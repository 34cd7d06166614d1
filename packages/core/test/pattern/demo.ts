/** The invented four-fin can of the tests: tube of 102 mm, root 300, tip 120, span 110, tip 150 aft, core 3.2, fillet 15 mm. */
import type { PatternInput, PlyEnd, PlyRole, ScheduledPly } from '../../src/pattern/schedule.ts'

export const cloth = { id: 'glass-200', name: 'glass 200 g/m²', warpShare: { value: 0.5 }, maximumShear: null }
const degree = Math.PI / 180

export const steps = (tip: number, chord = 0, body = 0): { readonly [end in PlyEnd]: number } => ({
  leading: chord,
  trailing: chord,
  tip,
  bodyForward: body,
  bodyAft: body,
})

export function ply(
  id: string,
  angleDeg: number,
  stepBack: ScheduledPly['stepBack'],
  over: {
    readonly overhang?: number
    readonly role?: PlyRole
    readonly thickness?: number
    readonly mass?: number
  } = {},
): ScheduledPly {
  const { overhang = 0, role = 'structural', thickness = 0.253e-3, mass = 0.2 } = over
  return {
    id,
    role,
    cloth,
    angle: angleDeg * degree,
    stepBack,
    overhang: { edges: overhang, bodyEnds: overhang },
    cover: 'bay',
    onBody: 0,
    wrap: 0,
    thickness,
    dryArealMass: mass,
  }
}

/** Tip steps only, no chord or body steps: its edges stack. */
export const tipStepsOnly: readonly ScheduledPly[] = [
  ply('P1', 0, steps(0.06)),
  ply('P2', 45, steps(0.04)),
  ply('P3', 0, steps(0.02)),
  ply('P4', 45, steps(0), { overhang: 0.01 }),
  ply('P5', 0, steps(0), { overhang: 0.01 }),
  ply('V1', 0, steps(0), { overhang: 0.01, role: 'surface', thickness: 0.062e-3, mass: 0.049 }),
  ply('R1', 0, steps(0), { overhang: 0.01, role: 'peel', thickness: 0.1e-3, mass: 0.085 }),
]

/** Every edge stepped by 15 mm: keeps every rule. */
export const stepped: readonly ScheduledPly[] = [
  ply('P1', 0, steps(0.06, 0.06, 0.06)),
  ply('P2', 45, steps(0.045, 0.045, 0.045)),
  ply('P3', 0, steps(0.03, 0.03, 0.03)),
  ply('P4', 45, steps(0.015, 0.015, 0.015)),
  ply('P5', 0, steps(0), { overhang: 0.01 }),
  ...tipStepsOnly.slice(5),
]

const bevel = { kind: 'bevel', width: 0.012, land: 0.0008 } as const

export const demo: PatternInput = {
  tube: { outerRadius: 0.051, aftRadius: 0.051, ahead: null, behind: null },
  fins: {
    count: 4,
    outline: {
      points: [
        [0, 0],
        [0.15, 0.11],
        [0.27, 0.11],
        [0.3, 0],
      ],
      edges: ['leading', 'tip', 'trailing'],
    },
    core: { thickness: 0.0032 },
    edges: { leading: bevel, tip: { kind: 'square', width: 0, land: 0.0032 }, trailing: bevel },
    cant: 0,
    fillet: { radius: 0.015, radiusAft: 0.015, runOut: { forward: 0.015, aft: 0.015 } },
  },
  plies: tipStepsOnly,
  layup: {
    overrun: { forward: 0, aft: 0 },
    biasShear: 4 * degree,
    mirrorAlternateBays: false,
    stepPerThickness: 50,
  },
  cans: [{ letter: 'A' }, { letter: 'B' }],
}

/** The same schedule laid on the bare surface, as if cloth had no thickness. */
export const thin = (plies: readonly ScheduledPly[]): readonly ScheduledPly[] =>
  plies.map((one) => ({ ...one, thickness: 0 }))

/** The fins with a fillet of another radius, the same at both ends of the root. */
export const filleted = (fins: PatternInput['fins'], radius: number): PatternInput['fins'] => ({
  ...fins,
  fillet: { ...fins.fillet, radius, radiusAft: radius },
})
