const DAY_MS = 86_400_000
const YEAR_DAYS = 365.25
const EPOCH_MS = Date.UTC(2000, 0, 1, 12)

/** Julian years since 2000 January 1, noon UTC; negative before. */
export const yearsSinceEpoch = (at: Date): number => (at.getTime() - EPOCH_MS) / (DAY_MS * YEAR_DAYS)
