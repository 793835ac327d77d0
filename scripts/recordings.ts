import { espiText, HALF_HOURS } from "../packages/intake/src/testing/espi-text.ts";
import { truth, wideByPeriods } from "../packages/intake/src/testing/written-shapes.ts";

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A year of half-hours, 17 520, one row a day, both clock changes in it. */
export const halfHourRows = (): Uint8Array =>
  bytesOf(wideByPeriods(truth("2023-01-01T00:00:00Z", 365), "Europe/London"));

/** The same number of half-hours as Green Button XML. */
export const halfHourXml = (): Uint8Array => {
  const { startMs, stepS, values } = truth("2023-01-01T00:00:00Z", 365);
  return bytesOf(
    espiText(
      values.map((value, at) => ({ startS: startMs / 1000 + at * stepS, value: Math.round(value * 1000) })),
      HALF_HOURS,
    ),
  );
};

/** As many minutes as the whole of [household-minute] has, 2 075 259, laid out like it. */
export function minuteRows(): Uint8Array {
  const fromMs = Date.UTC(2006, 11, 16, 17, 24);
  const pieces = [
    "Date;Time;Global_active_power;Global_reactive_power;Voltage;Global_intensity;Sub_metering_1;Sub_metering_2;Sub_metering_3",
  ];
  for (let minute = 0; minute < 2_075_259; minute++) {
    const [date = "", time = ""] = new Date(fromMs + minute * 60_000).toISOString().split(/[T.]/);
    const [year, month, day] = date.split("-");
    const currentA = ((minute * 7919) % 4001) / 100;
    pieces.push(
      `${day}/${month}/${year};${time};${(currentA * 0.234).toFixed(3)};0.418;234.840;${currentA.toFixed(3)};0.000;1.000;17.000`,
    );
  }
  return bytesOf(pieces.join("\n"));
}
