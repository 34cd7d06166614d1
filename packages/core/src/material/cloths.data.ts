/**
 * Cloths. Areal mass in kg/m², dry; strengths in Pa, of the cured woven ply at the stated fibre volume fraction.
 *
 * An areal mass here is the nominal one that gives the generic cloth its name. Real cloth differs: ASTM D4389 allows a
 * woven roving ±10 % of nominal. Weigh a 100 mm square: grams × 0.1 = kg/m².
 */
import { carbonStandard, eGlass, polyamide, polyethylene } from './fibres.data.ts'
import type { Cloth, Property, Strengths } from './material.ts'
import { estimate, practice, read, recalled } from './property.ts'

const NOMINAL = 'nominal of this generic cloth; weigh a 100 mm square of yours (grams × 0.1 = kg/m²)'
const nominal = (arealMass: number): Property => practice(arealMass, NOMINAL)
const ofStyle = (arealMass: number, style: string): Property =>
  recalled(arealMass, `US woven-glass style ${style}, industry designation; weigh a 100 mm square of yours`)

const balanced = practice(0.5, 'the same yarn and count in warp and weft')
/** Share of the warp from the thread counts, the same yarn both ways. */
const counted = (warp: number, weft: number, style: string): Property =>
  recalled(
    Math.round((warp / (warp + weft)) * 1000) / 1000,
    `thread count ${warp} × ${weft} per inch of US style ${style}, the same yarn both ways`,
  )

const crimp = practice(0.9, 'knock-down of the 0/90 crossply for the waviness of woven yarns')
const noCrimp = practice(1, 'not woven, or not in the laminate')

const BARKANOV =
  'Barkanov, Dumitrescu & Parinov (eds), Non-Destructive Testing and Repair of Pipelines (Springer 2018), p. 177, ' +
  'table 6: woven E-glass/epoxy, 48 % resin by weight (text layer of the page, columns re-aligned)'

/** The published line nearest to a hand lay-up. Fibre fraction from its 48 % resin, densities 2580 and 1150 kg/m³. */
const glassStrengths: Strengths = {
  Xt: read(330e6, BARKANOV),
  Xc: read(340e6, BARKANOV),
  Yt: read(330e6, BARKANOV),
  Yc: read(340e6, BARKANOV),
  S: practice(
    50e6,
    'in-plane shear, set below 73 MPa (UD E-glass/epoxy, Soden, Hinton & Kaddour, Compos. Sci. Technol. 58 (1998)) and ' +
      '97 MPa (woven, Daniel & Ishai, table A.4), both recalled and of better laminates',
  ),
  fibreFraction: estimate(0.3256, '48 % resin by weight at fibre 2580 and resin 1150 kg/m³ (ASTM D3171 II relation)'),
}

const CARBON =
  'carbon 5-harness fabric/epoxy prepreg at 0.62 fibre (Daniel & Ishai, table A.4, recalled: Xt 963, Xc 900, S 71 MPa) ' +
  'taken to 0.45 fibre and lowered by 30 % (tension, shear) and 40 % (compression) for hand lay-up'

const carbonStrengths: Strengths = {
  Xt: practice(480e6, CARBON),
  Xc: practice(390e6, CARBON),
  Yt: practice(480e6, CARBON),
  Yc: practice(390e6, CARBON),
  S: practice(50e6, CARBON),
  fibreFraction: practice(0.45, CARBON),
}

/** A guess a weave: looser floats let yarns turn further. Pull a piece of yours on the bias until it wrinkles and measure. */
const shearBeforeWrinkles = (degrees: number, weave: string): Property =>
  practice((degrees * Math.PI) / 180, `a guess for ${weave}: how far warp and weft turn by hand before it wrinkles`)
const shearOf = {
  plain: shearBeforeWrinkles(30, 'a plain weave'),
  twill: shearBeforeWrinkles(35, 'a twill'),
  satin: shearBeforeWrinkles(40, 'a satin'),
}

type Woven = Pick<Cloth, 'id' | 'name' | 'arealMass'> & {
  readonly weave: 'plain' | 'twill' | 'satin'
  readonly warpShare?: Property
}

