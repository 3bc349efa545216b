import { defineConfig } from "vitest/config";

/** Everything but tests/host, which runs in a real editor: `npm run test:host`. */
export default defineConfig({
  root: new URL("..", import.meta.url).pathname,
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/host/**"],
    // No test is about time; a slow or busy machine only takes longer. This ends what hangs.
    testTimeout: 300_000,
    hookTimeout: 300_000,
  },
});
