import SqliteDatabase from 'better-sqlite3'
import { attachCatalogue, ensureCatalogue } from '../../db/catalogue/load.ts'
import { constellationStore } from '../../db/constellations.ts'
import { objectStore } from '../../db/objects.ts'
import { starStore } from '../../db/stars.ts'
import { skyChartDesk } from '../../server/desk/sky-chart.ts'
import type { SkyChartSubject } from '../../server/drawings/sky-chart.ts'
import { notFound } from '../../server/errors.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Stop, Tour } from '../../server/tours/tour.ts'
import { freshFolder, removeFolder } from './desk-folder.ts'
import { A_TOUR } from './field-data.ts'

/** Charts over the whole catalogue, for nights that no desk has kept. */
export function chartSource() {
  const folder = freshFolder()
  const db = new SqliteDatabase(':memory:')
  attachCatalogue(db, ensureCatalogue(folder))
  const objects = objectStore(db)
  const find = (key: string) => {
    const found = objects.find(key)
    if (!found) throw notFound('object')
    return found
  }
  const looked = { find, show: objects.show }
  const [stars, constellations] = [starStore(db), constellationStore(db)]
  return {
    objects,
    /** What a chart of a night is drawn from, with these targets in this order. */
    subject(night: Night, at: Date, keys: readonly string[]): SkyChartSubject {
      const desk = skyChartDesk({ findNight: () => night, objects, looked, stars, constellations })
      return { ...desk(night.id, keys.length === 0 ? undefined : tourOf(night, keys), at), idPrefix: 'chart' }
    },
    close() {
      db.close()
      removeFolder(folder)
    },
  }
}

/** A programme that shows things one after another at the first station, the last of them first in the list. */
export function tourOf(night: Night, keys: readonly string[]): Tour {
  const stationId = night.stations[0]?.id ?? ''
  const [stop] = A_TOUR.stops
  if (!stop) throw new Error('The example has no stop')
  const stops = keys.map((targetKey, index): Stop => {
    const startsAt = new Date(Date.UTC(2026, 11, 17, 17, 15 * index))
    return { ...stop, stationId, targetKey, startsAt, endsAt: new Date(startsAt.getTime() + 900_000) }
  })
  return { ...A_TOUR, nightId: night.id, stops: stops.reverse() }
}
