/**
 * Exponential approximation of the kernel's integrand, "D12.1":
 *
 *   1 − u / sqrt(1 + u²) ≈ Σ_{n=1…12} a_n exp(−b 2ⁿ u)          u ≥ 0, |error| < 2.6e-5
 *
 * Source: Desmarais, An accurate and efficient method for evaluating the kernel of the integral equation relating pressure to
 * normalwash in unsteady potential flow, AIAA Paper 82-0687 (1982) (digits read in second-hand quotations that agree; the test
 * confirms the stated error against the function itself).
 */
export const exponentialFit = {
  b: 0.009_054_814_793,
  a: [
    0.000_319_759_14, -0.000_055_461_471, 0.002_726_074_362, 0.005_749_551_566, 0.031_455_895_072, 0.106_031_126_212,
    0.406_838_011_567, 0.798_112_357_155, -0.417_749_229_098, 0.077_480_713_894, -0.012_677_284_771, 0.001_787_032_96,
  ],
} as const
