import { drawNormal, type RandomStream } from "../../chance/index.ts";
import type { HeatPumpHabit } from "./appliances.ts";
import type { DayCurve } from "./day-curve.ts";
import type { HouseHeatPump } from "./household.ts";
import { winterness } from "./season.ts";

const HOUR_S = 3600;

/** Outdoor temperature of a day: the season, and a weather that all sites of its number share. [°C] */
export const outdoorC = (
  random: RandomStream,
  habit: HeatPumpHabit,
  { weather, day }: { readonly weather: number; readonly day: number },
): number =>
  habit.meanC -
  habit.swingC * winterness(day) +
  habit.spreadK * drawNormal(random.start("weather", { site: weather, day }));

/**
 * Adds a heat pump's day: in each hour one run, as long as the hour's share of the heat asks for, at most the hour.
 *
 * @param random Stands in the household's own stream of that day.
 */
export function addHeatPump(
  curve: DayCurve,
  heatPump: HouseHeatPump,
  place: { readonly random: RandomStream; readonly temperatureC: number },
): void {
  const wantedW = (Math.max(0, heatPump.baseC - place.temperatureC) * heatPump.energyPerKelvinDayWh) / 24;
  if (wantedW === 0) return;
  const inputVar = Math.round(heatPump.inputW * Math.sqrt(1 / heatPump.powerFactor ** 2 - 1));
  for (let hour = 0; hour < 24; hour++) {
    const share = (wantedW * (heatPump.hourShares[hour] as number)) / heatPump.inputW;
    const runS = Math.round(HOUR_S * Math.min(1, share));
    const fromS = hour * HOUR_S + Math.floor(place.random.uniform() * (HOUR_S - runS));
    curve.add(fromS, runS, heatPump.inputW, inputVar);
  }
}
