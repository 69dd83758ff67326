import { loadAssets } from '../../server/web/assets.ts'

/** Styles, browser scripts and fonts as the service serves them, made ready once for all tests. */
export const ASSETS = loadAssets()
