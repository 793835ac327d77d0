import { type DesignedPlace, isDesignedWhole } from "../proving/index.ts";

const SHOWN = 6;

/** One sentence for each channel that by the design does not see all that the main fuse carries on its line. */
export const designedPlaceWords = (places: readonly DesignedPlace[]): readonly string[] =>
  places.filter((place) => !isDesignedWhole(place)).map(wordsOf);

function wordsOf({ channel, transformer, isOnNeutral, misses }: DesignedPlace): string {
  if (transformer === null)
    return `The design has no transformer for channel ${channel}: it shows nothing, and no reading can prove it.`;
  const names = `${misses.slice(0, SHOWN).join(", ")}${misses.length > SHOWN ? ` and ${misses.length - SHOWN} more` : ""}`;
  return [
    ...(isOnNeutral
      ? [
          `The design puts ${transformer} of channel ${channel} on a neutral: it shows the current coming back, turned round, and of several lines no line's own.`,
        ]
      : []),
    ...(misses.length > 0
      ? [
          `The design itself misses ${names} on channel ${channel}: ${transformer} stands where the main fuse carries that and it does not. Readings cannot prove coverage there; move it upstream of the split.`,
        ]
      : []),
  ].join(" ");
}
