import { type JupiterMoon, jupiterMoons } from '../sky/jupiter.ts'
import { type MoonFace, moonFace } from '../sky/moon-face.ts'

/** What the Moon and Jupiter turn to us at an instant: the day-night line, and the four bright moons. */
export interface Faces {
  readonly moon: MoonFace
  readonly jupiterMoons: readonly JupiterMoon[]
}

/** The faces at an instant, as seen from the Earth's centre. */
export const facesAt = (at: Date): Faces => ({ moon: moonFace(at), jupiterMoons: jupiterMoons(at) })
