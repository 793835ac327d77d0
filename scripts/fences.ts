/**
 * The import fences, as rules of dependency-cruiser; fences.test.ts holds the tree to them.
 *
 * Inside the engine arrows point one way:
 * quantities → chance → worked → job → supply → { circuits, demand, earthing, limiter, metering, protection } → { fitting, portfolio, proving, simulation } → rules → through-time → present.
 */
const ENGINE = "^packages/engine/src";
const ORDER = [
  "quantities",
  "chance",
  "worked",
  "job",
  "supply",
  "(circuits|demand|earthing|limiter|metering|protection)",
  "(fitting|portfolio|proving|simulation)",
  "rules",
  "through-time",
  "present",
];
const TEST = "(\\.test\\.ts$|/testing/)";

const laterThan = (place: number) => ORDER.slice(place + 1).join("|");

export const FENCES = {
  forbidden: [
    { name: "no-circles", severity: "error", from: {}, to: { circular: true } },
    {
      name: "engine-imports-itself-and-zod",
      severity: "error",
      from: { path: ENGINE, pathNot: TEST },
      to: { pathNot: `(${ENGINE}|node_modules/zod/)` },
    },
    ...ORDER.slice(0, -1).map((name, place) => ({
      name: `arrows-point-one-way-from-${name}`,
      severity: "error",
      from: { path: `${ENGINE}/${name}/`, pathNot: TEST },
      to: { path: `${ENGINE}/(${laterThan(place)})/` },
    })),
    {
      name: "subjects-side-by-side-do-not-know-each-other",
      severity: "error",
      from: { path: `${ENGINE}/(circuits|demand|earthing|limiter|metering|protection)/`, pathNot: TEST },
      to: {
        path: `${ENGINE}/(circuits|demand|earthing|limiter|metering|protection)/`,
        pathNot: `${ENGINE}/$1/`,
      },
    },
    {
      name: "subjects-meet-at-their-index",
      severity: "error",
      from: { path: `${ENGINE}/([^/]+)/`, pathNot: TEST },
      to: { path: `${ENGINE}/[^/]+/`, pathNot: [`${ENGINE}/$1/`, `${ENGINE}/[^/]+/index\\.ts$`] },
    },
    {
      name: "tests-help-tests-only",
      severity: "error",
      from: { pathNot: TEST },
      to: { path: "/testing/" },
    },
    {
      name: "knowledge-takes-types-of-the-engine",
      severity: "error",
      from: { path: "^packages/knowledge/src", pathNot: TEST },
      to: { pathNot: "^packages/knowledge/src", dependencyTypesNot: ["type-only"] },
    },
    {
      name: "intake-imports-itself-the-engine-and-an-xml-reader",
      severity: "error",
      from: { path: "^packages/intake/src", pathNot: TEST },
      to: { pathNot: "(^packages/(intake|engine)/src|node_modules/saxes/)" },
    },
    {
      name: "only-shells-import-intake",
      severity: "error",
      from: { pathNot: `(^packages/(intake|cli)/|${TEST})` },
      to: { path: "^packages/intake/" },
    },
    {
      name: "nobody-imports-a-shell",
      severity: "error",
      from: { pathNot: "^packages/cli/" },
      to: { path: "^packages/cli/" },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "types", "default"] },
  },
};
