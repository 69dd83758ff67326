import type { Database } from 'better-sqlite3'
import type { Eyepiece, Factor, FinderKind, Telescope, Tube } from '../server/tours/telescope.ts'

type Plain = 'id' | 'name' | 'mount' | 'axisLowCm' | 'axisHighCm' | 'chairReach' | 'floorDeg' | 'ceilingDeg'
interface TelescopeRow extends Pick<Telescope, Plain> {
  readonly finderKind: FinderKind | null
  readonly finderFieldDeg: number | null
  readonly finderPowerX: number | null
  readonly inKitSince: number | null
  readonly note: string | null
  readonly isPutAway: number
}
type TubeRow = Omit<Tube, 'hasDiagonal'> & { readonly hasDiagonal: number }

export type TelescopeStore = ReturnType<typeof telescopeStore>

const COLUMNS = `id, name, mount, axis_low_cm AS axisLowCm, axis_high_cm AS axisHighCm, chair_reach AS chairReach,
  floor_deg AS floorDeg, ceiling_deg AS ceilingDeg, finder_kind AS finderKind, finder_field_deg AS finderFieldDeg,
  finder_power AS finderPowerX, in_kit_since AS inKitSince, note, is_put_away AS isPutAway`

/** Every statement about telescopes with their tubes, eyepieces, Barlows and reducers. */
export function telescopeStore(db: Database) {
  const byId = db.prepare<[string], TelescopeRow>(`SELECT ${COLUMNS} FROM telescope WHERE id = ?`)
  const every = db.prepare<[], TelescopeRow>(`SELECT ${COLUMNS} FROM telescope ORDER BY name, id`)
  const insert = db.prepare(`
    INSERT INTO telescope (id, name, mount, axis_low_cm, axis_high_cm, chair_reach, floor_deg, ceiling_deg, finder_kind,
      finder_field_deg, finder_power, in_kit_since, note, is_put_away)
    VALUES (@id, @name, @mount, @axisLowCm, @axisHighCm, @chairReach, @floorDeg, @ceilingDeg, @finderKind,
      @finderFieldDeg, @finderPowerX, @inKitSince, @note, @isPutAway)`)
  const update = db.prepare(`
    UPDATE telescope SET name = @name, mount = @mount, axis_low_cm = @axisLowCm, axis_high_cm = @axisHighCm,
      chair_reach = @chairReach, floor_deg = @floorDeg, ceiling_deg = @ceilingDeg,
      finder_kind = @finderKind, finder_field_deg = @finderFieldDeg, finder_power = @finderPowerX,
      in_kit_since = @inKitSince, note = @note, is_put_away = @isPutAway WHERE id = @id`)
  const parts = telescopePartStatements(db)
  const whole = (row: TelescopeRow): Telescope => ({ ...telescopeOf(row), ...parts.of(row.id) })

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

function rowOf(telescope: Telescope): TelescopeRow {
  const { tubes: _tubes, eyepieces: _eyepieces, factors: _factors, finder, ...row } = telescope
  return {
    ...row,
    finderKind: finder?.kind ?? null,
    finderFieldDeg: finder?.fieldDeg ?? null,
    finderPowerX: finder?.powerX ?? null,
    inKitSince: row.inKitSince ?? null,
    note: row.note ?? null,
    isPutAway: row.isPutAway === true ? 1 : 0,
  }
}

/** What nobody has said of a telescope is left out of it. */
function telescopeOf(row: TelescopeRow): Omit<Telescope, 'tubes' | 'eyepieces' | 'factors'> {
  const { finderKind, finderFieldDeg, finderPowerX, inKitSince, note, isPutAway, ...plain } = row
  return {
    ...plain,
    ...(finderKind !== null && { finder: { kind: finderKind, fieldDeg: finderFieldDeg, powerX: finderPowerX } }),
    ...(inKitSince !== null && { inKitSince }),
    ...(note !== null && { note }),
    ...(isPutAway === 1 && { isPutAway: true }),
  }
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
