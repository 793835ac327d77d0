/**
 * Reads interval data in ESPI (Green Button) XML, chunk by chunk of its text.
 *
 * No document type is accepted, so nothing can be expanded; depth and the length of any one piece are bounded.
 *
 * Source: [naesb-espi].
 *
 * @module
 */
import { SaxesParser, type SaxesTagNS } from "saxes";
import type { ImportResult } from "../import-result.ts";
import type { Notes } from "../notes.ts";
import { RECORDED } from "../series/quality.ts";
import type { Statements } from "../statements.ts";
import { MAX_LINE } from "../text/line-splitter.ts";
import { qualityOfCode } from "./codes.ts";
import type { EspiDocument, ReadingGroup, ReadingType } from "./espi-document.ts";
import { settleEspi } from "./settle-espi.ts";

const ESPI = "http://naesb.org/espi";
const ATOM = "http://www.w3.org/2005/Atom";
const MAX_DEPTH = 60;
/** Text that is handed to the parser at once. [characters] */
const PIECE = 4096;

/** An entry of the feed while it is open. */
interface Entry {
  self: string;
  up: string;
  readonly related: string[];
  type: Record<string, number> | null;
  isMeterReading: boolean;
  group: ReadingGroup | null;
}

const newEntry = (): Entry => ({
  self: "",
  up: "",
  related: [],
  type: null,
  isMeterReading: false,
  group: null,
});
const newGroup = (): ReadingGroup => ({
  startS: [],
  durationS: [],
  values: [],
  quality: [],
  lines: [],
  blockStartS: new Map(),
});

export class EspiReader {
  readonly #notes: Notes;
  readonly #stated: Statements;
  readonly #parser = new SaxesParser({ xmlns: true });
  readonly #types = new Map<string, ReadingType>();
  readonly #meterReadings = new Map<string, readonly string[]>();
  readonly #groups = new Map<string, ReadingGroup>();
  readonly #localTime: Record<string, string> = {};
  /** Names of the open elements; empty for those of another vocabulary. */
  readonly #open: string[] = [];
  #entry = newEntry();
  #text = "";
  #reading = { startS: Number.NaN, durationS: Number.NaN, value: Number.NaN, quality: RECORDED, line: 0 };
  #blockStartS = Number.NaN;
  #isRefused = false;
  #sawEspi = false;
  #lastEventAt = 0;

