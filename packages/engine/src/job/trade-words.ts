/**
 * What the trade says, and the job format's word for it. A word of the trade may stand for different things
 * in different places, so a word is offered only where the place takes it.
 *
 * @module
 */
const TRADE_WORDS: Readonly<Record<string, readonly string[]>> = {
  pme: ["TN-C-S"],
  mcb: ["bs-en-60898", "way"],
  rcbo: ["bs-en-61009", "way"],
  mccb: ["bs-en-60947-2", "way"],
  "rewireable fuse": ["bs-3036"],
  "rewirable fuse": ["bs-3036"],
  "type a": ["A"],
  "type ac": ["AC"],
  "type b": ["B"],
  "type c": ["C"],
  "type d": ["D"],
  "type f": ["F"],
  swa: ["armoured", "armour"],
  "twin and earth": ["flat-twin-and-earth"],
  "t&e": ["flat-twin-and-earth"],
  singles: ["single-core"],
  flex: ["flexible"],
  cpc: ["core", "separate"],
  earth: ["core", "separate"],
  pvc: ["pvc-70"],
  xlpe: ["xlpe-90"],
  "clipped direct": ["C"],
  buried: ["D"],
  "open-pen": ["device-with-earth-reference", "device-with-voltage-window", "other-device"],
  opdd: ["device-with-earth-reference", "device-with-voltage-window", "other-device"],
  "earth rod": ["separate-electrode", "low-resistance-electrode"],
  shower: ["instantaneous-water-heater"],
  immersion: ["thermostatic-water-heater"],
  "immersion heater": ["thermostatic-water-heater"],
  "storage heater": ["storage-or-floor-heating"],
  "underfloor heating": ["storage-or-floor-heating"],
  ring: ["standard-circuit"],
  "ring final": ["standard-circuit"],
  radial: ["standard-circuit", "other-socket-or-fixed"],
  sockets: ["standard-circuit", "other-socket-or-fixed"],
  oven: ["cooker", "cooker-with-socket"],
  hob: ["cooker", "cooker-with-socket"],
  lights: ["lighting"],
  house: ["dwelling"],
  flat: ["dwelling"],
  domestic: ["dwelling"],
  shop: ["shop-or-office"],
  office: ["shop-or-office"],
  eic: ["installation"],
  "minor works": ["minor-works"],
  "consumer unit": ["board", "consumer-unit"],
  "distribution board": ["board", "distribution-board"],
  db: ["board", "distribution-board"],
  "main switch": ["isolator"],
  "main fuse": ["cut-out"],
  evse: ["charge-point"],
  pv: ["generator"],
  solar: ["generator"],
  battery: ["storage"],
  estimated: ["assumed"],
  guessed: ["assumed"],
  label: ["read-from-label"],
  nameplate: ["read-from-label"],
  seen: ["seen-on-site"],
  tested: ["measured"],
};

const plain = (word: string): string => word.toLowerCase().replace(/[^a-z0-9]/g, "");
const byPlainWord = new Map(Object.entries(TRADE_WORDS).map(([word, meant]) => [plain(word), meant]));

/** The words of a place that somebody may have meant; none when the word is not known. */
export function meantBy(word: string, allowed: readonly string[]): readonly string[] {
  const same = allowed.filter((candidate) => plain(candidate) === plain(word));
  return same.length > 0
    ? same
    : (byPlainWord.get(plain(word)) ?? []).filter((candidate) => allowed.includes(candidate));
}
