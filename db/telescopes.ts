import type { Database } from 'better-sqlite3'
import type { Eyepiece, Factor, Telescope, Tube } from '../server/tours/telescope.ts'

type TelescopeRow = Omit<Telescope, 'tubes' | 'eyepieces' | 'factors'>
type TubeRow = Omit<Tube, 'hasDiagonal'> & { readonly hasDiagonal: number }

export type TelescopeStore = ReturnType<typeof telescopeStore>

const COLUMNS = `id, name, mount, axis_low_cm AS axisLowCm, axis_high_cm AS axisHighCm, chair_reach AS chairReach,
  floor_deg AS floorDeg, ceiling_deg AS ceilingDeg`

/** Every statement about telescopes with their tubes, eyepieces, Barlows and reducers. */
export function telescopeStore(db: Database) {
  const byId = db.prepare<[string], TelescopeRow>(`SELECT ${COLUMNS} FROM telescope WHERE id = ?`)
  const every = db.prepare<[], TelescopeRow>(`SELECT ${COLUMNS} FROM telescope ORDER BY name, id`)
  const insert = db.prepare(`
    INSERT INTO telescope (id, name, mount, axis_low_cm, axis_high_cm, chair_reach, floor_deg, ceiling_deg)
    VALUES (@id, @name, @mount, @axisLowCm, @axisHighCm, @chairReach, @floorDeg, @ceilingDeg)`)
  const update = db.prepare(`
    UPDATE telescope SET name = @name, mount = @mount, axis_low_cm = @axisLowCm, axis_high_cm = @axisHighCm,
      chair_reach = @chairReach, floor_deg = @floorDeg, ceiling_deg = @ceilingDeg WHERE id = @id`)
  const parts = telescopePartStatements(db)
  const whole = (row: TelescopeRow): Telescope => ({ ...row, ...parts.of(row.id) })

  return {
    all: (): readonly Telescope[] => every.all().map(whole),
    find(id: string): Telescope | undefined {
      const row = byId.get(id)
      return row && whole(row)
    },
    add: db.transaction((telescope: Telescope): void => {
      insert.run(rowOf(telescope))
      parts.put(telescope)
    }),
    change: db.transaction((telescope: Telescope): void => {
      update.run(rowOf(telescope))
      parts.put(telescope)
    }),
  }
}

function rowOf({ tubes: _tubes, eyepieces: _eyepieces, factors: _factors, ...row }: Telescope): TelescopeRow {
  return row
}

function telescopePartStatements(db: Database) {
  const drop = ['tube', 'eyepiece', 'factor'].map((part) =>
    db.prepare<[string]>(`DELETE FROM ${part} WHERE telescope_id = ?`),
  )
  const addTube = db.prepare(`
    INSERT INTO tube (id, telescope_id, position, name, design, aperture_mm, focal_length_mm, obstruction, transmission,
      has_diagonal)
    VALUES (@id, @telescopeId, @position, @name, @design, @apertureMm, @focalLengthMm, @obstruction, @transmission,
      @hasDiagonalRow)`)
  const addEyepiece = db.prepare(`
    INSERT INTO eyepiece (id, telescope_id, position, name, focal_length_mm, apparent_field_deg, field_stop_mm)
    VALUES (@id, @telescopeId, @position, @name, @focalLengthMm, @apparentFieldDeg, @fieldStopMm)`)
  const addFactor = db.prepare(`
    INSERT INTO factor (id, telescope_id, position, name, factor) VALUES (@id, @telescopeId, @position, @name, @factor)`)
  return {
    of: partQueries(db),
    put({ id: telescopeId, tubes, eyepieces, factors }: Telescope): void {
      for (const statement of drop) statement.run(telescopeId)
      for (const [position, { hasDiagonal, ...tube }] of tubes.entries()) {
        addTube.run({ ...tube, telescopeId, position, hasDiagonalRow: hasDiagonal ? 1 : 0 })
      }
      for (const [position, eyepiece] of eyepieces.entries()) addEyepiece.run({ ...eyepiece, telescopeId, position })
      for (const [position, factor] of factors.entries()) addFactor.run({ ...factor, telescopeId, position })
    },
  }
}

function partQueries(db: Database): (id: string) => Pick<Telescope, 'tubes' | 'eyepieces' | 'factors'> {
  const tubes = db.prepare<[string], TubeRow>(`
    SELECT id, name, design, aperture_mm AS apertureMm, focal_length_mm AS focalLengthMm, obstruction, transmission,
      has_diagonal AS hasDiagonal FROM tube WHERE telescope_id = ? ORDER BY position`)
  const eyepieces = db.prepare<[string], Eyepiece>(`
    SELECT id, name, focal_length_mm AS focalLengthMm, apparent_field_deg AS apparentFieldDeg,
      field_stop_mm AS fieldStopMm FROM eyepiece WHERE telescope_id = ? ORDER BY position`)
  const factors = db.prepare<[string], Factor>(
    'SELECT id, name, factor FROM factor WHERE telescope_id = ? ORDER BY position',
  )
  return (id) => ({
    tubes: tubes.all(id).map((row): Tube => ({ ...row, hasDiagonal: row.hasDiagonal === 1 })),
    eyepieces: eyepieces.all(id),
    factors: factors.all(id),
  })
}
