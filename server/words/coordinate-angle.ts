import type { Piece } from './coordinate-pieces.ts'

/** Why a coordinate was not understood. */
export type AngleCode =
  | 'problem.place-unread'
  | 'problem.place-swapped'
  | 'problem.place-sign-and-letter'
  | 'problem.place-minutes'
  | 'problem.place-seconds'

const MARKS = ['°', "'", '"']
/** A ten-millionth of a degree is a hundredth of a metre. */
const PARTS = 1e7

/** One coordinate in degrees, and NaN with the reason where it was not understood. */
export function angleOf(
  piece: Piece | undefined,
  axis: 'latitudeDeg' | 'longitudeDeg',
): { readonly deg: number; readonly code: AngleCode | null } {
  const code = piece === undefined ? 'problem.place-unread' : codeOf(piece, axis)
  if (piece === undefined || code !== null) return { deg: Number.NaN, code }
  const [degrees = 0, minutes = 0, seconds = 0] = piece.figures.map(({ value }) => value)
  const size = degrees + minutes / 60 + seconds / 3600
  const isNegative = piece.sign === '-' || piece.half?.sign === -1
  const rounded = piece.figures.length === 1 ? size : Math.round(size * PARTS) / PARTS
  return { deg: isNegative && rounded !== 0 ? -rounded : rounded, code: null }
}

function codeOf({ figures, sign, half, isRead }: Piece, axis: string): AngleCode | null {
  const inOrder = figures.every(
    ({ mark, isWhole }, at) => (mark === '' || mark === MARKS[at]) && (isWhole || at === figures.length - 1),
  )
  if (!isRead || !inOrder || figures.length === 0 || figures.length > 3) return 'problem.place-unread'
  if (half !== null && half.axis !== axis) return 'problem.place-swapped'
  if (half !== null && (sign === '-' || (sign === '+' && half.sign === -1))) return 'problem.place-sign-and-letter'
  if ((figures[1]?.value ?? 0) >= 60) return 'problem.place-minutes'
  return (figures[2]?.value ?? 0) >= 60 ? 'problem.place-seconds' : null
}
