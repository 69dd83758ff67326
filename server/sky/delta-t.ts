const DAY_SEC = 86_400
const TT_MINUS_TAI_SEC = 32.184
/** TAI - UTC on 1 January 1972 in seconds, before the first leap second. */
const FIRST_OFFSET_SEC = 10

/** The days on which the count of leap seconds went up by one (IERS Bulletin C; none announced after the last). */
const LEAP_DAYS: readonly string[] = [
  ...['1972-07-01', '1973-01-01', '1974-01-01', '1975-01-01', '1976-01-01', '1977-01-01', '1978-01-01', '1979-01-01'],
  ...['1980-01-01', '1981-07-01', '1982-07-01', '1983-07-01', '1985-07-01', '1988-01-01', '1990-01-01', '1991-01-01'],
  ...['1992-07-01', '1993-07-01', '1994-07-01', '1996-01-01', '1997-07-01', '1999-01-01', '2006-01-01', '2009-01-01'],
  ...['2012-07-01', '2015-07-01', '2017-01-01'],
]

const EPOCH_MS = Date.UTC(2000, 0, 1, 12)
const LEAPS_AFTER_DAYS = LEAP_DAYS.map((day) => (Date.parse(`${day}T00:00:00Z`) - EPOCH_MS) / (DAY_SEC * 1000))

/**
 * Terrestrial time minus UTC in seconds, from the UTC days since 2000 January 1 noon: 69.184 since 2017, 42.184 before
 * July 1972. UTC stands for UT1 in the whole service (they differ by less than 0.9 s by definition), so this is delta T.
 */
export function deltaTSec(utcDays: number): number {
  const leaps = LEAPS_AFTER_DAYS.filter((day) => utcDays >= day).length
  return TT_MINUS_TAI_SEC + FIRST_OFFSET_SEC + leaps
}
