import { defineConfig } from "vitest/config";

/** Everything but tests/host, which runs in a real editor: `npm run test:host`. */
export default defineConfig({
  root: new URL("..", import.meta.url).pathname,
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/host/**"],
  },
});
