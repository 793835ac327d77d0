import { given, type LocatedFact } from "../job/index.ts";
import type { Study } from "../rules/index.ts";
import type { SimulationFigure } from "../simulation/index.ts";
import { isKnown, type Missing, type Quantity } from "../worked/index.ts";

/** Takes a number from a fact, or from the figure that stands in for it, and remembers which. */
export class Choices {
  readonly rests: Quantity[] = [];
  readonly missing: Missing[] = [];
  readonly #figures: Study["figures"];

  constructor(figures: Study["figures"]) {
    this.#figures = figures;
  }

  take(quantity: Quantity): number {
    if (isKnown(quantity)) {
      this.rests.push(quantity);
      return quantity.value;
    }
    this.missing.push(...quantity.missing);
    return Number.NaN;
  }

  figure(name: SimulationFigure): number {
    return this.take(this.#figures(name));
  }

  fact(fact: LocatedFact<number> | undefined, otherwise: SimulationFigure): number {
    if (fact?.state === "known") return this.take(given(fact, this.#figures(otherwise).symbol));
    return this.figure(otherwise);
  }
}
