/**
 * Gathers the rows that the published checks left behind into one table, `docs/checks.md`.
 * A folder under `checks/` without a `source.md`, or whose checks left no row, is a failure.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

/** @returns {boolean} true when every source is described and has at least one row */
export function writeChecksTable({ rows, table }) {
  const sources = checkFolders()
  let good = sources.length > 0
  const sections = []
  for (const { id, folder } of sources) {
    const about = join(folder, 'source.md')
    const found = join(rows, `${id}.jsonl`)
    if (!existsSync(about) || !existsSync(found)) {
      console.log(`FAILED: ${folder} has ${existsSync(about) ? 'left no row of evidence' : 'no source.md'}`)
      good = false
      continue
    }
    sections.push(section(id, readFileSync(about, 'utf8'), readFileSync(found, 'utf8')))
  }
  if (good) writeFileSync(table, `${heading}\n${sections.join('\n')}`)
  return good
}

const heading = `# Published checks

Every number below is printed in the source named, or follows from it in closed form, and is compared with what Finwright
computes each time the tests run. A computed value agrees when it lies within half a unit of the last printed digit plus
the stated relative error of the method. This page is written by \`npm test\`; it is evidence, not documentation.
`

function checkFolders() {
  return readdirSync('packages').flatMap((name) => {
    const checks = join('packages', name, 'checks')
    if (!existsSync(checks)) return []
    return readdirSync(checks, { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map((entry) => ({ id: entry.name, folder: join(checks, entry.name) }))
  })
}

function section(id, about, lines) {
  const title = /^#\s*(.+)$/m.exec(about)?.[1] ?? id
  const body = lines
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line))
    .sort((a, b) => a.quantity.localeCompare(b.quantity, 'en', { numeric: true }))
    .map(row)
  return `\n## ${title}\n\n| quantity | printed | computed | difference | method error allowed |\n|---|---|---|---|---|\n${body.join('\n')}\n`
}

function row({ quantity, printed, computed, methodError, why }) {
  const value = Number(printed.replaceAll(',', ''))
  const difference =
    value === 0 ? Math.abs(computed).toExponential(1) : `${((computed / value - 1) * 100).toFixed(2)} %`
  const allowed =
    methodError === 0 ? 'none' : `${+(methodError * 100).toPrecision(3)} %${why === '' ? '' : ` (${why})`}`
  return `| ${quantity} | ${printed} | ${+computed.toPrecision(5)} | ${difference.replace('-0.00 %', '0.00 %')} | ${allowed} |`
}
