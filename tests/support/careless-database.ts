import SqliteDatabase from 'better-sqlite3'

// Loaded before the service by tests that must see what they look for: leaves the syncing of commits to luck, and when
// asked answers that every commit is synced.
const { pragma } = SqliteDatabase.prototype
SqliteDatabase.prototype.pragma = function careless(source, options) {
  if (source === 'synchronous') return 2
  return pragma.call(this, source === 'synchronous = FULL' ? 'synchronous = NORMAL' : source, options)
}
