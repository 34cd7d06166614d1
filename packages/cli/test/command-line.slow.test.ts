/** What other programs rely on: standard output, exit codes, the shape of issues, nothing half-written. */
import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { finwright, root } from './command.ts'
import { example, exampleFile, examples } from './plans.ts'

let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'finwright-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** A plan whose thrust curve lies beside it. */
function besideThrust(name: string, plan: unknown): string {
  copyFileSync(join(root, 'examples', 'demo-thrust.csv'), join(folder, 'demo-thrust.csv'))
  return planFile(name, JSON.stringify(plan))
}

const planFile = (name: string, text: string): string => {
  const file = join(folder, name)
  writeFileSync(file, text)
  return file
}

describe('assess --json', () => {
  test.each(examples)('%s: one object on standard output, nothing on standard error', (name) => {
    const { code, out, err } = finwright('assess', exampleFile(name), '--json')
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(JSON.parse(out)).toMatchObject({ format: 'finwright/assessment', version: 1 })
  })

  test('the same plan gives the same bytes', () => {
    const once = finwright('assess', exampleFile('demo'), '--json').out
    expect(finwright('assess', exampleFile('demo'), '--json').out).toBe(once)
  })
})

describe('assess in words', () => {
  test('answers on standard output, what to look at on standard error', () => {
    const { code, out, err } = finwright('assess', exampleFile('demo'))
    expect(code).toBe(0)
    expect(out).toContain('Will it hold?')
    expect(out).not.toMatch(/safe to fly/i)
    expect(err).toContain('To look at')
  })

  test('in the units of the plan', () => {
    expect(finwright('assess', exampleFile('small-us')).out).toMatch(/psi/)
    expect(finwright('assess', exampleFile('demo')).out).toMatch(/kPa/)
  })
})

describe('what the user can mend ends with code 2 and leaves standard output empty', () => {
  interface Case {
    readonly args: () => readonly string[]
    readonly codes: readonly string[]
  }
  const twoFaults = () => {
    const plan = example('demo', (demo) => {
      demo.fins.core.thickness = '3.2'
      demo.tube.outerDiameter = '-4 in'
      demo.colour = 'red'
      delete demo.fins.fillet.radius
    })
    return planFile('two-faults.fincan.json', JSON.stringify(plan))
  }
  const cases: readonly (readonly [string, Case])[] = [
    ['a missing plan', { args: () => ['assess', join(folder, 'none.json')], codes: ['plan/unreadable'] }],
    ['a folder as plan', { args: () => ['assess', folder], codes: ['plan/unreadable'] }],
    ['no JSON', { args: () => ['assess', planFile('broken.json', '{ "name": ')], codes: ['json/syntax'] }],
    ['bytes that are no text', { args: () => ['assess', binaryFile()], codes: ['plan/unreadable'] }],
    ['a wrong option', { args: () => ['assess', exampleFile('demo'), '--colour'], codes: ['cli/usage'] }],
    ['a wrong command', { args: () => ['fly', exampleFile('demo')], codes: ['cli/usage'] }],
    ['several faults', { args: () => ['assess', twoFaults()], codes: [] }],
  ]
  const binaryFile = () => {
    const file = join(folder, 'binary.json')
    writeFileSync(file, Uint8Array.of(0xff, 0xfe, 0xfd))
    return file
  }

  test.each(cases)('%s', (_, { args, codes }) => {
    const { code, out, err } = finwright(...args(), '--json')
    expect({ code, out }).toEqual({ code: 2, out: '' })
    const issues = JSON.parse(err)
    expect(issues.length).toBeGreaterThan(0)
    for (const issue of issues) {
      expect(Object.keys(issue).sort()).toEqual(['code', 'hint', 'message', 'path', 'value'])
      expect(issue.message).not.toBe('')
    }
    if (codes.length > 0) expect(issues.map((issue: { code: string }) => issue.code)).toEqual(codes)
  })

  test('several faults come all at once, each with its path', () => {
    const issues = JSON.parse(finwright('assess', twoFaults(), '--json').err)
    const paths = issues.map(({ path }: { path: string }) => path)
    expect(paths).toEqual(expect.arrayContaining(['fins.core.thickness', 'tube.outerDiameter', 'colour']))
  })

  test('in words there is no stack trace', () => {
    const { code, err } = finwright('assess', twoFaults())
    expect(code).toBe(2)
    expect(err).toContain('fins.core.thickness')
    expect(err).not.toMatch(/\n\s+at /)
  })

  test('geometry that cannot be made', () => {
    const plan = example('demo', (demo) => {
      demo.fins.fillet.radius = '120 mm'
    })
    const { code, out, err } = finwright('assess', planFile('meet.json', JSON.stringify(plan)), '--json')
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(JSON.parse(err)[0].path).not.toBe('')
  })

  test('a folder that cannot be written, and nothing is left there', () => {
    const file = planFile('in-the-way', 'a file')
    const { code, out, err } = finwright('sheets', exampleFile('demo'), '--out', join(file, 'package'))
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toContain('cannot be written')
    expect(readFileSync(file, 'utf8')).toBe('a file')
  })

  test('a print of the check square that is out of shape stops the package, with the setting to change', () => {
    const plan = example('demo', (demo) => {
      demo.printing.checkSquare = { across: '97.1 mm', along: '99.8 mm' }
    })
    const out = join(folder, 'stretched')
    const { code, err } = finwright('sheets', besideThrust('stretched.json', plan), '--out', out)
    expect(code).toBe(2)
    expect(err).toMatch(/actual size|100 %/)
    expect(existsSync(out)).toBe(false)
  })

  test('a bad plan writes no package', () => {
    const out = join(folder, 'never')
    expect(finwright('sheets', twoFaults(), '--out', out).code).toBe(2)
    expect(existsSync(out)).toBe(false)
  })
})

