/**
 * Knock-down factors of the conservative envelope, on speed, and the Mach numbers between which they pass into each other.
 *
 * They are design values chosen here, below published ratios of test to linear theory; no standard prescribes them.
 */

/**
 * On the subsonic lifting surface up to `subsonicEnd`. Linear theory against test, AGARD 445.6 (Yates, AGARD R-765, 1985): 0.5 to 2.7 %
 * high with the published frequencies imposed, 4.4 to 7.7 % from material data: 1/1.077 = 0.93, rounded down.
 */
export const subsonicFactor = 0.9

/**
 * On the subsonic value frozen at `frozenSubsonic` and on the supersonic one frozen at `frozenSupersonic`. The flutter index of AGARD
 * 445.6 falls from 0.3700 at Mach 0.901 to 0.3059 at 0.954 (AGARD R-765): 0.827, which over 1.077 is 0.768, rounded down. One wing; the
 * depth of the dip of another section is not known.
 */
export const transonicFactor = 0.75

/**
 * On the supersonic surface with thickness, from `supersonicStart` on. Published lifting surface with thickness on the bevelled plate of
 * NASA TN D-1824 at Mach 1.3: 1428.5 ft/s; test 1280 ft/s (recalled): 1/1.116 = 0.896, rounded down for the second test there is not.
 */
export const supersonicFactor = 0.85

/** On second-order piston theory from `pistonEnd` on: no test at hand, the surface's factor is taken. */
export const pistonFactor = supersonicFactor

/** Up to here the subsonic value of the point's own Mach number, with its own factor. */
export const subsonicEnd = 0.8
/** The Mach number at which the subsonic value is frozen for every higher one. */
export const frozenSubsonic = 0.9
/** From here the transonic factor holds in full. */
export const transonicStart = 0.95
/** Up to here it holds; the supersonic value of lower Mach numbers is frozen here. */
export const frozenSupersonic = 1.2
/** From here on the supersonic surface alone counts, with its own factor. */
export const supersonicStart = 1.5
/** The piston value comes in between these. */
export const pistonStart = 2
export const pistonEnd = 2.4
