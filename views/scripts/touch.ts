// Knows whether a finger is on the glass: a page that changes under it would take a tap for another one.
/** How long after a finger has left its click may still come. */
const CLICK_MS = 300
/** A finger that rests longer than this does not tap. */
const REST_MS = 3_000
const LOOK_AGAIN_MS = 100

let busyUntilMs = 0
const busyFor = (ms: number) => () => {
  busyUntilMs = performance.now() + ms
}
addEventListener('pointerdown', busyFor(REST_MS), true)
for (const name of ['pointerup', 'pointercancel']) addEventListener(name, busyFor(CLICK_MS), true)

/** Comes back once no tap is under way. */
export async function quiet(): Promise<void> {
  while (performance.now() < busyUntilMs) await new Promise((done) => setTimeout(done, LOOK_AGAIN_MS))
}
