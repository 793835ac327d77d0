/**
 * Duty cycle of the control pilot and the current it offers.
 *
 * Source: [iec61851-1] Annex A, as tabulated in a public test-instrument manual.
 *
 * @module
 */

/** Least current the pilot can offer; below it a car does not charge. [A] */
export const LEAST_PILOT_A = 6;

export type PilotOffer =
  | { readonly kind: "current"; readonly currentA: number }
  /** 5 %: the current is agreed by digital communication. */
  | { readonly kind: "digital" }
  | { readonly kind: "none"; readonly because: "error" | "not-ready" | "out-of-range" };

/** What a duty cycle offers. @param dutyPercent 0 to 100. [%] */
export function pilotOffer(dutyPercent: number): PilotOffer {
  const current = (currentA: number): PilotOffer => ({ kind: "current", currentA });
  if (dutyPercent === 100) return { kind: "none", because: "not-ready" };
  if (dutyPercent < 3) return { kind: "none", because: "error" };
  if (dutyPercent >= 4.5 && dutyPercent <= 5.5) return { kind: "digital" };
  if (dutyPercent >= 7 && dutyPercent < 8) return { kind: "none", because: "error" };
  if (dutyPercent >= 8 && dutyPercent < 10) return current(LEAST_PILOT_A);
  if (dutyPercent >= 10 && dutyPercent <= 85) return current(dutyPercent * 0.6);
  if (dutyPercent > 85 && dutyPercent <= 96) return current((dutyPercent - 64) * 2.5);
  if (dutyPercent > 96 && dutyPercent <= 97) return current(80);
  return { kind: "none", because: "out-of-range" };
}

/**
 * Duty cycle that offers a current. [%]
 *
 * The two straight lines do not meet: between 51 and 52.5 A it offers up to 1.5 A less than asked.
 *
 * @param currentA 6 to 80. [A]
 */
export const pilotDutyPercent = (currentA: number): number =>
  currentA <= 51 ? currentA / 0.6 : currentA / 2.5 + 64;
