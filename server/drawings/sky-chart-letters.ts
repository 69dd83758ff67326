/** Letters of 12.5 points on paper 180 mm wide. */
export const LETTER_PX = 22
export const LINE_PX = 28
export const LETTERS = { 'font-size': LETTER_PX, fill: 'currentColor' }
/** A white rim, so that what runs below does not cut the letters. */
export const RIM = { stroke: 'white', 'stroke-width': 6, 'stroke-linejoin': 'round', 'paint-order': 'stroke' }
