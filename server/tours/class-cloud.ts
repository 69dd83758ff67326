import { AU_KM, RADIUS_KM } from '../sky/globe.ts'

/** The parts of the programme for cloud, each with the minutes at which it begins and ends. */
export const CLOUD_BLOCKS = [
  { key: 'welcome', fromMin: 0, toMin: 5 },
  { key: 'telescope', fromMin: 5, toMin: 15 },
  { key: 'fruit', fromMin: 15, toMin: 25 },
  { key: 'story', fromMin: 25, toMin: 35 },
  { key: 'questions', fromMin: 35, toMin: 42 },
  { key: 'home', fromMin: 42, toMin: 45 },
] as const
export type CloudBlock = (typeof CLOUD_BLOCKS)[number]['key']

export const MODEL_WORLDS = [
  'mercury',
  'venus',
  'earth',
  'moon',
  'mars',
  'jupiter',
  'saturn',
  'uranus',
  'neptune',
  'sun',
] as const
type ModelWorld = (typeof MODEL_WORLDS)[number]

/** Radius of the Earth at the equator and mean distance of the Moon in kilometres, from memory. */
const EARTH_KM = 6378
const MOON_KM = 384_400

/** The Earth as a cherry. */
export const EARTH_CM = 2
const CM_M = 100

const modelCm = (km: number): number => (km / (2 * EARTH_KM)) * EARTH_CM

/** How wide each world is where the Earth is a cherry. */
export const modelWidthCm = (world: ModelWorld): number =>
  modelCm(2 * (world === 'earth' ? EARTH_KM : RADIUS_KM[world]))

/** How far the Moon is from the Earth in the model, and the Sun. */
export const MODEL_MOON_CM = modelCm(MOON_KM)
export const MODEL_SUN_M = modelCm(AU_KM) / CM_M
