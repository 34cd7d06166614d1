/** AGARD standard aeroelastic configuration 445.6, weakened model 3; see source.md. */

/** NACA 65A004: half thickness over chord, both in per cent, as printed. */
export const halfThickness: readonly (readonly [x: number, y: number])[] = [
  [0, 0],
  [0.5, 0.304],
  [0.75, 0.368],
  [1.25, 0.469],
  [2.5, 0.647],
  [5, 0.875],
  [7.5, 1.059],
  [10, 1.213],
  [15, 1.459],
  [20, 1.645],
  [25, 1.789],
  [30, 1.892],
  [35, 1.962],
  [40, 1.997],
  [45, 1.996],
  [50, 1.954],
  [55, 1.868],
  [60, 1.743],
  [65, 1.586],
  [70, 1.402],
  [75, 1.195],
  [80, 0.967],
  [85, 0.729],
  [90, 0.49],
  [95, 0.25],
  [100, 0],
]

/** in */
export const planformInches = { rootChord: 21.996, tipChord: 14.496, span: 30, tipLead: 31.866 }

/** Pa, kg/m³; axis 1 along the quarter-chord line. */
export const material = { E1: 3.151e9, E2: 0.4162e9, G12: 0.4392e9, nu12: 0.31, density: 381.98 }

/** Hz */
export const publishedFrequencies = [9.6, 38.17, 48.35, 91.54] as const

/** Mach number, slug/ft³, ft/s, rad/s, as printed. */
export const flutterTests = [
  { mach: 0.499, density: 8.3e-4, speed: '565.8', omega: '128.1' },
  { mach: 0.901, density: 1.93e-4, speed: '973.4', omega: '101.1' },
] as const
