import { csvRows } from '../csv.ts'
import { csvOf, skyText } from './package.ts'
import type { SkyStar } from './stars.ts'

/** The columns that may be used: bayer, flam, var, gl from the General Catalogue of Variable Stars, VizieR IV/27A, IV/22 and V/70A; no proper name. */
interface NameRow {
  readonly bayer?: string
  readonly flam?: string
  readonly var?: string
  readonly gl?: string
  readonly hd?: string
  readonly c?: string
}

// HIP 20535 is 43 Eridani; its letter was lost in the package, beside upsilon 1, 2 and 4 Eridani.
const lostLetters: Readonly<Record<string, string>> = { '20535': 'υ3' }

const variable = (name: string): string => (name.startsWith('NSV') ? '' : name.replace(/^V0+/, 'V'))

/** `designations.csv`: of the stars to V 8, those with a designation other than their Hipparcos number. `constellation` is the one the designation itself names. */
export function designationsCsv(stars: readonly SkyStar[]): string {
  const names: Readonly<Record<string, NameRow>> = JSON.parse(skyText('starnames.json'))
  const codes = new Set(csvRows('constellations.csv').map(([code]) => code))
  const rows = stars.flatMap(({ hip }) => {
    const row = names[hip]
    if (row === undefined) return []
    const code = row.c !== undefined && codes.has(row.c) ? row.c : ''
    const inConstellation =
      code === '' ? ['', '', ''] : [lostLetters[hip] ?? row.bayer ?? '', row.flam ?? '', variable(row.var ?? '')]
    return [[hip, code, ...inConstellation, row.gl ?? '', row.hd ?? '']]
  })
  return csvOf(
    ['hip', 'constellation', 'bayer', 'flamsteed', 'variable', 'nearby', 'hd'],
    rows.filter(([, , ...designations]) => designations.some((designation) => designation !== '')),
  )
}
