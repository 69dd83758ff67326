/** One font file of an installed package: `file` is its path below node_modules, `name` its asset name. */
export interface FontFile {
  readonly name: string
  readonly file: string
  readonly family: string
  readonly weight: number
  readonly unicodeRange: string
}

const FOLDER = '@fontsource/andika/files'
const LATIN =
  'U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0304,U+0308,U+0329,U+2000-206F,U+20AC,U+2122,U+2191,U+2193,U+2212,U+2215,U+FEFF,U+FFFD'
const LATIN_EXT =
  'U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF'

const fontFile = (subset: string, weight: number, unicodeRange: string): FontFile => ({
  name: `andika-${subset}-${weight}.woff2`,
  file: `${FOLDER}/andika-${subset}-${weight}-normal.woff2`,
  family: 'Andika',
  weight,
  unicodeRange,
})

/** Andika (SIL Open Font License 1.1): made for new readers, its ten digits all equally wide (1200 of 2048 units, bold 1240). */
export const FONTS: readonly FontFile[] = [
  fontFile('latin', 400, LATIN),
  fontFile('latin', 700, LATIN),
  fontFile('latin-ext', 400, LATIN_EXT),
  fontFile('latin-ext', 700, LATIN_EXT),
]
