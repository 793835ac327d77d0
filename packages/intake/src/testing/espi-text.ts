/** A feed of one meter, as an exporter of Green Button data writes it, with values of our own. */
export function espiText(
  readings: readonly { readonly startS: number | null; readonly value: number; readonly quality?: number }[],
  type: Readonly<Record<string, number>>,
  block: { readonly startS: number; readonly durationS: number } = { startS: 0, durationS: 0 },
): string {
  const fields = Object.entries(type).map(([name, value]) => `<espi:${name}>${value}</espi:${name}>`);
  const intervals = readings.map(
    ({ startS, value, quality }) => `
      <espi:IntervalReading>${
        startS === null
          ? ""
          : `
        <espi:timePeriod><espi:duration>${type.intervalLength ?? 1800}</espi:duration><espi:start>${startS}</espi:start></espi:timePeriod>`
      }
        ${quality === undefined ? "" : `<espi:ReadingQuality><espi:quality>${quality}</espi:quality></espi:ReadingQuality>`}
        <espi:value>${value}</espi:value>
      </espi:IntervalReading>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>
<feed xmlns="http://www.w3.org/2005/Atom" xmlns:espi="http://naesb.org/espi">
  <title>Usage</title>
  <entry>
    <link rel="self" href="/UsagePoint/1/MeterReading/01"/>
    <link rel="related" href="/UsagePoint/1/MeterReading/01/IntervalBlock"/>
    <link rel="related" href="/ReadingType/07"/>
    <content><espi:MeterReading/></content>
  </entry>
  <entry>
    <link rel="self" href="/LocalTimeParameters/01"/>
    <content><espi:LocalTimeParameters>
      <espi:dstEndRule>AE0E2000</espi:dstEndRule><espi:dstOffset>3600</espi:dstOffset>
      <espi:dstStartRule>3E0E1000</espi:dstStartRule><espi:tzOffset>0</espi:tzOffset>
    </espi:LocalTimeParameters></content>
  </entry>
  <entry>
    <link rel="self" href="/UsagePoint/1/MeterReading/01/IntervalBlock/173"/>
    <link rel="up" href="/UsagePoint/1/MeterReading/01/IntervalBlock"/>
    <content><espi:IntervalBlock>
      <espi:interval><espi:duration>${block.durationS}</espi:duration><espi:start>${block.startS}</espi:start></espi:interval>${intervals.join("")}
    </espi:IntervalBlock></content>
  </entry>
  <entry>
    <link rel="self" href="/ReadingType/07"/>
    <content><espi:ReadingType>${fields.join("")}</espi:ReadingType></content>
  </entry>
</feed>
`;
}

/** Energy of half-hours taken in, in Wh. */
export const HALF_HOURS = {
  accumulationBehaviour: 4,
  flowDirection: 1,
  intervalLength: 1800,
  powerOfTenMultiplier: 0,
  uom: 72,
} as const;
