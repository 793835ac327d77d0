import type { ClaimId, ClaimReason, FallbackTrial, TraceEvent, TraceVerdict } from "../proving/index.ts";

export const TRACE_VERDICT_WORDS: Readonly<
  Record<TraceVerdict, { readonly word: string; readonly mark: string }>
> = {
  proved: { word: "proved", mark: "✓" },
  failed: { word: "failed", mark: "✗" },
  "cannot-tell": { word: "cannot tell", mark: "?" },
  "not-applicable": { word: "does not apply", mark: "–" },
};

export const CLAIM_TITLES: Readonly<Record<ClaimId, string>> = {
  trace: "the trace itself",
  reaction: "back under the limit in time",
  "bus-lost": "falls back when the bus is lost",
  "meter-lost": "falls back when the meter is lost",
  "manager-lost": "falls back when the load manager is lost",
  "main-fuse": "main fuse kept away from operating",
};

export const EVENT_WORDS: Readonly<Record<TraceEvent["what"], string>> = {
  "load-on": "load on",
  "bus-lost": "bus lost",
  "meter-lost": "meter lost",
  "manager-lost": "manager lost",
  restored: "restored",
};

export const OUTCOME_WORDS: Readonly<Record<FallbackTrial["outcome"], string>> = {
  held: "fell and stayed",
  late: "fell too late",
  never: "did not fall",
  rose: "rose again",
  coarse: "values too far apart to tell",
  short: "watched too short",
  "not-drawing": "drew no more than the fallback already",
  "not-recorded": "not recorded",
};

/** One sentence for each reason of a claim. */
export const CLAIM_SENTENCES: Readonly<Record<ClaimReason, string>> = {
  lineNotRecorded: "This line of the supply is not in the trace. Record it.",
  limitNotKnown: "The limit is not known. Record the main fuse, and the limit as set.",
  limitNotSet:
    "The limit as set is not recorded; {limitA}, the highest that may be set, stands in for it. Read the setting back and record it.",
  figuresNotKnown: "No reaction time is held for the day of the design. Check the day.",
  unseen:
    "Nothing was recorded for {stepS} from {atS}: an excursion longer than {longestS} could hide there. Record again without the gap.",
  neverOver:
    "Never over {limitA} (highest {peakA}): how fast the load manager acts was not seen. With the car charging, switch on enough load to go over.",
  quick: "Back under within {mostS} at the most; {typicalS} is typical of what operators expect.",
  withinLongest:
    "Back under within {mostS} at the most, inside the longest {longestS}. Whether it met the typical {typicalS} these values, up to {stepS} apart, cannot show.",
  slow: "Back under only after {leastS} or more: slower than the typical {typicalS}, inside the longest {longestS}. Look for a slow poll or averaging.",
  tooSlow:
    "Over the limit for {leastS} or more from {startS}; {longestS} is the longest allowed. Do not leave it in use.",
  tooSlowWithoutCar:
    "Over the limit for {leastS} or more from {startS}, for {withoutCarS} of it by the rest of the building alone: no load manager can help there. Shed other load, or get a larger supply.",
  hunts:
    "Over the limit {excursionCount} times in {leastS} from {startS} without staying under for {typicalS} in between; {longestS} is the longest allowed. Look for a poll slower than the load manager acts.",
  tooCoarse:
    "Over the limit from {startS} for between {leastS} and {mostS}: values up to {stepS} apart cannot prove {longestS}. Record more often.",
  beganBefore:
    "Over the limit when the trace begins: since when was not seen. Begin recording before the load is switched on.",
  unfinished:
    "Still over the limit, for {leastS}, when the recording of this line ends. Record until it is back under.",
  noCarHere: "No governed charge point draws on this line.",
  notTried: "Not tried in this trace. Cause it safely while the car charges, and note it in the trace.",
  fallbackNotSet: "The fallback current is not recorded. Read the setting back and record it.",
  noTimeOut:
    "Down at {allowedA} or less after {leastS} to {mostS}; what time-out is set was not given. Read it back and give it.",
  carNotRecorded: "The charge point's current on this line is not in the trace. Record it.",
  notDrawing:
    "At {atS} the charge points drew {drawnA}, no more than the fallback of {allowedA}: nothing had to fall. Try it while the car charges on this line.",
  fallbackHeld:
    "Down at {allowedA} or less after {mostS} at the most, within {timeOutS}, and stayed until {untilS}.",
  fallbackLate:
    "Down at {allowedA} only after {leastS} or more; {timeOutS} is allowed. Shorten the time-out.",
  fallbackNever:
    "Lost at {atS} and never down at {allowedA} until {untilS}: {afterA} drawn; {timeOutS} is allowed. Do not leave it in use.",
  fallbackRose:
    "Down at the fallback and up again: {roseA} at {roseAtS}, {allowedA} is allowed until it is restored. Do not leave it in use.",
  fallbackTooCoarse:
    "Down at {allowedA} after {leastS} to {mostS}: values so far apart cannot prove {timeOutS}. Record more often.",
  watchedTooShort:
    "Lost at {atS} and watched until {untilS}: too short to see the car down within {timeOutS} and staying as long again. Wait longer before restoring.",
  withinRating: "Highest {peakA}; the fuse is rated {fuseRatingA} and carries that.",
  awayFromEdge:
    "Highest {peakA}; at the nearest {usedShare} of the time to the fast edge of the fuse's band was used up. The edge is an estimate.",
  edgeReached:
    "From {startS} on {rmsA} for {heldS}: the fast edge of the {fuseRatingA} fuse's band was reached, and it may have begun to melt. Tell the operator before relying on it.",
  edgePerhaps:
    "From {startS} on {rmsA} for {heldS}: between the values the fast edge of the {fuseRatingA} fuse's band may have been reached. Record more often, and to the end.",
  fedBack:
    "Up to {mostBackA} fed back through a fuse of {fuseRatingA}, which it does not carry for ever either. Look for generation too large for the supply, or a transformer the wrong way round.",
  noBand:
    "Up to {peakA} on a fuse of {fuseRatingA}: no time-current band is held for this fuse. Keep within its rating, or compare with its maker's curve.",
  fuseNotKnown: "The main fuse is not recorded. Read its rating from the cut-out, and do not open it.",
};
