import type { Database } from 'better-sqlite3'
import type { Eyepiece, Telescope, Tube } from '../server/tours/telescope.ts'

type TelescopeRow = Omit<Telescope, 'tubes' | 'eyepieces'>
type TubeRow = Omit<Tube, 'hasDiagonal'> & { readonly hasDiagonal: number }

export type TelescopeStore = ReturnType<typeof telescopeStore>

const COLUMNS = `id, name, mount, axis_low_cm AS axisLowCm, axis_high_cm AS axisHighCm, chair_reach AS chairReach,
  floor_deg AS floorDeg, ceiling_deg AS ceilingDeg`

/** Every statement about telescopes with their tubes and eyepieces. */
export function telescopeStore(db: Database) {
  const byId = db.prepare<[string], TelescopeRow>(`SELECT ${COLUMNS} FROM telescope WHERE id = ?`)
  const every = db.prepare<[], TelescopeRow>(`SELECT ${COLUMNS} FROM telescope ORDER BY name, id`)
  const insert = db.prepare(`
    INSERT INTO telescope (id, name, mount, axis_low_cm, axis_high_cm, chair_reach, floor_deg, ceiling_deg)
    VALUES (@id, @name, @mount, @axisLowCm, @axisHighCm, @chairReach, @floorDeg, @ceilingDeg)`)
  const parts = telescopePartStatements(db)
  const whole = (row: TelescopeRow): Telescope => ({ ...row, ...parts.of(row.id) })

  return {
    all: (): readonly Telescope[] => every.all().map(whole),
    find(id: string): Telescope | undefined {
      const row = byId.get(id)
      return row && whole(row)
    },
    add: db.transaction((telescope: Telescope): void => {
      const { tubes: _tubes, eyepieces: _eyepieces, ...row } = telescope
      insert.run(row)
      parts.put(telescope)
    }),
  }
}

function telescopePartStatements(db: Database) {
  const tubesOf = db.prepare<[string], TubeRow>(`
    SELECT id, name, design, aperture_mm AS apertureMm, focal_length_mm AS focalLengthMm, obstruction, transmission,
      has_diagonal AS hasDiagonal FROM tube WHERE telescope_id = ? ORDER BY position`)
  const eyepiecesOf = db.prepare<[string], Eyepiece>(`
    SELECT id, name, focal_length_mm AS focalLengthMm, apparent_field_deg AS apparentFieldDeg,
      field_stop_mm AS fieldStopMm FROM eyepiece WHERE telescope_id = ? ORDER BY position`)
  const addTube = db.prepare(`
    INSERT INTO tube (id, telescope_id, position, name, design, aperture_mm, focal_length_mm, obstruction, transmission,
      has_diagonal)
    VALUES (@id, @telescopeId, @position, @name, @design, @apertureMm, @focalLengthMm, @obstruction, @transmission,
      @hasDiagonalRow)`)
  const addEyepiece = db.prepare(`
    INSERT INTO eyepiece (id, telescope_id, position, name, focal_length_mm, apparent_field_deg, field_stop_mm)
    VALUES (@id, @telescopeId, @position, @name, @focalLengthMm, @apparentFieldDeg, @fieldStopMm)`)
  return {
    of: (id: string) => ({
      tubes: tubesOf.all(id).map((row): Tube => ({ ...row, hasDiagonal: row.hasDiagonal === 1 })),
      eyepieces: eyepiecesOf.all(id),
    }),
    put({ id, tubes, eyepieces }: Telescope): void {
      for (const [position, { hasDiagonal, ...tube }] of tubes.entries()) {
        addTube.run({ ...tube, telescopeId: id, position, hasDiagonalRow: hasDiagonal ? 1 : 0 })
      }
      for (const [position, eyepiece] of eyepieces.entries())
        addEyepiece.run({ ...eyepiece, telescopeId: id, position })
    },
  }
}
