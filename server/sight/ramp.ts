/** 0 up to `from`, 1 from `to` on, a straight line between; `to` lies above `from`. */
export const ramp = (value: number, from: number, to: number): number =>
  value <= from ? 0 : value >= to ? 1 : (value - from) / (to - from)

/** A number rounded to so many decimals, never minus zero. */
export const rounded = (value: number, decimals = 1): number => {
  const scale = 10 ** decimals
  return Math.round(value * scale) / scale + 0
}
