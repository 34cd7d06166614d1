/** Flight and margins: what it will see and whether it holds, a page a question: words, picture, numbers, why. */
import type { Block } from '../layout/block.ts'
import { paged } from '../layout/block.ts'
import { content, type Leaf } from '../layout/paper.ts'
import type { SheetInput } from '../sheet.ts'
import { boundaryBlocks } from './hold/boundary-page.ts'
import { curvesBlocks } from './hold/curves-page.ts'
import { figuresBlocks } from './hold/figures-page.ts'
import { flightBlocks } from './hold/flight-page.ts'
import { jointBlocks } from './hold/joint-page.ts'
import { modesBlocks } from './hold/modes-page.ts'
import { strengthBlocks } from './hold/strength-page.ts'

export type MarginInput = Pick<SheetInput, 'assessment' | 'figures' | 'paper'>

/** The column of a page, mm. */
export interface Area {
  readonly width: number
  readonly height: number
}

interface Question {
  readonly title: string
  readonly subject: string
  readonly blocks: (input: MarginInput, area: Area) => readonly Block[]
}

/** A page without blocks is left out. */
const questions: readonly Question[] = [
  { title: 'What it will see', subject: 'flight and heat', blocks: flightBlocks },
  { title: 'Will it hold', subject: 'flutter boundary and flight', blocks: boundaryBlocks },
  { title: 'Will it hold', subject: 'how it would flutter, and what moves that', blocks: curvesBlocks },
  { title: 'Will it hold', subject: 'how it rings', blocks: modesBlocks },
  { title: 'Will it hold', subject: 'strength, ply by ply', blocks: strengthBlocks },
  { title: 'Will it hold', subject: 'root joint and proof load', blocks: jointBlocks },
  { title: 'Will it hold', subject: 'the boundary in figures', blocks: figuresBlocks },
]

export function marginSheets(input: MarginInput): Leaf[] {
  const area = content(input.paper)
  return questions.flatMap(({ title, subject, blocks }) => {
    const whole = blocks(input, area)
    if (whole.length === 0) return []
    const pages = paged(whole, area)
    // the methods' names stand on the sources' sheets too: left out where they alone would take another page
    const bare = pages.length === 1 ? pages : paged(blocks(withoutSources(input), area), area)
    return (bare.length < pages.length ? bare : pages).map((items) => ({ title, subject, items }))
  })
}

const withoutSources = (input: MarginInput): MarginInput => ({
  ...input,
  assessment: { ...input.assessment, sources: [] },
})
