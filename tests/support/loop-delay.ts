// Loaded into a service before it starts (`--import`): tells whoever started it how late its event loop is.
import { monitorEventLoopDelay } from 'node:perf_hooks'
import { isMainThread } from 'node:worker_threads'

const BEGIN_ANEW = 'loop-delay anew'
const NS_PER_MS = 1e6

if (isMainThread && process.send) {
  const delay = monitorEventLoopDelay({ resolution: 10 })
  delay.enable()
  process.on('message', (asked) => {
    const [p50Ms, p99Ms] = [50, 99].map((share) => delay.percentile(share) / NS_PER_MS)
    process.send?.({ p50Ms, p99Ms, maxMs: delay.max / NS_PER_MS, count: delay.count })
    if (asked === BEGIN_ANEW) delay.reset()
  })
  process.channel?.unref()
}
