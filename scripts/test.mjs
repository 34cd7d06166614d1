/**
 * Every test of the project, in the order that fails soonest; the last line is `N passed, N failed`.
 *
 * `--quick` is the round while working: no rendering of printed sheets, no fine meshes (files named `*.slow.test.ts`).
 */
import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync, rmSync } from 'node:fs'
import { writeChecksTable } from './checks-table.mjs'

const quick = process.argv.includes('--quick')
const rows = 'build/check-rows'
const report = 'build/tests.json'
const bin = (name) => `node_modules/.bin/${name}`

rmSync(rows, { recursive: true, force: true })
rmSync(report, { force: true })
let passed = 0
let failed = 0

step('format and lint', bin('biome'), ['ci', '.'])
step('types of the packages', bin('tsc'), ['-b'])
step('types of the tests', bin('tsc'), ['-p', 'tsconfig.test.json'])
const exclude = quick ? ['--exclude', '**/*.slow.test.ts', '--exclude', '**/node_modules/**'] : []
spawnSync(bin('vitest'), ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`, ...exclude], {
  stdio: 'inherit',
  env: { ...process.env, FINWRIGHT_CHECK_ROWS: rows },
})
countTests()
count('table of published checks', writeChecksTable({ rows, table: 'docs/checks.md' }))

console.log(`${passed} passed, ${failed} failed`)
process.exit(failed === 0 && passed > 0 ? 0 : 1)

function step(title, program, args) {
  console.log(`\n— ${title}`)
  count(title, spawnSync(program, args, { stdio: 'inherit' }).status === 0)
}

function count(title, good) {
  if (good) passed += 1
  else {
    failed += 1
    console.log(`FAILED: ${title}`)
  }
}

/** Counts what the runner reports; a suite that did not load, or no report at all, is a failure. */
function countTests() {
  if (!existsSync(report)) return count('the test runner left no report', false)
  const { numPassedTests, numFailedTests, testResults } = JSON.parse(readFileSync(report, 'utf8'))
  const broken = testResults.filter((suite) => suite.status === 'failed' && suite.assertionResults.length === 0)
  for (const suite of broken) console.log(`FAILED to load: ${suite.name}`)
  passed += numPassedTests
  failed += numFailedTests + broken.length
  if (numPassedTests === 0) count('no test passed', false)
}
