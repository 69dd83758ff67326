/** A telescope as a host types it into the form. */
export const TELESCOPE_FIELDS = {
  name: 'New one',
  'tubes.0.apertureMm': '150',
  'tubes.0.focalLengthMm': '750',
  'tubes.0.design': 'reflector',
  'eyepieces.0.focalLengthMm': '25',
  'eyepieces.0.apparentFieldDeg': '52',
  axisLowCm: '70',
  axisHighCm: '90',
  floorDeg: '10',
  ceilingDeg: '80',
}

/** A night as a host types it into the form. */
export const NIGHT_FIELDS = {
  title: 'Stars for all',
  siteId: 'site-1',
  date: '2026-11-20',
  opens: '18:30',
  closes: '20:00',
  'stations.0.kind': 'telescope',
  'stations.0.telescopeId': 'telescope-1',
}
