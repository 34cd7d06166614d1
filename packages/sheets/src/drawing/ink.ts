/** The inks: one blue-black in five strengths, one accent, one colour for danger. All stay apart in black and white. */
import type { Face, Ink } from './drawing.ts'

export const inkColour: { readonly [ink in Ink]: string } = {
  ink: '#16223a',
  dark: '#3c4760',
  mid: '#6d7588',
  light: '#a4aab8',
  pale: '#d3d7de',
  saffron: '#d9920a',
  danger: '#a61c1c',
  paper: '#ffffff',
}

/** Family, weight and slant as SVG and CSS name them. The files are those of `font-files.ts`. */
export const faceStyle: { readonly [face in Face]: { family: string; weight: number; italic: boolean } } = {
  text: { family: 'Source Sans 3', weight: 400, italic: false },
  strong: { family: 'Source Sans 3', weight: 600, italic: false },
  italic: { family: 'Source Sans 3', weight: 400, italic: true },
  letter: { family: 'National Park', weight: 400, italic: false },
  title: { family: 'National Park', weight: 600, italic: false },
}

/** No kerning and no ligatures, so that a width is the sum of the letters' own. The sans has figures of one width. */
export const fontFeatures = { kern: false, liga: false } as const
