/** What every plan opens with, can or study. */
import { z } from 'zod'

export const heading = {
  $schema: z.string().optional(),
  format: z.literal('finwright/plan'),
  version: z.literal(1),
  name: z.string().min(1).max(120),
  note: z.string().max(4000).optional(),
  units: z.enum(['metric', 'us']).optional(),
}
