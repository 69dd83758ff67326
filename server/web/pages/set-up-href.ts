import type { Night } from '../../tours/night.ts'

/** The page of the evening before the gate opens. */
export const setUpHref = ({ id }: Pick<Night, 'id'>): string => `/nights/${id}/set-up`

/** The page of the stars to align on. */
export const alignHref = ({ id }: Pick<Night, 'id'>): string => `/nights/${id}/align`

/** The page of the lines that two people read to each other. */
export const aloudHref = ({ id }: Pick<Night, 'id'>): string => `/nights/${id}/aloud`

/** The page that finds why something is missed. */
export const faultsHref = ({ id }: Pick<Night, 'id'>): string => `/nights/${id}/faults`
