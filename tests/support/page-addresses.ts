import type { APIRequestContext } from 'playwright-core'

/** Every page that a person can open, by a name that sorts with its other looks, and its address on a night. */
export const PAGES: Readonly<Record<string, string>> = {
  board: '/',
  night: '/nights/:night',
  'sign-in': '/sign-in',
  join: '/join?look=day',
  'join-lamp': '/join?look=lamp',
  nights: '/nights',
  'night-new': '/nights/new',
  start: '/start',
  'start-made': '/nights/:night/start',
  dates: '/dates',
  date: '/dates/2027-02-12',
  'date-rules': '/sites/:site/date-rules',
  'night-edit': '/nights/:night/edit',
  sites: '/sites',
  'site-new': '/sites/new?q=bern',
  'site-edit': '/sites/:site/edit',
  'site-notes': '/sites/:site/notes',
  backups: '/backups',
  'backup-go-back': '/backups/:backup',
  report: '/nights/:night/report',
  season: '/season',
  reading: '/reading?from=/nights',
  'reading-lamp': '/reading?from=/nights&look=lamp',
  telescopes: '/telescopes',
  telescope: '/telescopes/:telescope',
  'telescope-new': '/telescopes/new',
  'telescope-edit': '/telescopes/:telescope/edit',
  programme: '/nights/:night/programme',
  'programme-by-time': '/nights/:night/programme?by=time',
  again: '/nights/:night/again',
  wishes: '/nights/:night/wishes?q=orion',
  go: '/nights/:night/go',
  'go-limits': '/nights/:night/go/limits',
  'thin-cloud': '/nights/:night/thin-cloud',
  checklists: '/nights/:night/checklists',
  'checklists-lamp': '/nights/:night/checklists?look=lamp',
  'checklists-edit': '/nights/:night/checklists/edit',
  class: '/nights/:night/class',
  phones: '/nights/:night/phones',
  papers: '/nights/:night/papers',
  check: '/nights/:night/check',
  'check-lamp': '/nights/:night/check?look=lamp',
  line: '/nights/:night/line',
  hole: '/nights/:night/hole?open=e,se,overhead',
  'hole-by-day': '/nights/:night/hole?open=w&look=day',
  align: '/nights/:night/align?at=17:30&look=lamp',
  'align-by-day': '/nights/:night/align',
  'set-up': '/nights/:night/set-up?look=lamp',
  'set-up-by-day': '/nights/:night/set-up',
  aloud: '/nights/:night/aloud?look=lamp',
  'aloud-by-day': '/nights/:night/aloud',
  faults: '/nights/:night/faults?look=lamp&stage=both&first=hip91262&second=hip24608&aimed=moon&seen=off&side=1',
  'faults-by-day': '/nights/:night/faults',
  objects: '/objects',
  'objects-chosen': '/objects?kind=galaxy&evening=3&good=true',
  object: '/objects/m42',
  'object-star': '/objects/hip100453',
  'object-star-lamp': '/objects/hip100453?look=lamp',
  'object-lamp': '/objects/m42?look=lamp',
  'own-objects': '/extras',
  'own-form': '/extras/new',
  'own-import': '/extras/import',
  carry: '/nights/import',
  'carry-things': '/extras/file/import',
  'own-words': '/objects/m42/words',
  'night-objects': '/nights/:night/objects?q=orion',
  'object-tonight': '/nights/:night/objects/m42',
  'object-never': '/nights/:night/objects/ngc5139',
  newcomers: '/sites/:site/newcomers',
  'field-row': '/field/:night?look=lamp',
  'field-row-by-day': '/field/:night?look=day',
  field: '/field/:night/:station?look=lamp',
  'field-by-day': '/field/:night/:station?look=day',
  'line-page': '/field/:night/line?look=lamp',
  'line-page-by-day': '/field/:night/line?look=day',
  tonight: '/tonight/:night?look=day',
  'tonight-lamp': '/tonight/:night?look=lamp',
  'run-sheet': '/nights/:night/print/run-sheet',
  'check-sheet': '/nights/:night/print/check-sheet',
  sheets: '/nights/:night/print/sheets',
  cards: '/nights/:night/print/cards',
  'join-card': '/nights/:night/print/join-card',
  'print-tonight': '/nights/:night/print/tonight',
  'report-print': '/nights/:night/report/print',
  'site-notes-print': '/sites/:site/notes/print',
}

/** What stands in the addresses for the parts that each start of the demo names anew. */
export interface DemoPlaces {
  readonly night: string
  readonly station: string
  readonly site: string
  readonly telescope: string
  readonly backup: string
}

const DEMO_DATE = '2026-12-17'

/** The places of the northern night of the demo, asked of the service as the host. */
export async function demoPlaces(request: APIRequestContext, url: string): Promise<DemoPlaces> {
  const { nights } = await (await request.get(`${url}/api/nights`)).json()
  const { id, site, stations } = nights.find(({ date }: { date: string }) => date === DEMO_DATE)
  const copies = await (await request.get(`${url}/backups`)).text()
  const backup = /href="\/backups\/([^"?#]+)"/.exec(copies)?.[1]
  if (!backup) throw new Error('The demo has made no copy of its database')
  return { night: id, station: stations[1].id, site: site.id, telescope: stations[1].telescope.id, backup }
}

/** The address of a page, without the name of the laptop. */
export function pageAddress(name: string, places: DemoPlaces): string {
  const path = PAGES[name]
  if (path === undefined) throw new Error(`Nobody knows the page ${name}`)
  return Object.entries(places).reduce((address, [part, id]) => address.replace(`:${part}`, id), path)
}