  constructor(stated: Statements, notes: Notes) {
    this.#stated = stated;
    this.#notes = notes;
    const parser = this.#parser;
    parser.on("error", (error) =>
      this.#refuse(
        "XML_WRONG",
        error.message.replace(/^\d+:\d+: /, ""),
        "The file is no well-formed XML from here on. Export it again; it may have been cut off.",
      ),
    );
    parser.on("doctype", () =>
      this.#refuse(
        "XML_FORBIDDEN",
        "a document type",
        "Interval data needs none, and one can make a small file grow without end. Remove it.",
      ),
    );
    parser.on("opentag", (tag) => this.#opened(tag));
    parser.on("closetag", (tag) => this.#closed(tag));
    // A comment or a marked section parts a text: all its pieces are one.
    for (const event of ["text", "cdata"] as const)
      parser.on(event, (text) => {
        this.#text += text;
      });
  }

  push(text: string): void {
    // In small pieces, so that a file that is refused is not read on: depth costs the parser by its square.
    for (let at = 0; at < text.length && !this.#isRefused; at += PIECE)
      this.#pushPiece(text.slice(at, at + PIECE));
  }

  #pushPiece(text: string): void {
    this.#parser.write(text);
    if (this.#parser.position - this.#lastEventAt > MAX_LINE && !this.#isRefused)
      this.#refuse(
        "LINE_TOO_LONG",
        `more than ${MAX_LINE} characters without an element`,
        "No interval data looks so. Check that this is the recording.",
      );
  }

  end(): ImportResult {
    if (!this.#isRefused) this.#parser.close();
    if (!this.#isRefused && !this.#sawEspi)
      this.#refuse(
        "XML_WRONG",
        "XML of another vocabulary",
        `Interval data of Green Button is in the vocabulary ${ESPI}. Export it as that, or as a table.`,
      );
    // A block may stand alone, without a feed around it.
    if (this.#entry.type !== null || this.#entry.group !== null) this.#closeEntry();
    const document: EspiDocument = {
      types: this.#types,
      meterReadings: this.#meterReadings,
      groups: this.#groups,
      localTime: this.#localTime,
    };
    return settleEspi(document, this.#stated, this.#notes);
  }

  #opened({ local, uri, attributes }: SaxesTagNS): void {
    this.#lastEventAt = this.#parser.position;
    this.#text = "";
    if (this.#isRefused) return;
    if (this.#open.length >= MAX_DEPTH) {
      this.#refuse(
        "XML_WRONG",
        `elements nested deeper than ${MAX_DEPTH}`,
        "No interval data is. Check that this is the recording.",
      );
      return;
    }
    this.#open.push(uri === ESPI || uri === ATOM ? local : "");
    if (uri === ATOM) {
      if (local === "entry") this.#entry = newEntry();
      if (local === "link") this.#takeLink(attributes.rel?.value, attributes.href?.value ?? "");
      return;
    }
    if (uri !== ESPI) return;
    this.#sawEspi = true;
    if (local === "ReadingType") this.#entry.type = {};
    else if (local === "MeterReading") this.#entry.isMeterReading = true;
    else if (local === "IntervalBlock") {
      this.#entry.group ??= newGroup();
      this.#blockStartS = Number.NaN;
    } else if (local === "IntervalReading")
      this.#reading = {
        startS: Number.NaN,
        durationS: Number.NaN,
        value: Number.NaN,
        quality: RECORDED,
        line: this.#parser.line,
      };
  }

  #takeLink(rel: string | undefined, href: string): void {
    if (rel === "self") this.#entry.self = href;
    else if (rel === "up") this.#entry.up = href;
    else if (rel === "related") this.#entry.related.push(href);
  }

  #closed({ local, uri }: SaxesTagNS): void {
    this.#lastEventAt = this.#parser.position;
    if (this.#isRefused) return;
    this.#open.pop();
    const text = this.#text.trim();
    this.#text = "";
    if (uri === ATOM && local === "entry") {
      this.#closeEntry();
      return;
    }
    if (uri !== ESPI) return;
    const parent = this.#open.at(-1) ?? "";
    const { type } = this.#entry;
    if (local === "IntervalReading") this.#closeReading();
    else if (parent === "ReadingType" && type !== null && text !== "") type[local] = Number(text);
    else if (parent === "LocalTimeParameters") this.#localTime[local] = text;
    else if (parent === "IntervalReading" && local === "value")
      this.#reading.value = this.#whole(text, "VALUE_UNREADABLE");
    else if (parent === "timePeriod" && local === "start")
      this.#reading.startS = this.#whole(text, "TIME_UNREADABLE");
    else if (parent === "timePeriod" && local === "duration")
      this.#reading.durationS = this.#whole(text, "TIME_UNREADABLE");
    else if (parent === "interval" && local === "start")
      this.#blockStartS = this.#whole(text, "TIME_UNREADABLE");
    else if (parent === "ReadingQuality" && local === "quality")
      // Of several qualities the worst counts.
      this.#reading.quality = Math.max(this.#reading.quality, qualityOfCode(Number(text)));
  }

  #closeReading(): void {
    const { group } = this.#entry;
    if (group === null) return;
    const { startS, durationS, value, quality, line } = this.#reading;
    if (!Number.isNaN(this.#blockStartS)) {
      group.blockStartS.set(group.values.length, this.#blockStartS);
      this.#blockStartS = Number.NaN;
    }
    group.startS.push(startS);
    group.durationS.push(durationS);
    group.values.push(value);
    group.quality.push(quality);
    group.lines.push(line);
  }

  #closeEntry(): void {
    const { self, up, related, type, isMeterReading, group } = this.#entry;
    this.#entry = newEntry();
    if (type !== null) this.#types.set(self === "" ? `type ${this.#types.size + 1}` : self, type);
    if (isMeterReading) this.#meterReadings.set(self, related);
    if (group === null) return;
    const known = this.#groups.get(up);
    if (known === undefined) this.#groups.set(up, group);
    else append(known, group);
  }

  #whole(text: string, code: "VALUE_UNREADABLE" | "TIME_UNREADABLE"): number {
    // A value has 48 bits; a time has fewer.
    if (/^-?\d{1,15}$/.test(text)) return Number(text);
    this.#refuse(code, text, "That must be a whole number.");
    return Number.NaN;
  }

  #refuse(
    code: "XML_WRONG" | "XML_FORBIDDEN" | "LINE_TOO_LONG" | "VALUE_UNREADABLE" | "TIME_UNREADABLE",
    found: string,
    message: string,
  ): void {
    if (this.#isRefused) return;
    this.#isRefused = code !== "VALUE_UNREADABLE" && code !== "TIME_UNREADABLE";
    if (this.#isRefused) this.#notes.stop();
    this.#notes.refuse({ code, line: this.#parser.line, column: this.#parser.column + 1, found, message });
  }
}

function append(into: ReadingGroup, from: ReadingGroup): void {
  for (const [at, startS] of from.blockStartS) into.blockStartS.set(into.values.length + at, startS);
  for (const list of ["startS", "durationS", "values", "quality", "lines"] as const)
    for (const value of from[list]) into[list].push(value);
}
