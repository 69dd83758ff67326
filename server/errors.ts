/** What went wrong, in words the whole service shares. The web layer alone turns a code into an HTTP status. */
export type FaultCode = 'not-found' | 'invalid' | 'conflict' | 'forbidden' | 'too-large' | 'busy' | 'storage'

/** Values that a message key needs; the words floor makes the sentence. */
export type MessageValues = Readonly<Record<string, string | number>>

/** One thing wrong with one field of a form or a JSON body: `field` is its path, `key` names the message. */
export interface Problem {
  readonly field: string
  readonly key: string
  readonly values?: MessageValues
}

/** An expected failure: a code, the key of a message that is safe to show to a guest, and that message's values. */
export class Fault extends Error {
  readonly code: FaultCode
  readonly key: string
  readonly values: MessageValues
  readonly problems: readonly Problem[]

  constructor(code: FaultCode, key: string, values: MessageValues = {}, problems: readonly Problem[] = []) {
    super(`${code}: ${key}`)
    this.name = 'Fault'
    this.code = code
    this.key = key
    this.values = values
    this.problems = problems
  }
}

/** The fault for a thing that is not there; `what` is a noun key such as `night`. */
export const notFound = (what: string): Fault => new Fault('not-found', `fault.no-${what}`)

/** The fault for input that cannot be taken; every problem names its field. */
export const invalid = (problems: readonly Problem[]): Fault => new Fault('invalid', 'fault.invalid', {}, problems)

/** Throws that fault when there is any problem. */
export function refuse(problems: readonly Problem[]): void {
  if (problems.length > 0) throw invalid(problems)
}
