import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["packages/*/src/**/*.test.ts", "scripts/**/*.test.ts"],
    // Tests share nothing but pure modules, so files need no process of their own.
    pool: "threads",
    isolate: false,
    // A machine that is busy with other work is slow, not wrong.
    testTimeout: 60_000,
  },
});
