/** Printers kept by name: what cannot be read is left out, what can is kept. */
import { expect, test } from 'vitest'
import { fileName, keepPrinter, pagesInWords, printers, readPrinters } from '../src/features/print/print.results.ts'

const garage = { name: 'garage', across: '99.5 mm', along: '100.1 mm' }

test('printers kept by another hand are read as far as they can be', () => {
  expect(readPrinters(null)).toEqual([])
  expect(readPrinters('{')).toEqual([])
  expect(readPrinters('{"name":"a"}')).toEqual([])
  expect(readPrinters(JSON.stringify([garage, { name: 'half' }, null, 3]))).toEqual([garage])
})

test('a printer measured again takes the place of what it was', () => {
  keepPrinter(garage)
  keepPrinter({ ...garage, name: 'attic' })
  keepPrinter({ ...garage, across: '99.8 mm' })
  expect(printers.get().map(({ name, across }) => `${name} ${across}`)).toEqual(['attic 99.5 mm', 'garage 99.8 mm'])
})

test('words', () => {
  expect([pagesInWords(1), pagesInWords(24)]).toEqual(['1 page', '24 pages'])
  expect(fileName('a4/03-bay-map.pdf')).toBe('03-bay-map.pdf')
})
