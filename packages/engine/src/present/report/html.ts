import { escapeMarkup as text } from "../escape.ts";

/** One part of the report, with its place in the list of contents. */
export interface Section {
  readonly id: string;
  readonly title: string;
  readonly body: string;
}

/** Something that opens; its title is plain text, its body markup. */
export const disclosure = (title: string, body: string): string =>
  `<details><summary><span class="mark" aria-hidden="true">+</span><span>${text(title)}</span></summary><div class="body">${body}</div></details>`;

export const list = (lines: readonly string[]): string =>
  `<ul>${lines.map((line) => `<li>${text(line)}</li>`).join("")}</ul>`;

/** A table that scrolls sideways on its own where the screen is narrow. */
export const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  `<div class="scroll"><table><thead><tr>${head.map((cell) => `<th>${text(cell)}</th>`).join("")}</tr></thead><tbody>${rows
    .map((row) => `<tr>${row.map((cell) => `<td>${text(cell)}</td>`).join("")}</tr>`)
    .join("\n")}</tbody></table></div>`;
