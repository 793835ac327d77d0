import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { blankJob } from "../../job/blank.ts";
import { assess } from "../../rules/index.ts";
import { assessedExample, EXAMPLES } from "../../testing/examples.ts";
import { changed } from "../../testing/findings.ts";
import { opened } from "../../testing/sketch.ts";
import { assessmentView } from "../assessment-view.ts";
import { escapeMarkup } from "../escape.ts";
import { reportHtml } from "./report.ts";

/** The one address in a report: a name, not a place anything is fetched from. */
const SVG_NAMESPACE = "http://www.w3.org/2000/svg";
const inputs = { onIso: "2026-11-25", series: new Map() };

describe("reportHtml", () => {
  it.each(EXAMPLES)("%s: the same bytes twice, nothing from outside, no script", (name) => {
    const html = reportHtml(assessedExample(name));
    expect(html).toBe(reportHtml(assessedExample(name)));
    expect(html).not.toMatch(/<script|<link|<img|<iframe|@import|url\(/i);
    expect(html).not.toMatch(/<[^<>]*\s(on\w+|src|srcset)=/i);
    const addresses = (html.match(/https?:[^"'\s]*/g) ?? []).filter((at) => at !== SVG_NAMESPACE);
    expect(addresses).toEqual([]);
  });
  it.each(EXAMPLES)("%s: every finding is there with its sentence, working and source", (name) => {
    const assessment = assessedExample(name);
    const html = reportHtml(assessment);
    for (const { findings } of assessmentView(assessment).stages) {
      for (const view of findings) {
        expect(html).toContain(`id="${view.id}"`);
        expect(html).toContain(escapeMarkup(view.sentence));
        for (const line of view.working) expect(html).toContain(escapeMarkup(line.equation));
      }
    }
  });
  it("closes every element it opens, and gives each id once", () => {
    const html = reportHtml(assessedExample("village-hall"));
    const open: string[] = [];
    for (const [, slash, name = "", selfClosing] of html.matchAll(
      /<(\/?)([a-z][a-z0-9]*)(?:\s[^<>]*?)?(\/?)>/gi,
    )) {
      if (["meta", "br"].includes(name) || selfClosing === "/") continue;
      if (slash === "/") expect(open.pop(), `closing ${name}`).toBe(name);
      else open.push(name);
    }
    expect(open).toEqual([]);
    const ids = [...html.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
  });
  it("prints on A4 with margins, and keeps no long thing from breaking", () => {
    const html = reportHtml(assessedExample("terraced-house"));
    expect(html).toMatch(/@page \{ size: A4; margin: [\d.]+mm [^}]*\}/);
    expect(html).toContain("svg { break-inside: avoid; }");
    expect(html).not.toMatch(/figure[^{]*\{ break-inside: avoid/);
    // A step of a working holds all its inputs: kept whole it would leave pages half empty.
    expect(html).toContain(".working li:not(:has(ul)) { break-inside: avoid; }");
  });
  it("says why nothing was run through time, as text", () => {
    const html = reportHtml(assessedExample("village-hall"), { notSimulated: "Record <L1>." });
    expect(html).toContain('<section id="through-time">');
    expect(html).toContain("Not simulated: Record &lt;L1&gt;.");
  });
  it("shows text of the job as text", () => {
    const html = reportHtml(
      assess(
        opened(changed({ title: '"><script>alert(1)</script>', "nodes[house].label": "<b>" })),
        GREAT_BRITAIN,
        inputs,
      ),
    );
    expect(html).not.toContain("<script>");
    expect(html).not.toContain("<b>,");
  });
  it("stands for a job of which nothing is known", () => {
    const html = reportHtml(
      assess(
        opened(blankJob({ id: "b", title: "Blank", jurisdiction: "england", phases: 1 })),
        GREAT_BRITAIN,
        inputs,
      ),
    );
    expect(html).toContain("cannot be made yet");
  });
});

describe("assessmentView", () => {
  it("puts a danger first, whatever else there is", () => {
    const { known } = { known: (value: unknown) => ({ state: "known", value, basis: "seen-on-site" }) };
    const job = changed({ "supply.serviceConcerns": known(["exposed-live-metal"]) });
    const { headline } = assessmentView(assess(opened(job), GREAT_BRITAIN, inputs));
    expect(headline).toMatchObject({ tone: "stop", title: expect.stringContaining("exposed live metal") });
  });
  it("names what fails", () => {
    expect(assessmentView(assessedExample("farmhouse")).headline).toMatchObject({
      tone: "fail",
      title: expect.stringContaining("One check fails: voltage drop"),
    });
  });
  it("passes a sound job without reserve in the headline, and still lists what it rests on", () => {
    const view = assessmentView(assess(opened(changed({})), GREAT_BRITAIN, inputs));
    expect(view.headline).toMatchObject({ tone: "pass", title: "Every check that applies passes." });
    expect(view.missingNow).toEqual([]);
    expect(view.unchecked.length).toBeGreaterThan(10);
  });
  it("asks for tests after the work, not before it", () => {
    const { missingNow, missingLater } = assessmentView(assessedExample("terraced-house"));
    expect(missingNow.map(({ path }) => path)).toEqual([
      "demand.recordings",
      "supply.operator.answer",
      "nodes[car-way].discriminatesUpToA",
      "metering.meterBurdenVa",
    ]);
    expect(missingLater.map(({ path }) => path)).toContain("tests.circuits[car-way].zsOhm");
  });
  it("tells how to find out each missing fact", () => {
    for (const name of EXAMPLES) {
      const { missingNow, missingLater } = assessmentView(assessedExample(name));
      for (const { path, ask } of [...missingNow, ...missingLater]) expect(ask, path).not.toBe("");
    }
  });
});
