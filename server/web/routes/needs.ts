import type { FastifyRequest } from 'fastify'
import type { Clock } from '../../clock.ts'
import type { Desk } from '../../desk/desk.ts'
import type { ShowObject } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'
import type { PhonesWay } from '../addresses.ts'
import type { JoinDoor } from '../join-door.ts'
import type { WordTables } from '../language.ts'
import type { Names } from '../pages/say.ts'
import type { Viewer } from '../pages/sheet.ts'
import type { SignIn } from '../sign-in.ts'

/** What the routes of the pages are given. */
export interface PageNeeds {
  readonly desk: Desk
  readonly clock: Clock
  /** The sentences of every language. */
  readonly tables: WordTables
  readonly wordsFor: (request: FastifyRequest) => Words
  readonly viewerOf: (request: FastifyRequest) => Viewer
  readonly signIn: SignIn
  readonly joinDoor: JoinDoor
  readonly phonesWay: PhonesWay
}

const called = (words: Words, object: ShowObject | undefined): string | undefined => object && words.called(object.name)

/** The catalogue as pages ask it, and the stations that a night has ever had; a key that is nowhere is its own name. */
export function namesFrom(
  { objects, nights }: Pick<Desk, 'objects' | 'nights'>,
  words: Words,
  nightId?: string,
): Names {
  const { language } = words.settings
  const stationName = (key: string) => nightId && nights.everyStation(nightId).find(({ id }) => id === key)?.name
  return {
    nameOf: (key) => called(words, objects.show(key)) ?? (stationName(key) || key),
    show: (key) => objects.show(key),
    story: (key) => objects.story(key, language, nightId),
    worldEvents: () => objects.worldEvents(language),
  }
}