/** A plain weave is the same from both sides; a twill's diagonal and a satin's floats are not. */
const woven = ({ id, name, weave, arealMass, warpShare = balanced }: Woven) => ({
  id,
  name,
  weave,
  arealMass,
  warpShare,
  crimpFactor: crimp,
  maximumShear: shearOf[weave],
  reversible: weave === 'plain',
})
const glass = (cloth: Woven): Cloth => ({ ...woven(cloth), fibre: eGlass, strengths: glassStrengths })
const carbon = (cloth: Woven): Cloth => ({ ...woven(cloth), fibre: carbonStandard, strengths: carbonStrengths })

export const clothList: readonly Cloth[] = [
  glass({ id: 'glass-plain-49', name: 'Glass plain 49 g/m²', weave: 'plain', arealMass: nominal(0.049) }),
  glass({ id: 'glass-plain-100', name: 'Glass plain 100 g/m²', weave: 'plain', arealMass: nominal(0.1) }),
  glass({ id: 'glass-plain-200', name: 'Glass plain 200 g/m²', weave: 'plain', arealMass: nominal(0.2) }),
  glass({
    id: 'glass-plain-326',
    name: 'Glass plain 326 g/m² (9.6 oz)',
    weave: 'plain',
    arealMass: ofStyle(0.326, '7500, 9.6 oz/yd², printed 325 to 327 g/m²'),
    warpShare: counted(16, 14, '7500'),
  }),
  glass({ id: 'glass-twill-160', name: 'Glass 2/2 twill 160 g/m²', weave: 'twill', arealMass: nominal(0.16) }),
  glass({ id: 'glass-twill-280', name: 'Glass 2/2 twill 280 g/m²', weave: 'twill', arealMass: nominal(0.28) }),
  glass({
    id: 'glass-satin-107',
    name: 'Glass 4-harness satin 107 g/m²',
    weave: 'satin',
    arealMass: ofStyle(0.107, '120, 3.16 oz/yd²'),
    warpShare: counted(60, 58, '120'),
  }),
  glass({
    id: 'glass-satin-300',
    name: 'Glass 8-harness satin 300 g/m²',
    weave: 'satin',
    arealMass: ofStyle(0.3, '7781, 8.8 to 8.95 oz/yd²'),
    warpShare: counted(57, 54, '7781'),
  }),
  carbon({ id: 'carbon-plain-200', name: 'Carbon plain 200 g/m²', weave: 'plain', arealMass: nominal(0.2) }),
  carbon({ id: 'carbon-twill-160', name: 'Carbon 2/2 twill 160 g/m²', weave: 'twill', arealMass: nominal(0.16) }),
  carbon({ id: 'carbon-twill-200', name: 'Carbon 2/2 twill 200 g/m²', weave: 'twill', arealMass: nominal(0.2) }),
  carbon({ id: 'carbon-twill-245', name: 'Carbon 2/2 twill 245 g/m²', weave: 'twill', arealMass: nominal(0.245) }),
  {
    id: 'glass-veil-49',
    name: 'Glass surface veil 49 g/m²',
    fibre: eGlass,
    weave: 'veil',
    arealMass: nominal(0.049),
    warpShare: practice(0.5, 'no direction'),
    crimpFactor: noCrimp,
    maximumShear: null,
    reversible: true,
    strengths: null,
  },
  {
    id: 'peel-ply',
    name: 'Peel ply 85 g/m²',
    fibre: polyamide,
    weave: 'peel ply',
    arealMass: practice(0.085, 'nominal of an undyed, uncoated peel ply; pulled off after cure'),
    warpShare: balanced,
    crimpFactor: noCrimp,
    maximumShear: shearBeforeWrinkles(25, 'a tight peel ply'),
    reversible: true,
    strengths: null,
  },
  {
    id: 'plastic-film',
    name: 'Plastic film 46 g/m²',
    fibre: polyethylene,
    weave: 'film',
    arealMass: practice(
      0.046,
      'plain polyethylene film 0.05 mm thick, laid over the wet lay-up and pulled off after cure',
    ),
    warpShare: practice(0.5, 'no direction'),
    crimpFactor: noCrimp,
    maximumShear: practice(
      (4 * Math.PI) / 180,
      'a guess: a film has no yarns that turn; 4° stretches it by 3.5 %, which thin polyethylene gives by hand',
    ),
    reversible: true,
    strengths: null,
  },
]
