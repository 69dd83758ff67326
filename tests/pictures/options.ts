import { parseArgs } from 'node:util'

/** What was asked of `npm run pictures`. */
interface PictureOptions {
  /** The language of pages and papers. */
  readonly lang: string
  /** A part of the names of what is wanted; '' for all. */
  readonly only: string
  /** True when the pictures of the README are made and nothing else. */
  readonly isForReadme: boolean
}

/** Reads the flags behind the command; anything else in them is refused. */
export function pictureOptions(args: readonly string[]): PictureOptions {
  const { values } = parseArgs({
    args: [...args],
    options: {
      lang: { type: 'string', default: 'en' },
      only: { type: 'string', default: '' },
      readme: { type: 'boolean', default: false },
    },
  })
  return { lang: values.lang, only: values.only, isForReadme: values.readme }
}
