/**
 * Words as single strokes, for a pen or a knife that follows lines and has no fonts. They take the width that the printed
 * words take, so that nothing a drawing was laid out by moves.
 */
import { path, type Stroke, type Text, type XY } from './drawing.ts'
import { textWidth } from './lettering.ts'
import { strokeLetters } from './stroke-letters.data.ts'

interface Letter {
  /** In units of a tenth of an em. */
  readonly width: number
  readonly strokes: readonly (readonly XY[])[]
}

const unitsPerEm = 10
/** Between one letter and the next, in units. */
const between = 1.6
const spaceWidth = 2.4

/** Strokes of the words in the page's plane, in the order of writing. */
export function letterStrokes(words: Text): XY[][] {
  const { at, text, size, face, anchor, turn, tracking } = words
  const placed: { letter: Letter; x: number }[] = []
  let x = 0
  for (const sign of text) {
    if (sign === ' ') {
      x += spaceWidth + between
      continue
    }
    const letter = letterFor(sign)
    placed.push({ letter, x })
    x += letter.width + between
  }
  const own = Math.max(x - between, 1)
  const width = textWidth(text, { size, face, tracking })
  const start = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width
  const across = width / own
  const up = size / unitsPerEm
  const [c, s] = [Math.cos(turn), Math.sin(turn)]
  return placed.flatMap(({ letter, x: left }) =>
    letter.strokes.map((points) =>
      points.map(([px, py]): XY => {
        const [dx, dy] = [start + (left + px) * across, -py * up]
        return [at[0] + c * dx - s * dy, at[1] + s * dx + c * dy]
      }),
    ),
  )
}

/** The words as paths on the text's own layer. */
export const lettered = (words: Text, stroke: Stroke) =>
  letterStrokes(words).map((points) => path(points, false, { layer: words.layer, stroke }))

const known = new Map<string, Letter>()

/** Marks over letters are left away where there is no letter with them; what is still unknown is a question mark. */
function letterFor(sign: string): Letter {
  const found = known.get(sign)
  if (found !== undefined) return found
  const plain = sign.normalize('NFD')[0]!
  const letter = parsed(strokeLetters[sign] ?? strokeLetters[alike[sign] ?? plain] ?? strokeLetters['?']!)
  known.set(sign, letter)
  return letter
}

const alike: { readonly [sign in string]: string } = { '’': "'", '‘': "'", '“': '"', '”': '"', '•': '·' }

function parsed(row: string): Letter {
  const [width, ...strokes] = row.split('|')
  return {
    width: Number(width),
    strokes: strokes.map((run) => run.split(' ').map((point): XY => [Number(point[0]), height(point[1]!)])),
  }
}

const height = (sign: string): number => (sign === 'a' ? -1 : sign === 'b' ? -2 : Number(sign))
