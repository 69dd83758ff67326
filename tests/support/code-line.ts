import { Agent, request } from 'node:http'

/** What the laptop said to a code. */
interface CodeAnswer {
  readonly status: number
  /** Seconds to wait, where it asks for that. */
  readonly waitSec: number
  readonly tookMs: number
}

/** How phones at addresses of their own send codes to a service over real lines, which stay open. */
export function codeLines(port: number) {
  const agents = new Map<string, Agent>()

  function agentOf(localAddress: string): Agent {
    const agent = agents.get(localAddress) ?? new Agent({ keepAlive: true, localAddress })
    agents.set(localAddress, agent)
    return agent
  }

  return {
    say(address: string, secret: string): Promise<CodeAnswer> {
      const startedMs = performance.now()
      const host = `127.0.0.1:${port}`
      const headers = { host, origin: `http://${host}`, 'content-type': 'application/json' }
      const asked = { host: '127.0.0.1', port, path: '/api/join', method: 'POST', headers, agent: agentOf(address) }
      return new Promise((resolve, reject) => {
        const sent = request(asked, (answer) => {
          const waitSec = Number(answer.headers['retry-after'] ?? 0)
          answer.resume()
          answer.on('end', () =>
            resolve({ status: answer.statusCode ?? 0, waitSec, tookMs: performance.now() - startedMs }),
          )
        })
        sent.on('error', reject)
        sent.end(JSON.stringify({ secret, name: 'Ada', role: 'operator' }))
      })
    },
    close(): void {
      for (const agent of agents.values()) agent.destroy()
    },
  }
}
