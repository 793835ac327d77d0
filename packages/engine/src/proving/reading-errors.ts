/**
 * How far a reading may lie from what its hypothesis expects. All by own judgement, from the classes of
 * meters and transformers and from how cars behave, unless said otherwise.
 */

/** Relative standard deviations: what a car draws against its offer, its own meter, a known load, a clamp. */
export const OFFERED_CAR_SD = 0.04;
export const MEASURED_CAR_SD = 0.015;
export const LOAD_SD = 0.06;
export const LOAD_VAR_SD = 0.03;
export const CLAMP_SD = 0.02;
/** Least error of a clamp, and of what it is closed on. [A] */
export const CLAMP_FLOOR = 0.2;
/** Reactive over active power of a car: usual, from car to car, and from step to step of one car. */
export const CAR_TAN = 0.05;
export const CAR_TAN_SD = 0.04;
export const CAR_TAN_WANDER = 0.01;
/** Reactive over active power of what a total hides. */
export const TYPICAL_TAN = 0.3;
/** Current a feed beside the meter may carry. [A] */
export const HIDDEN_A = 20;
/** A current beside no voltage and no power: it follows from neither. [A] */
export const UNRELATED_A = 25;
/** Errors from reading to reading: relative (squared), and at the low end. [1], [W], [A] */
export const RANDOM_VAR = 0.005 ** 2;
export const POWER_FLOOR = 15;
export const CURRENT_FLOOR = 0.08;
/** By how much one meter's own current, voltage and powers may disagree at the low end. [A] */
export const IDENTITY_FLOOR = 0.02;
/** Relative, squared, of a supply whose voltage nobody read. */
export const UNREAD_VOLTAGE_VAR = 0.02 ** 2;
/** A supply's voltage moves by this from step to step, with what the site draws. [V] */
export const VOLTAGE_DRIFT = 3;
/** A loose terminal, while it is bad, passes this share of its current, give or take. [1] */
export const LOOSE_SHARE = 0.6;
export const LOOSE_SHARE_SD = 0.25;
/** Share of steps in which a loose terminal is bad. */
export const LOOSE_OFTEN = 0.5;
