import type { Database } from 'better-sqlite3'

const PHONE_ROLES = ['operator', 'helper', 'host-phone'] as const
export type PhoneRole = (typeof PHONE_ROLES)[number]

/** A signed-in session. The token itself is nowhere kept: `tokenHash` is its SHA-256 in hexadecimal. */
export interface Phone {
  readonly id: string
  readonly tokenHash: string
  readonly role: PhoneRole | 'host'
  readonly name: string
  /** The night that it joined; null for the host at the laptop. */
  readonly nightId: string | null
  /** The station where it stands; null for one that roves. */
  readonly stationId: string | null
  /** False while a phone that joined quickly waits for the host. */
  readonly isConfirmed: boolean
  /** How far its clock was ahead of the laptop's when it joined; null when it did not say. */
  readonly aheadSec: number | null
  readonly madeAt: Date
  readonly expiresAt: Date
}

interface PhoneRow extends Omit<Phone, 'madeAt' | 'expiresAt' | 'isConfirmed'> {
  readonly isConfirmed: 0 | 1
  readonly madeAt: string
  readonly expiresAt: string
}

const COLUMNS = `id, token_hash AS tokenHash, role, name, night_id AS nightId, station_id AS stationId,
  is_confirmed AS isConfirmed, ahead_sec AS aheadSec, made_at AS madeAt, expires_at AS expiresAt`
const LIVING = 'revoked_at IS NULL AND expires_at > ?'

const phoneFrom = (row: PhoneRow): Phone => ({
  ...row,
  isConfirmed: row.isConfirmed === 1,
  madeAt: new Date(row.madeAt),
  expiresAt: new Date(row.expiresAt),
})

/** Every statement about sessions. */
export function phoneStore(db: Database) {
  const byToken = db.prepare<[string, string], PhoneRow>(
    `SELECT ${COLUMNS} FROM phone WHERE token_hash = ? AND ${LIVING}`,
  )
  const byNight = db.prepare<[string, string], PhoneRow>(
    `SELECT ${COLUMNS} FROM phone WHERE night_id = ? AND ${LIVING} ORDER BY made_at, id`,
  )
  const insert = db.prepare<[PhoneRow]>(`
    INSERT INTO phone (id, token_hash, role, name, night_id, station_id, is_confirmed, ahead_sec, made_at, expires_at)
    VALUES (@id, @tokenHash, @role, @name, @nightId, @stationId, @isConfirmed, @aheadSec, @madeAt, @expiresAt)`)
  const revoke = db.prepare<[string, string]>(
    'UPDATE phone SET revoked_at = ? WHERE token_hash = ? AND revoked_at IS NULL',
  )
  const revokeId = db.prepare<[string, string, string]>(
    'UPDATE phone SET revoked_at = ? WHERE night_id = ? AND id = ? AND revoked_at IS NULL',
  )
  const revokeRole = db.prepare<[string, string]>(
    'UPDATE phone SET revoked_at = ? WHERE role = ? AND revoked_at IS NULL',
  )
  const confirm = db.prepare<[string, string]>('UPDATE phone SET is_confirmed = 1 WHERE night_id = ? AND id = ?')
  const stand = db.prepare<[string | null, string]>('UPDATE phone SET station_id = ? WHERE id = ?')
  const turn = db.prepare<[string], number>('SELECT turn FROM join_turn WHERE night_id = ?').pluck()
  const nextTurn = db.prepare<[string]>(
    'INSERT INTO join_turn (night_id, turn) VALUES (?, 1) ON CONFLICT (night_id) DO UPDATE SET turn = turn + 1',
  )

  return {
    /** The session of a token hash that is neither revoked nor over at the instant, or undefined. */
    find(tokenHash: string, at: Date): Phone | undefined {
      const row = byToken.get(tokenHash, at.toISOString())
      return row && phoneFrom(row)
    },
    /** The living sessions of a night, the oldest first. */
    ofNight: (nightId: string, at: Date): readonly Phone[] => byNight.all(nightId, at.toISOString()).map(phoneFrom),
    add(phone: Phone): void {
      const [madeAt, expiresAt] = [phone.madeAt.toISOString(), phone.expiresAt.toISOString()]
      insert.run({ ...phone, isConfirmed: phone.isConfirmed ? 1 : 0, madeAt, expiresAt })
    },
    revoke: (tokenHash: string, at: Date): void => void revoke.run(at.toISOString(), tokenHash),
    /** Ends the session of one phone of a night; false when there is none. */
    revokeOne: (nightId: string, id: string, at: Date): boolean =>
      revokeId.run(at.toISOString(), nightId, id).changes > 0,
    /** Ends every session of a role. */
    revokeRole: (role: Phone['role'], at: Date): void => void revokeRole.run(at.toISOString(), role),
    /** False when the night has no such phone. */
    confirm: (nightId: string, id: string): boolean => confirm.run(nightId, id).changes > 0,
    stand: (id: string, stationId: string | null): void => void stand.run(stationId, id),
    /** How often the way in was changed on a night. */
    turnOf: (nightId: string): number => turn.get(nightId) ?? 0,
    turnOn: (nightId: string): void => void nextTurn.run(nightId),
  }
}
