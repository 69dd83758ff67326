import type { Words } from '../../words/words.ts'

/** What the page says of the taps on their way; the script puts the number of taps or the words of one in for `#`. */
export interface SendingWords {
  readonly taken: string
  readonly sent: string
  readonly waitingOne: string
  readonly waiting: string
  readonly joinAgain: string
  readonly joinAgainLink: string
  readonly signIn: string
  readonly signInLink: string
  readonly address: string
  readonly failed: string
  readonly refused: string
  readonly drop: string
}

/** The sentences for every way a sending can end, with the blanks that only the phone can fill left in them. */
export function sendingWords(words: Words): SendingWords {
  const left = { count: '#', what: '#' }
  return {
    taken: words.say('field.taken', left),
    sent: words.say('field.sent'),
    waitingOne: words.say('field.waiting-one'),
    waiting: words.say('field.waiting', left),
    joinAgain: words.say('field.join-again', left),
    joinAgainLink: words.say('field.join-again-link'),
    signIn: words.say('field.sign-in', left),
    signInLink: words.say('field.sign-in-link'),
    address: words.say('field.address', left),
    failed: words.say('field.failed'),
    refused: words.say('field.refused'),
    drop: words.say('field.drop', left),
  }
}
