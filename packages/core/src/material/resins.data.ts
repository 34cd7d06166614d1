/**
 * Laminating epoxies cured at room temperature, and structural adhesives. Pa, kg/m³, K, s, J/mol.
 *
 * The three laminating systems differ in hardener speed only. They are generic: no maker's data sheet stands behind them,
 * and the builder's own data sheet belongs in the plan.
 */
import type { Adhesive, ResinSystem } from './material.ts'
import { practice, read } from './property.ts'

const BARKANOV =
  'Barkanov, Dumitrescu & Parinov (eds), Non-Destructive Testing and Repair of Pipelines (Springer 2018), p. 177, ' +
  'table 5: generic structural epoxy (text layer of the page, columns re-aligned)'
const TYPICAL = 'typical of room-temperature laminating epoxies; use your data sheet'
const degC = (t: number) => t + 273.15

interface Speed {
  readonly id: string
  readonly name: string
  readonly workingTime: number
  readonly minimumDegC: number
}

const laminating = ({ id, name, workingTime, minimumDegC }: Speed): ResinSystem => ({
  id,
  name,
  resinDensity: practice(1150, `${TYPICAL}; with the hardener's 980 kg/m³, 3:1 by volume is 100:28.4 by mass`),
  hardenerDensity: practice(980, TYPICAL),
  density: read(1150, BARKANOV),
  E: practice(3.0e9, `${TYPICAL}, 2.7 to 3.5 GPa`),
  nu: practice(0.36, TYPICAL),
  strength: read(60e6, BARKANOV),
  workingTime: practice(workingTime, TYPICAL),
  workingTemperature: practice(degC(25), 'the temperature data sheets state a working time at'),
  workingMass: practice(0.1, 'the mass data sheets state a working time for: 100 g in a cup'),
  activationEnergy: read(
    55e3,
    'Thermochim. Acta 447 (2006) 167-177, epoxy with a primary amine, 55 to 60 kJ/mol, abstract read; lower end; ' +
      'Barral et al., J. Appl. Polym. Sci. 56 (1995) 1029-1037 give 44 to 57 kJ/mol for a cycloaliphatic diamine',
  ),
  minimumTemperature: practice(degC(minimumDegC), TYPICAL),
  glassTransition: practice(degC(58), 'laminating epoxy cured at room temperature, 50 to 70 degC'),
  glassTransitionPostCured: practice(degC(85), 'the same after a stepped post-cure, 85 to 90 degC; lower end'),
})

export const resinList: readonly ResinSystem[] = [
  laminating({ id: 'epoxy-slow', name: 'Laminating epoxy, slow hardener', workingTime: 3600, minimumDegC: 18 }),
  laminating({ id: 'epoxy-medium', name: 'Laminating epoxy, medium hardener', workingTime: 1800, minimumDegC: 15 }),
  laminating({ id: 'epoxy-fast', name: 'Laminating epoxy, fast hardener', workingTime: 900, minimumDegC: 15 }),
]

const STIFF = 'thickened or paste epoxies span E 1.5 to 4 GPa and G 0.6 to 1.3 GPa; lower end'
const LAP = 'data-sheet lap shear on aluminium (ASTM D1002 type) spans 14 to 35 MPa; lower end; not a design value'

export const adhesiveList: readonly Adhesive[] = [
  {
    id: 'epoxy-paste',
    name: 'Structural epoxy paste',
    density: practice(1150, 'unfilled to lightly filled paste, 1100 to 1400 kg/m³; use your data sheet'),
    E: practice(1.6e9, STIFF),
    G: practice(0.6e9, STIFF),
    lapShear: practice(14e6, LAP),
    glassTransition: practice(degC(55), 'room-temperature cured paste, 50 to 70 degC; use your data sheet'),
  },
  {
    id: 'epoxy-thickened',
    name: 'Laminating epoxy thickened with silica',
    density: practice(1150, 'as the neat resin; a little silica hardly moves it'),
    E: practice(2.5e9, 'as the neat resin, lower end'),
    G: practice(0.9e9, 'as the neat resin, lower end'),
    lapShear: practice(14e6, LAP),
    glassTransition: practice(degC(58), 'as the neat resin'),
  },
]
