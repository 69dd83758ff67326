import type { Clock } from '../../clock.ts'
import type { Desk } from '../../desk/desk.ts'
import type { JoinDoor } from '../join-door.ts'
import type { WordsFor } from '../language.ts'
import type { Limits } from '../limits.ts'
import type { LiveBoard } from '../live.ts'
import type { WhoOf } from '../roles.ts'
import type { SignIn } from '../sign-in.ts'

/** What the routes of the API are given. */
export interface ApiNeeds {
  readonly desk: Desk
  readonly clock: Clock
  readonly wordsFor: WordsFor
  readonly whoOf: WhoOf
  readonly joinDoor: JoinDoor
  readonly limits: Limits
  readonly signIn: SignIn
  readonly live: LiveBoard
}
