import type { Night } from '../../tours/night.ts'
import type { Site } from '../../tours/site.ts'

/** The page of what is to be seen to on a night. */
export const checklistsHref = ({ id }: Pick<Night, 'id'>): string => `/nights/${id}/checklists`

/** The page of what was agreed for a visiting class. */
export const classVisitHref = ({ id }: Pick<Night, 'id'>): string => `/nights/${id}/class`

/** The page of what the host must know of a site. */
export const siteNotesHref = ({ id }: Pick<Site, 'id'>): string => `/sites/${id}/notes`
