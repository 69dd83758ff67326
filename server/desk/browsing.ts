import type { SettingStore } from '../../db/settings.ts'
import { type DateNeeds, dateDesk } from './dates.ts'
import type { Desk } from './desk.ts'
import { groupTextDesk } from './group-text.ts'
import { type ThingNeeds, thingDesk } from './things.ts'

type Needs = ThingNeeds & DateNeeds & { readonly settings: SettingStore }

/** What is asked of the list and of the year, and what the group says of itself: apart from any night. */
export const browsing = (needs: Needs): Pick<Desk, 'things' | 'dates' | 'groupText'> => ({
  things: thingDesk(needs),
  dates: dateDesk(needs),
  groupText: groupTextDesk(needs),
})
