/**
 * Complex numbers for phasors: rms magnitude, angle in radians, rectangular parts.
 *
 * Signs: S = V · conj(I); import is positive; lagging reactive power is positive.
 * Time-critical loops keep the two parts in typed arrays instead; see `circuits/four-wire-flow.ts`.
 *
 * @module
 */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const complex = (re: number, im = 0): Complex => ({ re, im });
export const polar = (magnitude: number, angleRad: number): Complex => ({
  re: magnitude * Math.cos(angleRad),
  im: magnitude * Math.sin(angleRad),
});
export const add = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
export const subtract = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im });
export const multiply = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});
export const divide = (a: Complex, b: Complex): Complex => {
  const size = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / size, im: (a.im * b.re - a.re * b.im) / size };
};
export const conjugate = (a: Complex): Complex => ({ re: a.re, im: -a.im });
export const magnitude = (a: Complex): number => Math.hypot(a.re, a.im);
