import type { Desk } from './desk.ts'
import { placeDesk } from './objects.ts'
import { type StartNeeds, startDesk } from './start.ts'
import { firstTours, type TourNeeds, tourDesk } from './tours.ts'

type Needs = TourNeeds &
  Omit<StartNeeds, 'firstTour' | 'factorOf'> & { readonly learning: Pick<Desk['learning'], 'inUse'> }

/** Making programmes, and whole evenings of three lines. */
export const planning = (needs: Needs): Pick<Desk, 'tours' | 'start' | 'places'> => ({
  tours: tourDesk(needs),
  start: startDesk({ ...needs, factorOf: needs.learning.inUse, firstTour: firstTours(needs) }),
  places: placeDesk(needs.places),
})
