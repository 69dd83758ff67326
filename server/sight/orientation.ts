/** What of a tube decides how it shows the sky. */
interface Turning {
  readonly design: 'refractor' | 'reflector' | 'catadioptric'
  readonly hasDiagonal: boolean
}

/** How a tube shows the sky beside the bare eye: turned by half a turn or not, left and right changed over or not. */
interface TubeView {
  readonly code: 'mirrored' | 'turned'
  readonly turnedDeg: 0 | 180
  readonly isMirrored: boolean
}

/**
 * An eyepiece straight behind lenses, or beside a reflecting tube, turns the view by half a turn; a star diagonal turns it
 * upright again and changes left and right over (common practice, no source).
 */
export const tubeView = ({ design, hasDiagonal }: Turning): TubeView =>
  hasDiagonal && design !== 'reflector'
    ? { code: 'mirrored', turnedDeg: 0, isMirrored: true }
    : { code: 'turned', turnedDeg: 180, isMirrored: false }
