/** The report's own style sheet: narrow screens first, light and dark, and paper. */
export const STYLE = `
:root { color-scheme: light dark;
  --paper: #fff; --ink: #1b1b1b; --soft: #595959; --line: #c9c9c9; --panel: #f4f4f2;
  --pass: #1c6b33; --fail: #a3161d; --unknown: #7a4b00; --focus: #0b4f9e; }
@media (prefers-color-scheme: dark) { :root {
  --paper: #141414; --ink: #ececec; --soft: #b0b0b0; --line: #454545; --panel: #212121;
  --pass: #7fd396; --fail: #ff9a94; --unknown: #f0c274; --focus: #9cc7ff; } }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; padding: 1rem; max-width: 46rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.5 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.35rem; line-height: 1.25; margin: 0 0 .25rem; }
h2 { font-size: 1.15rem; margin: 2rem 0 .5rem; border-bottom: 2px solid var(--ink); padding-bottom: .2rem; }
h3 { font-size: 1rem; margin: 1rem 0 .25rem; }
p { margin: .4rem 0; }
.soft { color: var(--soft); font-size: .875rem; }
a { color: var(--focus); }
:focus-visible { outline: 3px solid var(--focus); outline-offset: 2px; }
nav ul { list-style: none; padding: 0; margin: .75rem 0; display: flex; flex-wrap: wrap; gap: .25rem 1rem; }
nav a { display: inline-block; padding: .5rem 0; }
.headline { border-left: .5rem solid var(--ink); background: var(--panel); padding: .75rem 1rem; margin: 1rem 0; }
.headline strong { display: block; font-size: 1.15rem; line-height: 1.35; }
.headline.fail, .headline.stop { border-color: var(--fail); }
.headline.unknown { border-color: var(--unknown); }
.headline.pass { border-color: var(--pass); }
.counts { display: flex; flex-wrap: wrap; gap: .25rem 1.25rem; padding: 0; margin: .5rem 0 0; list-style: none; }
.mark { display: inline-block; min-width: 1.4em; font-weight: 700; text-align: center; }
.pass > .mark, .pass > summary .mark { color: var(--pass); }
.fail > .mark, .fail > summary .mark { color: var(--fail); }
.cannot-tell > .mark, .cannot-tell > summary .mark { color: var(--unknown); }
details { border-bottom: 1px solid var(--line); }
summary { cursor: pointer; padding: .65rem 0; display: grid; grid-template-columns: 1.8em 1fr auto; column-gap: .4em; list-style: none; }
summary::-webkit-details-marker { display: none; }
summary .what { display: block; font-weight: 600; }
summary .action { font-weight: 700; }
summary::after { content: "open"; grid-column: 3; color: var(--soft); font-size: .8rem; }
details[open] > summary::after { content: "close"; }
.body { padding: 0 0 1rem 1.8em; }
.body h4 { font-size: .875rem; margin: .75rem 0 .15rem; }
.working, .working ul { list-style: none; margin: 0; padding: 0; }
.working ul { margin-left: .4rem; padding-left: .7rem; border-left: 1px solid var(--line); }
.working li { margin: .35rem 0; }
.equation { font-family: ui-monospace, monospace; font-weight: 600; }
.formula { font-family: ui-monospace, monospace; font-size: .875rem; display: block; }
.ask { margin: .6rem 0; padding-left: 2rem; }
.ask > li { margin: .6rem 0; }
.ask b { display: block; }
.options { display: grid; gap: .75rem; grid-template-columns: repeat(auto-fit, minmax(min(100%, 15rem), 1fr)); padding: 0; list-style: none; }
.options li { border: 1px solid var(--line); padding: .75rem; background: var(--panel); }
dl { margin: .4rem 0; display: grid; grid-template-columns: auto 1fr; gap: .1rem .75rem; }
dt { color: var(--soft); } dd { margin: 0; }
.supply { display: block; width: 100%; max-width: 30rem; height: auto; }
.told { list-style: none; padding: 0; }
.told li { display: grid; grid-template-columns: 1.4em 1fr; }
.outline { list-style: none; padding: 0; font-size: .9rem; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; font-size: .9rem; overflow-wrap: normal; }
th, td { text-align: left; vertical-align: top; padding: .3rem .6rem .3rem 0; border-bottom: 1px solid var(--line); }
@media (max-width: 26rem) { th, td { padding-right: .35rem; font-size: .8125rem; } }
figure { margin: 0 0 1rem; max-width: 34rem; }
.plot { width: 100%; height: auto; }
footer { margin-top: 2.5rem; border-top: 2px solid var(--ink); padding-top: .75rem; }
@page { size: A4; margin: 16mm 15mm 18mm; }
@media print {
  :root { --paper: #fff; --ink: #000; --soft: #333; --line: #888; --panel: #fff; --pass: #000; --fail: #000; --unknown: #000; }
  body { max-width: none; padding: 0; font-size: 9.5pt; }
  nav { display: none; }
  details::details-content { content-visibility: visible; block-size: auto; }
  summary::after { content: none !important; }
  summary, .options li, .working li:not(:has(ul)) { break-inside: avoid; }
  .scroll { overflow: visible; }
  tr, svg { break-inside: avoid; }
  h2, h3, h4, summary, thead { break-after: avoid; }
  p, li { orphans: 3; widows: 3; }
  figure { max-width: 150mm; }
  .supply { width: auto; max-width: 100%; max-height: 225mm; }
}
`.trim();
