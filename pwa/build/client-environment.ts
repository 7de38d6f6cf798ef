/** Lets vitest run what browsers run, compiled for the client, in plain Node: these tests need no document. */
export default {
  name: "client",
  viteEnvironment: "client",
  setup: () => ({ teardown: () => undefined }),
};
