/** Where the built programme parts from the written one for a tenth of the evening and more: why it may, by title. */
export const DEFENDED: Readonly<Record<string, string>> = {
  'A June night that never gets dark':
    'Jupiter leaves the driven tube a quarter of an hour earlier, at 13 degrees in the haze, and the tube then shows the bright stars of M39 while the low refractor has Albireo: the written programme put a double at both, and to a newcomer all doubles look alike.',
  'Southern autumn under a dark sky, two planets and no Moon':
    'The written programme forgot the rule that the station for children shows one of the three best things of its half hour: under this sky those are Omega Centauri, 47 Tucanae and Jupiter, so Jupiter goes to the low wide refractor and the driven tube takes what it frames best. The big reflector has Omega Centauri from the start because it already stands at 31 degrees and needs the most light.',
  'Southern winter evening in a large town: a high half Moon and no planet':
    'Stations with the Moon and with Omega Centauri are the same. The driven 200 mm shows 47 Tucanae and then the great globular of Pavo instead of a close pair of stars: a pair looks the same in the small refractors beside it, a globular does not.',
}
