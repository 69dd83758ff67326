import type { Night } from '../../tours/night.ts'

/** The page of cloud holes of a night. */
export const holeHref = ({ id }: Pick<Night, 'id'>): string => `/nights/${id}/hole`
