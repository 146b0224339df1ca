/**
 * From the hand to the ink: a mark when the hand did something, and a measure when the frame that shows its outcome is on
 * the screen. Read with performance.getEntriesByName(drawn).
 */
const edited = "shimwright: edited";
const drawn = "shimwright: edit to drawn";
const kept = 1000;

let waiting = false;

export function markEdit(): void {
  performance.clearMarks(edited);
  performance.mark(edited);
  waiting = true;
}

/** Call when the page has been changed: the end is taken after the next frame is painted. */
export function measureDrawn(): void {
  if (!waiting) return;
  waiting = false;
  requestAnimationFrame(() => {
    const channel = new MessageChannel();
    channel.port1.onmessage = () => {
      channel.port1.close();
      if (performance.getEntriesByName(drawn).length >= kept) performance.clearMeasures(drawn);
      performance.measure(drawn, edited);
    };
    channel.port2.postMessage(null);
  });
}
