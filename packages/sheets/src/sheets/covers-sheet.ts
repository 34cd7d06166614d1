/**
 * What covers what, everywhere, and whether the schedule keeps the rules: covers as drawn and at their worst, what print and
 * shear leave, balance zone by zone, every rule with its answer.
 */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { Block } from '../layout/block.ts'
import { paged } from '../layout/block.ts'
import { type Figures, none, percent, plain } from '../layout/figures.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Cell, type Column, table } from '../layout/table.ts'
import { bullets, heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'

export function coverSheets(input: SheetInput): Leaf[] {
  const { assessment, paper, design, figures } = input
  if (assessment.pattern.shapes.length === 0) return []
  const area = content(paper)
  const shear = `${plain((design.layup.biasShear * 180) / Math.PI, 0)}°`
  const blocks = [
    ...rules(assessment, area.width),
    ...balance(assessment, figures, area.width),
    { ...heading('Covers', area.width), opensPage: true },
    paragraph(
      `How far each ply reaches past the edges of those beneath, to the net line, in ${figures.units === 'us' ? 'inches' : 'millimetres'}. “At worst” is the least anywhere when the print is half a per cent off and bias plies are sheared by anything from nothing to ${shear}.`,
      area.width,
      { size: 3.1, keep: true },
    ),
    ...covers(assessment, figures, area.width),
    heading('What print and shear leave', area.width),
    ...allowances(assessment, figures, area.width),
  ]
  return paged(blocks, area).map((items) => ({ title: 'Covers and rules', subject: 'one bay', items }))
}

const bare = (figure: string): string => figure.replace(/ (mm|in)$/, '')

function covers({ pattern }: Assessment, figures: Figures, width: number): Block[] {
  const columns: Column[] = [
    { head: 'ply', share: 1, face: 'title' },
    { head: 'over', share: 1, face: 'title' },
    { head: 'leading', share: 1.3, align: 'end' },
    { head: 'trailing', share: 1.3, align: 'end' },
    { head: 'tip', share: 1.3, align: 'end' },
    { head: 'body, forward', share: 1.6, align: 'end' },
    { head: 'body, aft', share: 1.6, align: 'end' },
    { head: 'at worst', share: 1.6, align: 'end', face: 'strong' },
  ]
  const rows = pattern.covers.map((cover): Cell[] => [
    cover.ply,
    cover.covers,
    ...[cover.leading_m, cover.trailing_m, cover.tip_m, cover.bodyForward_m, cover.bodyAft_m].map((by) =>
      bare(figures.length(by)),
    ),
    bare(figures.length(cover.least_m)),
  ])
  let last = ''
  const starts = pattern.covers.map(({ ply }) => {
    const first = ply !== last
    last = ply
    return first
  })
  const odd = starts.map((_, i) => starts.slice(0, i + 1).filter(Boolean).length % 2 === 0)
  return table(columns, rows, width, { size: 3, gap: 2, strong: (row) => odd[row] })
}

function allowances({ pattern }: Assessment, figures: Figures, width: number): Block[] {
  const columns: Column[] = [
    { head: 'ply', share: 0.8, face: 'title' },
    { head: 'beyond the net line where it is trimmed, at least', share: 2.4, align: 'end' },
    { head: 'inside its net line where it is not, at most', share: 2.4, align: 'end' },
    { head: 'tip stays bare past a shear of', share: 2, align: 'end' },
  ]
  const rows = pattern.allowances.map(({ ply, left_m, short_m, bareAtShear_deg }): Cell[] => [
    ply,
    figures.length(left_m),
    left_m === null ? figures.length(short_m) : none,
    figures.angle(bareAtShear_deg, 0),
  ])
  return table(columns, rows, width, { size: 3, gap: 2 })
}

/** Each zone's couplings; a zero that rounding leaves is written as none. */
function balance({ pattern, fin }: Assessment, figures: Figures, width: number): Block[] {
  if (pattern.balance === null) return []
  const { zones, cooling_K } = pattern.balance
  const thickness = new Map(fin.plies.map(({ id, thickness_m }) => [id, thickness_m]))
  const share = (value: number): string => (value < 1e-9 ? 'none' : percent(value, 1))
  const columns: Column[] = [
    { head: 'plies on each face', share: 3, face: 'title' },
    { head: 'both skins', share: 1.4, align: 'end' },
    { head: 'bending with stretching, B', share: 1.7, align: 'end' },
    { head: 'bending with twisting, D', share: 1.7, align: 'end' },
    { head: 'twist at the tip, cooled', share: 1.6, align: 'end' },
  ]
  const rows = zones.map((zone): Cell[] => [
    zone.plies.join(' '),
    figures.length(2 * zone.plies.reduce((sum, id) => sum + (thickness.get(id) ?? 0), 0), 1e-5),
    share(zone.bendStretch),
    share(zone.bendTwist),
    Math.abs(zone.tipTwist_deg) < 5e-3 ? 'none' : figures.angle(Math.abs(zone.tipTwist_deg), 2),
  ])
  return [
    heading('Balance about the core', width),
    paragraph(
      `Of the laminate where these plies lie on both faces of the full core, as a share of what its own stiffness allows. The twist is that of a free fin which was without stress at its resin's glass transition and cooled by ${plain(Math.abs(cooling_K), 0)} K: an upper estimate.`,
      width,
      { size: 3.1, keep: true },
    ),
    ...table(columns, rows, width, { size: 3, gap: 2 }),
  ]
}

/** In the order of `docs/methods/pattern.md`; codes of what breaks each. */
const ruleList: readonly (readonly [string, readonly string[]])[] = [
  ['Only the last structural ply has an exposed edge', ['edge-exposed']],
  ['No edge is stacked on another', ['edges-stacked']],
  ['Steps are long enough for the thickness they drop', ['step-steep']],
  ['Every bias ply is covered by a ply along the axes', ['bias-uncovered', 'bias-outermost']],
  ['First and last structural ply run the same way', ['outside-differs']],
  ['No ply ends in the fillet or where edge shaping begins', ['step-in-fillet', 'step-on-bevel', 'fillet-tight']],
  ['Every fin balances about its core, by A, B and D', ['angle-couples', 'bends-and-twists', 'mirror-odd']],
  ['Surface and peel plies reach as far as the structure', ['outer-ply-short']],
  ['No number stands for two plies, no name for two pieces', ['ply-number', 'piece-name']],
  ['Print error and shear together bare no net line and no covered edge', ['net-bare', 'cover-lost']],
]

function rules({ pattern }: Assessment, width: number): Block[] {
  const known = new Set(ruleList.flatMap(([, codes]) => codes))
  const codeOf = (code: string): string => code.replace(/^pattern\//, '')
  const rows = ruleList.map(([words, codes]): Cell[] => {
    const broken = pattern.rules.filter(({ code }) => codes.includes(codeOf(code)))
    return [words, broken.length === 0 ? 'kept' : `broken, ${broken.length}×`]
  })
  const others = pattern.rules.filter(({ code }) => !known.has(codeOf(code)))
  const columns: Column[] = [
    { head: 'rule', share: 5 },
    { head: 'this schedule', share: 1.2, face: 'strong' },
  ]
  return [
    heading('Rules', width, 0),
    ...table(columns, rows, width, { size: 3, gap: 1 }),
    ...bullets(
      [...pattern.rules.filter((rule) => !others.includes(rule)), ...others].map(
        ({ message, hint }) => `${message} ${hint}`,
      ),
      width,
      { size: 3, gap: 1.6 },
    ),
  ]
}
