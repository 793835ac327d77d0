import { describe, expect, it } from "vitest";
import { faultyChain } from "./apply-faults.ts";
import type { Fault } from "./fault.ts";
import { ModelRegister } from "./model-register.ts";
import { observationModel } from "./observation-model.ts";

const modelOf = (faults: readonly Fault[], car: { carSd?: number; carLineSd?: number } = {}) =>
  observationModel(
    faultyChain(3, faults),
    faults.map((fault) => ({ fault, weight: 1, ...car })),
    { gainSd: 0.01, angleSd: 0.01 },
  );

describe("ModelRegister", () => {
  it("keeps one of two models that are equal, and both of two that differ", () => {
    const register = new ModelRegister();
    const turned = register.of(modelOf([{ id: "F01", channels: [1] }]));
    expect(register.of(modelOf([{ id: "F01", channels: [1] }]))).toBe(turned);
    expect(register.of(modelOf([{ id: "F01", channels: [2] }])).model).not.toBe(turned.model);
  });

  it("gives models that differ in the car alone the same number, and no others", () => {
    const register = new ModelRegister();
    const sound = register.of(modelOf([]));
    const exchanged = register.of(modelOf([{ id: "F46", order: [2, 1, 3] }]));
    const less = register.of(modelOf([{ id: "F65", shares: [1, 0, 1] }]));
    const looser = register.of(modelOf([{ id: "F65", shares: [1, 0, 1] }], { carSd: 0.3 }));
    const uneven = register.of(modelOf([{ id: "F65", shares: [1, 0, 1] }], { carLineSd: 0.3 }));
    expect(new Set([sound, exchanged, less, looser, uneven].map(({ model }) => model)).size).toBe(5);
    expect(new Set([sound, exchanged, less, looser, uneven].map(({ idle }) => idle)).size).toBe(1);
    expect(register.of(modelOf([{ id: "F29", factor: 0.5 }])).idle).not.toBe(sound.idle);
  });

  it("gives a broken neutral a number of its own: its star point moves with the car", () => {
    const register = new ModelRegister();
    const sound = register.of(modelOf([]));
    expect(register.of(modelOf([{ id: "F17" }])).idle).not.toBe(sound.idle);
  });
});
