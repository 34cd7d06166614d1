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
    'quadratic shear-deformable triangle with mixed interpolation; Bathe, Brezzi & Cho, Computers & Structures 32 (1989); error by Richardson; docs/methods/plate.md',
    'recalled',
  ),
  method(
    'structure',
    'how joint and tube hold the root',
    'plane-strain section through root, fillets, skins and wall, as springs along the root; own, docs/methods/bond-joint.md',
    'estimate',
  ),
  method(
    'flutter',
    'air forces below Mach 1',
    'doublet lattice; Rodden, Giesing & Kalman, J. Aircraft 9 (1972) 69; kernel of NACA Rep. 1234; docs/methods/air-subsonic.md',
    'recalled',
  ),
  method(
    'flutter',
    'air forces above Mach 1',
    'source boxes over the plan form, thickness to second order (Van Dyke, NACA Rep. 1081, 1952); docs/methods/air-supersonic.md',
    'recalled',
  ),
  method(
    'flutter',
    'conservative envelope',
    'factors 0.90, 0.75 and 0.85 on speed, below tests of AGARD R-765 (Yates, 1985) and NASA TN D-1824 (1963); docs/methods/flutter-envelope.md',
    'estimate',
  ),
  method('flutter', 'flutter speed', 'p-k method; Hassig, J. Aircraft 8 (1971) 885', 'recalled'),
  method(
    'flutter',
    'stiffness at temperature',
    'resin modulus against the glass transition, form of Gibson et al., J. Compos. Mater. 40 (2006) 639; its parameters have no source',
    'estimate',
  ),
  method(
    'flutter',
    'screening number',
    'Martin, NACA TN 4197 (1958); constant derived again in docs/methods/flutter.md',
    'recalled',
  ),
  method(
    'strength',
    'air load of a fin',
    'the same lifting surfaces at rest, with the upwash of the body after Pitts, Nielsen & Kaattari, NACA Rep. 1307 (1957)',
    'recalled',
  ),
  method(
    'strength',
    'gust and wind',
    'sharp-edged gust, angle U/V, as Pratt & Walker, NACA Rep. 1206 (1954) begin with; no alleviation',
    'recalled',
  ),
  method(
    'strength',
    'first-ply failure',
    'maximum stress; Tsai-Wu with F12 = −½ √(F11 F22) as second opinion',
    'recalled',
  ),
  method(
    'bond',
    'root joint',
    'stresses of the plane-strain section, meant over 1 mm; lap shear knocked down as ASTM D4896 demands; docs/methods/bond-joint.md',
    'estimate',
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
    'shear of plies where the surface does not unroll',
    'net of inextensible yarns; Mack & Taylor, J. Textile Inst. 47 (1956) T477; docs/methods/pattern.md',
    'recalled',
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
