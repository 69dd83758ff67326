import type { Database } from 'better-sqlite3'

/** A signed-in session. The token itself is nowhere kept: `tokenHash` is its SHA-256 in hexadecimal. */
export interface Phone {
  readonly id: string
  readonly tokenHash: string
  readonly role: string
  readonly name: string
  readonly madeAt: Date
  readonly expiresAt: Date
}

interface PhoneRow extends Omit<Phone, 'madeAt' | 'expiresAt'> {
  readonly madeAt: string
  readonly expiresAt: string
}

export type PhoneStore = ReturnType<typeof phoneStore>

/** Every statement about sessions. */
export function phoneStore(db: Database) {
  const byToken = db.prepare<[string, string], PhoneRow>(`
    SELECT id, token_hash AS tokenHash, role, name, made_at AS madeAt, expires_at AS expiresAt
    FROM phone WHERE token_hash = ? AND revoked_at IS NULL AND expires_at > ?`)
  const insert = db.prepare<[PhoneRow]>(`
    INSERT INTO phone (id, token_hash, role, name, made_at, expires_at)
    VALUES (@id, @tokenHash, @role, @name, @madeAt, @expiresAt)`)
  const revoke = db.prepare<[string, string]>(
    'UPDATE phone SET revoked_at = ? WHERE token_hash = ? AND revoked_at IS NULL',
  )
  const revokeRole = db.prepare<[string, string]>(
    'UPDATE phone SET revoked_at = ? WHERE role = ? AND revoked_at IS NULL',
  )

  return {
    /** The session of a token hash that is neither revoked nor over at the instant, or undefined. */
    find(tokenHash: string, at: Date): Phone | undefined {
      const row = byToken.get(tokenHash, at.toISOString())
      return row && { ...row, madeAt: new Date(row.madeAt), expiresAt: new Date(row.expiresAt) }
    },
    add: (phone: Phone): void =>
      void insert.run({ ...phone, madeAt: phone.madeAt.toISOString(), expiresAt: phone.expiresAt.toISOString() }),
    revoke: (tokenHash: string, at: Date): void => void revoke.run(at.toISOString(), tokenHash),
    /** Ends every session of a role. */
    revokeRole: (role: string, at: Date): void => void revokeRole.run(at.toISOString(), role),
  }
}
