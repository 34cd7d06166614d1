/**
 * Whether the resin and hardener in stock last for all bays of all cans.
 *
 * Of a stock of R resin and K hardener, of which the share u can be got out of the containers, at most
 *
 *   M = u min( R (1 + h), K (1 + h)/h )
 *
 * can be mixed at the ratio h. Every session takes its mix; the reserve for practice panels is put aside first. The
 * ratio is never stretched to make a kit last.
 */
import type { Issue } from '../issue.ts'
import { mixedMass } from './mixing.ts'

export interface KitInput {
  /** Resin and hardener in stock; `usable` share of them; `reserve` of mixed resin for practice panels. */
  readonly stock: {
    readonly resin: number
    readonly hardener: number
    readonly usable: number
    readonly reserve: number
  }
  readonly hardenerPerResin: number
  /** Mixed for one session, which is one bay. */
  readonly sessionMix: number
  readonly baysPerCan: number
  readonly cans: number
}

export interface Kit {
  readonly sessions: number
  /** Of mixed resin, with the reserve. */
  readonly needed: number
  readonly usable: number
  /** 0 when the kit lasts. */
  readonly short: number
  readonly limitedBy: 'resin' | 'hardener'
  /** Whole cans that the stock covers after the reserve. */
  readonly cansCovered: number
  /** To buy, so that the usable share of it makes up what is missing. */
  readonly buy: { readonly resin: number; readonly hardener: number }
}

/** The last bits of a ratio decide nothing. */
const roundOff = 1e-9

export function kit({ stock, hardenerPerResin: h, sessionMix, baysPerCan, cans }: KitInput): Kit {
  const sessions = baysPerCan * cans
  const needed = sessions * sessionMix + stock.reserve
  const byResin = stock.usable * stock.resin * (1 + h)
  const byHardener = (stock.usable * stock.hardener * (1 + h)) / h
  const usable = Math.min(byResin, byHardener)
  const covered = Math.floor((usable - stock.reserve) / (baysPerCan * sessionMix) + roundOff)
  const wanted = mixedMass(needed, h)
  const lack = (need: number, held: number): number => Math.max(0, need / stock.usable - held)
  return {
    sessions,
    needed,
    usable,
    short: Math.max(0, needed - usable),
    limitedBy: byHardener < byResin * (1 - roundOff) ? 'hardener' : 'resin',
    cansCovered: Math.min(cans, Math.max(0, covered)),
    buy: { resin: lack(wanted.resin, stock.resin), hardener: lack(wanted.hardener, stock.hardener) },
  }
}

export function kitWarnings(input: KitInput, { needed, usable, short, limitedBy, cansCovered, buy }: Kit): Issue[] {
  if (short === 0) return []
  const perCan = input.baysPerCan * input.sessionMix
  const later =
    cansCovered > 0
      ? `or lay up ${cansCovered} of ${input.cans} cans now (${g(cansCovered * perCan + input.stock.reserve)} with the ` +
        `reserve) and the rest later from the same lots`
      : `or leave it: the stock does not cover one can (${g(perCan + input.stock.reserve)} with the reserve)`
  return [
    {
      code: 'resin/kit-short',
      path: `stock.${limitedBy}`,
      value: input.stock[limitedBy],
      message:
        `The kit is short by ${g(short)} of mixed resin: ${g(needed)} is needed, the ${limitedBy} in stock makes ` +
        `${g(usable)} at ${Math.round(100 * input.stock.usable)} % usable.`,
      hint:
        `Before the first mix buy ${g(buy.resin)} resin and ${g(buy.hardener)} hardener, ${later}. ` +
        `Never stretch the ratio or thin the wet-out.`,
    },
  ]
}

const g = (mass: number): string => `${(1e3 * mass).toFixed(0)} g`
