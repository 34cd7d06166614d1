import { describe, expect, test } from 'vitest'
import { readTable } from '../src/csv/table.ts'

const columns = [
  { field: 'flight.thrust[][0]', headings: ['time', 't'], rising: true },
  { field: 'flight.thrust[][1]', headings: ['thrust', 'force'] },
] as const
const read = (text: string) => readTable({ name: 'motor.csv', path: 'flight.thrust', text }, columns)

describe('one table, however it is written', () => {
  const expected = [
    [0, 0.5, 1],
    [0, 100, 0],
  ]
  test.each([
    ['plain', 'time (s),thrust (N)\n0,0\n0.5,100\n1,0\n'],
    ['columns the other way round', 'thrust (N),time (s)\n0,0\n100,0.5\n0,1'],
    ['square brackets, capitals, a column more', 'Time [s], Note, THRUST [N]\n0,start,0\n0.5,,100\n1,end,0'],
    ['semicolons', 'time (s);thrust (N)\n0;0\n0.5;100\n1;0'],
    ['tabs', 'time (s)\tthrust (N)\n0\t0\n0.5\t100\n1\t0'],
    ['other units', 'time (ms),thrust (kN)\n0,0\n500,0.1\n1000,0'],
    [
      'remarks, blank lines, Windows line ends, a mark of byte order',
      '\uFEFF# a remark\r\ntime (s),thrust (N)\r\n\r\n0,0\r\n# more\r\n5e-1,1.0e2\r\n1,0\r\n',
    ],
    ['quotes', '"time (s)","thrust (N)"\n"0","0"\n"0.5","100"\n"1","0"'],
  ])('%s', (_, text) => {
    const table = read(text)
    expect(table.issues).toEqual([])
    expect(table.columns).toEqual(expected)
  })

  test('a pound-force is converted exactly', () => {
    expect(read('time (s),thrust (lbf)\n0,0\n1,1\n').columns![1]![1]).toBe(4.4482216152605)
  })
})

describe('what is wrong is told with its line', () => {
  test('blank lines and remarks count as lines', () => {
    const { issues } = read('# one\n\ntime (s),thrust (N)\n0,0\n\n # two\n1,x\n')
    expect(issues.map(({ message }) => message.split(' is ')[0])).toEqual(["motor.csv: line 7, column 'thrust (N)'"])
  })

  test('decimal commas are recognised', () => {
    const { issues } = read('time (s);thrust (N)\n0;0\n0,5;1\n')
    expect(issues[0]).toMatchObject({ code: 'csv/not-a-number', value: '0,5', hint: 'Use a point for decimals.' })
  })

  test('a cell too many, a value out of bounds, an unknown unit', () => {
    const codes = (text: string) => read(text).issues.map(({ code }) => code)
    expect(codes('time (s),thrust (N)\n0,0,0\n1,0\n')).toEqual(['csv/extra-cell'])
    expect(codes('time (s),thrust (N)\n0,-5\n1,0\n')).toEqual(['csv/out-of-range'])
    expect(codes('time (fortnights),thrust (N)\n0,0\n1,0\n')).toEqual(['csv/unknown-unit'])
  })

  test('after twenty, the rest are counted', () => {
    const rows = Array.from({ length: 50 }, (_, i) => `${i},x`).join('\n')
    const { issues } = read(`time (s),thrust (N)\n${rows}\n`)
    expect(issues).toHaveLength(21)
    expect(issues.at(-1)).toMatchObject({ code: 'csv/more', value: 30 })
  })
})
