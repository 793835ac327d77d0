import { fourWireFlow } from "@underfuse/engine";
import { readNetworks } from "./networks.ts";

const networks = readNetworks();
const passes = Number(process.argv[2] ?? 200);
const seconds: number[] = [];
for (let pass = -20; pass < passes; pass++) {
  const start = performance.now();
  for (const network of networks) if (fourWireFlow(network) === null) throw new Error("does not settle");
  // The first passes warm the machine up and do not count.
  if (pass >= 0) seconds.push((performance.now() - start) / 1000);
}
console.log(JSON.stringify({ networks: networks.length, seconds }));
