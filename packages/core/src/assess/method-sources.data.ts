/** The methods behind the numbers, with their sources, as the appendix prints them. Full accounts stand in docs/methods. */
import type { SourceNote } from './assessment.ts'

const method = (section: string, quantity: string, source: string, confidence: string): SourceNote => ({
  section,
  quantity,
  value: 'method',
  source,
  confidence,
})

export const methodSources: readonly SourceNote[] = [
  method('flight', 'air against altitude', 'US Standard Atmosphere 1976 (NOAA-S/T 76-1562)', 'read'),
  method(
    'flight',
    'recovery temperature',
    'T (1 + 0.178 M²), turbulent recovery factor Pr^(1/3); Eckert, J. Aero. Sci. 22 (1955) 585',
    'recalled',
  ),
  method(
    'flight',
    'heat of the skins',
    'Eckert reference temperature on the flat, swept attachment line at the edge, implicit conduction; docs/methods/heat.md',
    'recalled',
  ),
  method(
    'fin',
    'cured ply thickness',
    'ASTM D3171, test method II relation: areal mass, fibre density, fibre volume fraction',
    'read',
  ),
  method(
    'fin',
    'ply stiffness',
    'Halpin & Kardos, Polym. Eng. Sci. 16 (1976) 344, as a crossply of two unidirectional layers',
    'recalled',
  ),
  method(
    'fin',
    'laminate stiffness A, B, D',
    'Nettles, Basic Mechanics of Laminated Composite Plates, NASA RP-1351 (1994)',
    'read',
  ),
  method(
    'fin',
    'transverse shear stiffness',
    'Rolfes & Rohwer, Int. J. Numer. Meth. Engng 40 (1997) 51-60',
    'recalled',
  ),
  method(
    'structure',
    'modes and static solution',
    'quadratic shear-deformable triangle with mixed interpolation; see docs/methods/plate.md',
    'recalled',
  ),
  method(
    'flutter',
    'air forces from Mach 2',
    'piston theory of second order with thickness; Van Dyke, NACA Rep. 1081 (1952)',
    'recalled',
  ),
  method(
    'flutter',
    'screening number',
    'Martin, NACA TN 4197 (1958); constant derived again in docs/methods/flutter.md',
    'recalled',
  ),
  method(
    'strength',
    'normal force of a fin',
    'Diederich, NACA TN 2335 (1951); 4/β above Mach 1.2; body upwash after NACA Rep. 1307 (1957)',
    'recalled',
  ),
  method(
    'strength',
    'first-ply failure',
    'maximum stress; Tsai-Wu with F12 = −½ √(F11 F22) as second opinion',
    'recalled',
  ),
  method('bond', 'fillet section', 'plane geometry, derived in docs/methods/bond.md', 'estimate'),
  method(
    'pattern',
    'development',
    'plane, concave cylinder, convex cylinder: exact; docs/methods/pattern.md',
    'estimate',
  ),
  method(
    'pattern',
    'step between plies',
    'FAA AC 43.13-1B, chapter 3: 50 times the ply thickness in a scarf, used by analogy',
    'read',
  ),
  method(
    'resin',
    'working time against temperature',
    'Arrhenius, activation energy as listed with the resin',
    'estimate',
  ),
  method('resin', 'smallest batch a scale can mix', 'δ (1 + h)² / (h ε), derived in docs/methods/resin.md', 'estimate'),
]
