/** What a piece of film is asked to do that it cannot: it has no yarns that turn, so it lies only where the surface unrolls. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { plain } from '../layout/figures.ts'

type Shear = Assessment['pattern']['shear'][number]

export const placeName: { readonly [region in Shear['region']]: string } = {
  face: 'on the fin’s face',
  fillet: 'in the fillet',
  body: 'on the body',
  'run-out': 'round the fillet’s run-out',
}

/** Only where it must follow more than it gives by stretching. */
export function filmWords({ shear }: Assessment['pattern'], ply: string): string {
  const own = shear.find((one) => one.ply === ply)
  if (own === undefined || own.greatest_deg <= own.limit_deg) return 'lies without shear'
  return `does not shear, and would have to by ${plain(own.greatest_deg, 0)}° ${placeName[own.region]}`
}
