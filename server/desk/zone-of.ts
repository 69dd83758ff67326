import tzLookup from '@photostructure/tz-lookup'

/** The time zone of a place by its IANA name, from borders that are simplified: near one it may be the neighbour's. */
export const zoneOf = (latitudeDeg: number, longitudeDeg: number): string => tzLookup(latitudeDeg, longitudeDeg)
