// The storage of this phone, where it has one that may be used.
export function shelfOf(): Storage | null {
  try {
    return localStorage
  } catch {
    return null
  }
}
