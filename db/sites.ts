import type { Database } from 'better-sqlite3'
import type { GlowSector, Site, SkylinePoint } from '../server/tours/site.ts'

type SiteRow = Omit<Site, 'horizon' | 'glow'>

export type SiteStore = ReturnType<typeof siteStore>

const COLUMNS = `id, name, latitude_deg AS latitudeDeg, longitude_deg AS longitudeDeg, height_m AS heightM, zone,
  sky_mag AS skyMag`

/** Every statement about sites with their skyline and glow. */
export function siteStore(db: Database) {
  const byId = db.prepare<[string], SiteRow>(`SELECT ${COLUMNS} FROM site WHERE id = ?`)
  const every = db.prepare<[], SiteRow>(`SELECT ${COLUMNS} FROM site ORDER BY name, id`)
  const parts = sitePartStatements(db)
  const insert = db.prepare(`
    INSERT INTO site (id, name, latitude_deg, longitude_deg, height_m, zone, sky_mag)
    VALUES (@id, @name, @latitudeDeg, @longitudeDeg, @heightM, @zone, @skyMag)`)
  const update = db.prepare(`
    UPDATE site SET name = @name, latitude_deg = @latitudeDeg, longitude_deg = @longitudeDeg, height_m = @heightM,
      zone = @zone, sky_mag = @skyMag WHERE id = @id`)

  const whole = (row: SiteRow): Site => ({ ...row, ...parts.of(row.id) })

  return {
    all: (): readonly Site[] => every.all().map(whole),
    find(id: string): Site | undefined {
      const row = byId.get(id)
      return row && whole(row)
    },
    add: db.transaction((site: Site): void => {
      insert.run(rowOf(site))
      parts.put(site)
    }),
    change: db.transaction((site: Site): void => {
      update.run(rowOf(site))
      parts.put(site)
    }),
  }
}

const rowOf = ({ id, name, latitudeDeg, longitudeDeg, heightM, zone, skyMag }: Site): SiteRow => ({
  id,
  name,
  latitudeDeg,
  longitudeDeg,
  heightM,
  zone,
  skyMag,
})

function sitePartStatements(db: Database) {
  const horizonOf = db.prepare<[string], SkylinePoint>(`
    SELECT azimuth_deg AS azimuthDeg, altitude_deg AS altitudeDeg, name FROM horizon WHERE site_id = ? ORDER BY position`)
  const glowOf = db.prepare<[string], GlowSector>(`
    SELECT from_deg AS fromDeg, to_deg AS toDeg, brighter_mag AS brighterMag FROM glow WHERE site_id = ? ORDER BY position`)
  const noHorizon = db.prepare<[string]>('DELETE FROM horizon WHERE site_id = ?')
  const noGlow = db.prepare<[string]>('DELETE FROM glow WHERE site_id = ?')
  const addPoint = db.prepare<[string, number, number, number, string]>(
    'INSERT INTO horizon (site_id, position, azimuth_deg, altitude_deg, name) VALUES (?, ?, ?, ?, ?)',
  )
  const addGlow = db.prepare<[string, number, number, number, number]>(
    'INSERT INTO glow (site_id, position, from_deg, to_deg, brighter_mag) VALUES (?, ?, ?, ?, ?)',
  )
  return {
    of: (id: string) => ({ horizon: horizonOf.all(id), glow: glowOf.all(id) }),
    put(site: Site): void {
      noHorizon.run(site.id)
      noGlow.run(site.id)
      for (const [i, point] of site.horizon.entries()) {
        addPoint.run(site.id, i, point.azimuthDeg, point.altitudeDeg, point.name)
      }
      for (const [i, sector] of site.glow.entries()) {
        addGlow.run(site.id, i, sector.fromDeg, sector.toDeg, sector.brighterMag)
      }
    },
  }
}
