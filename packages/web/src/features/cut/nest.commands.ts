/** A nest in the plan: places to a micrometre, as they would be typed. */
import type { KeptPlacement } from '@finwright/core/nest/kept.ts'
import type { Intent } from '@finwright/plan/protocol/commands.ts'

export const keepNest = (placements: readonly KeptPlacement[]) =>
  ({
    name: 'field.set',
    payload: {
      path: ['stock', 'layout'],
      value: placements.map(({ piece, roll, x, y, rotation }) => ({
        ...{ piece, roll, x: mm(x), y: mm(y) },
        turn: `${Number(((rotation * 180) / Math.PI).toFixed(6))} deg`,
      })),
    },
  }) as const satisfies Intent

export const forgetNest: Intent = { name: 'field.clear', payload: { path: ['stock', 'layout'] } }

const mm = (length: number): string => `${Number((length * 1e3).toFixed(3))} mm`
