/** Something odd about a reading, and what was done about it. Nothing is left out without one. */
export interface ReadingRemark {
  /** Place in the file of readings. */
  readonly path: string;
  readonly what: string;
  readonly done: string;
}
