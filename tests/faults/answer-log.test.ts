import { describe, expect, it } from 'vitest'
import { answerJudge } from '../support/answer-log.ts'

const WAL = '18</data/duskrow.db-wal>'
const ask = (key: string, phone = 1) =>
  `read(2${phone}<socket:[900${phone}]>, "POST /api/marks\\r\\n{\\"key\\":\\"${key}\\"}", 65536) = 400`
const answer = (phone = 1, status = 200) =>
  `write(2${phone}<socket:[900${phone}]>, "HTTP/1.1 ${status} OK\\r\\n", 900) = 900`
const put = (...keys: string[]) =>
  `pwrite64(${WAL}, "\\r\\0\\0\\0\\5${keys.join('night-1counted')}\\0", 4096, 4152) = 4096`
const sync = (result = '0') => `fdatasync(${WAL}) = ${result}`

function verdictOn(...lines: string[]) {
  const judge = answerJudge()
  for (const line of lines) judge.take(line)
  return judge.verdict()
}
const earlyIn = (...lines: string[]) => verdictOn(...lines).early

describe('the judge of answers', () => {
  it('is content with an act that is written, synced and then answered', () => {
    const seen = verdictOn(ask('act-000001'), put('act-000001'), sync(), answer())
    expect(seen).toEqual({ acks: 1, syncs: 1, mostTogether: 1, early: [] })
  })

  it('is content with acts of one commit, whose answers leave after its sync', () => {
    const asks = [ask('act-000001'), ask('act-000002', 2)]
    const seen = verdictOn(...asks, put('act-000001', 'act-000002'), sync(), answer(2, 303), answer(1))
    expect(seen).toEqual({ acks: 2, syncs: 1, mostTogether: 2, early: [] })
  })

  it.each([
    ['before the sync', [put('act-000001'), answer(), sync()]],
    ['before the act is written', [answer(), put('act-000001'), sync()]],
    ['after a sync that failed', [put('act-000001'), sync('-1 EIO (Input/output error)'), answer()]],
    ['after the sync of another commit', [put('act-000009'), sync(), put('act-000001'), answer(), sync()]],
    ['after the sync of another file', [put('act-000001'), 'fdatasync(9</data/duskrow.db>) = 0', answer()]],
  ])('sees an answer that leaves %s', (_when, calls) => {
    expect(earlyIn(ask('act-000001'), ...calls)).toEqual(['act-000001'])
  })

  it('takes a refusal for no answer that an act is kept', () => {
    expect(verdictOn(ask('act-000001'), answer(1, 422)).acks).toBe(0)
  })
})
