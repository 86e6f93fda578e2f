// The station's time. It comes with the stream; in between it is counted on by this device, whose own clock may be wrong and which may have slept.
let ahead = 0;

export const set = at => { ahead = Date.parse(at) - Date.now(); tick(); };
export const now = () => Date.now() + ahead;

/** Whole minutes to a moment, rounded towards too soon; negative: it has passed. */
export const minutesTo = at => Math.floor((Date.parse(at) - now()) / 60_000);

/** An element that is drawn anew as time goes by, without any event. @param draw puts into the element what is true now */
export function ticking(node, draw) {
  node.dataset.tick = '';
  node.tick = () => draw(node);
  node.tick();
  return node;
}

const tick = () => { for (const node of document.querySelectorAll('[data-tick]')) node.tick(); };
setInterval(tick, 1_000);
document.addEventListener('visibilitychange', () => { if (!document.hidden) tick(); });
