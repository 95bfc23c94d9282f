// A screen on the wall has nobody to press a button: it tries again for as long as it takes.
Blazor.start({
  circuit: {
    reconnectionOptions: {
      maxRetries: 1000000,
      retryIntervalMilliseconds: (attempt) => Math.min(1000 * (attempt + 1), 5000),
    },
  },
});

// A worker that was started anew does not know this screen any more; it answers, so loading the page anew works.
document.getElementById("components-reconnect-modal").addEventListener("components-reconnect-state-changed", (event) => {
  if (event.detail.state === "rejected" || event.detail.state === "resume-failed") {
    location.reload();
  }
});
