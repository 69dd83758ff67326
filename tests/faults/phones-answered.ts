import { type Act, outbox } from '../../views/scripts/outbox.ts'
import { phoneShelf } from './phones-shelf.ts'

interface Sent {
  readonly key: string
  readonly secondsAgo: number
}

/** A phone with one page, whose requests a test answers. */
export function answeredPhone({ room = Number.POSITIVE_INFINITY, shelf = phoneShelf(room) } = {}) {
  let nowMs = 0
  let answer: (sent: readonly Sent[]) => Response | Promise<Response> = () => new Response('', { status: 500 })
  const requests: (readonly Sent[])[] = []
  const box = outbox('n1', {
    shelf,
    nowMs: () => nowMs,
    async fetch(_address, { body }) {
      const { marks } = JSON.parse(String(body))
      requests.push(marks)
      return answer(marks)
    },
  })
  return {
    box,
    shelf,
    requests,
    pass: (ms: number) => {
      nowMs += ms
    },
    answers(next: (sent: readonly Sent[]) => Response | Promise<Response>) {
      answer = next
    },
    tap: (key: string, more: Partial<Act> = {}) => box.add({ ...act(key), doneAtMs: nowMs, ...more }),
  }
}

const act = (key: string): Act => ({ key, kind: 'shown', stationId: 's1', payload: {}, doneAtMs: 0, text: key })
export const json = (body: object, status = 200) => new Response(JSON.stringify(body), { status })
export const keepsAll = (version: string) => (sent: readonly Sent[]) => json({ kept: sent, refused: [], version })
export const refuses =
  (code: string, keeps: (key: string) => boolean = () => false) =>
  (sent: readonly Sent[]) => {
    const refused = sent.filter(({ key }) => !keeps(key))
    const problems = [{ field: 'x', code, message: 'No.' }]
    return json({ kept: sent.filter(({ key }) => keeps(key)), refused: refused.map(({ key }) => ({ key, problems })) })
  }
export const keysIn = ({ requests }: { requests: readonly (readonly Sent[])[] }) =>
  requests.map((sent) => sent.map(({ key }) => key))