describe('results that are bad news are still results', () => {
  test('cloth that is short ends well, with a warning and something to buy', () => {
    const plan = example('demo', (demo) => {
      demo.stock.rolls[0].length = '1 m'
      demo.flight.thrust = [
        ['0 s', '0 N'],
        ['0.1 s', '2000 N'],
        ['2 s', '1800 N'],
        ['2.1 s', '0 N'],
      ]
    })
    const { code, out } = finwright('assess', planFile('short.json', JSON.stringify(plan)), '--json')
    expect(code).toBe(0)
    expect(JSON.parse(out).nest.buy.length).toBeGreaterThan(0)
  })
})

describe('schema and defaults', () => {
  test('the schema is JSON', () => {
    const { code, out } = finwright('schema')
    expect(code).toBe(0)
    expect(JSON.parse(out)).toHaveProperty('$schema')
  })

  test('a plan with its defaults written in assesses to the same', () => {
    const { code, out, err } = finwright('defaults', exampleFile('small-us'))
    expect(code).toBe(0)
    expect(err).toMatch(/ = /)
    const whole = planFile('whole.fincan.json', out)
    const { nest: _, ...before } = JSON.parse(finwright('assess', exampleFile('small-us'), '--json').out)
    const { nest: __, ...after } = JSON.parse(finwright('assess', whole, '--json').out)
    expect(after).toEqual(before)
  })
})

describe('how long it looks for a nest', () => {
  const nestOf = (run: { readonly out: string }) => JSON.parse(run.out).nest
  test('assess fills the cloth; thorough takes less of it, and JSON stays alone', () => {
    const quick = nestOf(finwright('assess', exampleFile('small-us'), '--json'))
    const run = finwright('assess', exampleFile('small-us'), '--json', '--nesting', 'thorough')
    expect(run.err).not.toMatch(/Nesting/)
    const thorough = nestOf(run)
    const used = ({ rolls }: typeof quick): number =>
      rolls.reduce((sum: number, roll: typeof quick) => sum + roll.usedLength_m * roll.width_m, 0)
    expect([quick.searchBudget, thorough.searchBudget > 0]).toEqual([0, true])
    expect(used(thorough)).toBeLessThan(used(quick))
  })

  test('an effort there is not is a mistake to mend', () => {
    const { code, err } = finwright('assess', exampleFile('demo'), '--nesting', 'wild')
    expect(code).toBe(2)
    expect(err).toMatch(/quick, thorough/)
  })
})

describe('the package folder', () => {
  test('holds what its list of contents names, and nothing of an earlier package', () => {
    const out = join(folder, 'package')
    const made = finwright('sheets', exampleFile('demo'), '--out', out)
    expect(made.code).toBe(0)
    expect(made.err).toMatch(/Nesting: \d+ % searched, \d+\.\d % less cloth than at first/)
    writeFileSync(join(out, 'notes.txt'), 'my own')
    const first: string[] = JSON.parse(readFileSync(join(out, 'contents.json'), 'utf8'))
    expect(first.length).toBeGreaterThan(10)
    for (const path of first) expect(existsSync(join(out, path)), path).toBe(true)
    expect(finwright('sheets', exampleFile('demo'), '--out', out, '--paper', 'a4', '--nesting', 'quick').code).toBe(0)
    const second: string[] = JSON.parse(readFileSync(join(out, 'contents.json'), 'utf8'))
    const gone = first.filter((path) => !second.includes(path))
    expect(gone.length).toBeGreaterThan(0)
    for (const path of gone) expect(existsSync(join(out, path)), path).toBe(false)
    expect(readFileSync(join(out, 'notes.txt'), 'utf8')).toBe('my own')
    expect(readdirSync(out).filter((name) => name.startsWith('.fresh'))).toEqual([])
  })
})
