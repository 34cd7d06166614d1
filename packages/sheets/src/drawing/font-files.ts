/**
 * The font files, out of the installed packages: Source Sans 3 and National Park, both under the SIL Open Font License 1.1.
 * Read when a PDF is made; nothing is fetched.
 */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Face } from './drawing.ts'

const files: { readonly [face in Face]: string } = {
  text: '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  strong: '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf',
  italic: '@expo-google-fonts/source-sans-3/400Regular_Italic/SourceSans3_400Regular_Italic.ttf',
  letter: '@expo-google-fonts/national-park/400Regular/NationalPark_400Regular.ttf',
  title: '@expo-google-fonts/national-park/600SemiBold/NationalPark_600SemiBold.ttf',
}

export const faces = Object.keys(files) as Face[]

export function fontFile(face: Face): Buffer {
  return readFileSync(createRequire(import.meta.url).resolve(files[face]))
}
