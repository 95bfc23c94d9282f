// A screen on the wall has nobody to press a button: it tries again for as long as it takes, and loads anew when the worker has forgotten it.
Blazor.start({
  circuit: {
    reconnectionOptions: {
      maxRetries: 1000000,
      retryIntervalMilliseconds: (attempt) => Math.min(1000 * (attempt + 1), 5000),
    },
  },
});
