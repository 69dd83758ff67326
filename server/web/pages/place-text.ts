import type { Site } from '../../tours/site.ts'
import type { Words } from '../../words/words.ts'

const MIN_PER_DEG = 60

/** Latitude and longitude in degrees and minutes with the halves of the Earth as words. */
export const placeText = (
  words: Words,
  { latitudeDeg, longitudeDeg }: Pick<Site, 'latitudeDeg' | 'longitudeDeg'>,
): string =>
  words.say('page.place', {
    latitude: words.say(latitudeDeg < 0 ? 'page.south' : 'page.north', arc(words, latitudeDeg)),
    longitude: words.say(longitudeDeg < 0 ? 'page.west' : 'page.east', arc(words, longitudeDeg)),
  })

function arc(words: Words, angleDeg: number): { degrees: string; minutes: string } {
  const tenths = Math.round(Math.abs(angleDeg) * MIN_PER_DEG * 10)
  const minutesTenths = tenths % (MIN_PER_DEG * 10)
  return {
    degrees: String((tenths - minutesTenths) / (MIN_PER_DEG * 10)),
    minutes: words.number(minutesTenths / 10, 1),
  }
}
