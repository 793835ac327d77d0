/** Registers that follow one another, and which of them were not read. */
export function registersAt(
  address: number,
  count: number,
  registers: ReadonlyMap<number, number>,
): { readonly registers: readonly number[]; readonly missing: readonly number[] } {
  const found: number[] = [];
  const missing: number[] = [];
  for (let at = address; at < address + count; at++) {
    const register = registers.get(at);
    if (register === undefined) missing.push(at);
    else found.push(register);
  }
  return { registers: found, missing };
}
