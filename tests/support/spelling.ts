import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import nspell from 'nspell'

const folder = createRequire(import.meta.url).resolve('dictionary-en-gb')
const dictionary = (name: string) => readFileSync(new URL(name, `file://${folder}`))

/** The words of a text as a dictionary knows them: letters, with an apostrophe or accents between, a possessive without its ending. */
const plainWords = (text: string): readonly string[] =>
  (text.match(/\p{L}+(?:['’]\p{L}+)*/gu) ?? []).map((word) => word.replace(/['’]s?$/u, ''))

/** A speller of British English that also knows these texts' words. */
export function speller(known: readonly string[]) {
  const spell = nspell(dictionary('index.aff'), dictionary('index.dic'))
  const own = new Set(known.flatMap(plainWords).map((word) => word.toLowerCase()))
  const isRight = (word: string) => own.has(word.toLowerCase()) || spell.correct(word)
  return {
    /** Words of a text that neither the dictionary nor the texts have; single letters are designations. */
    wrongIn: (text: string): readonly string[] => plainWords(text).filter((word) => word.length > 1 && !isRight(word)),
  }
}
