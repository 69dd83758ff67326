import { readdirSync } from 'node:fs'
import { basename, join } from 'node:path'
import fastifyView from '@fastify/view'
import type { FastifyInstance, FastifyReply } from 'fastify'
import Handlebars from 'handlebars'
import type { Assets } from './assets.ts'
import type { Pages } from './pages/index.ts'
import { typeset } from './typeset.ts'

export const VIEWS = join(import.meta.dirname, '../../views')

/** A misspelt name in a template throws, and there are no helpers but the built-in ones. */
const STRICT = { strict: true, knownHelpersOnly: true } as const

/** Answers a page of the table `Pages` with its model as finished HTML, in the layout. */
export type SendPage = <Name extends keyof Pages>(
  reply: FastifyReply,
  name: Name,
  model: Pages[Name],
) => Promise<FastifyReply>

declare module 'fastify' {
  interface FastifyReply {
    /** Answers a page of the table `Pages` with its model. */
    page<Name extends keyof Pages>(name: Name, model: Pages[Name]): Promise<FastifyReply>
  }
}

/** Gives the app its templates: each is compiled once, at its first use, with the partials and the printed pieces read here. */
export async function readViews(app: FastifyInstance, folder = VIEWS): Promise<void> {
  const files = ['partials', 'pieces'].flatMap((part) => templatesIn(folder, part))
  const partials = files.map((file) => [basename(file, '.hbs'), file])
  await app.register(fastifyView, {
    engine: { handlebars: Handlebars.create() },
    root: folder,
    layout: 'layout.hbs',
    production: true,
    options: { compileOptions: STRICT, partials: Object.fromEntries(partials) },
  })
}

/** A page as HTML: its model in its template, with the addresses of the styles and scripts it asks for. */
export function pageWriter(assets: Pick<Assets, 'path'>, folder = VIEWS) {
  const files = new Map(
    ['pages', 'print'].flatMap((part) => templatesIn(folder, part)).map((file) => [basename(file, '.hbs'), file]),
  )
  return async <Name extends keyof Pages>(app: FastifyInstance, name: Name, model: Pages[Name]): Promise<string> => {
    const file = files.get(name)
    if (!file) throw new Error(`No template for the page ${name}`)
    const { styles, scripts } = model.sheet
    const paths = { styles: styles.map(assets.path), scripts: scripts.map(assets.path) }
    return typeset(await app.view(file, { ...model, assets: paths }))
  }
}

export type WritePage = ReturnType<typeof pageWriter>

/** Sends pages that are written so; one that shows a form again says in its title that something is wrong. */
export const pageSender =
  (write: WritePage): SendPage =>
  async (reply, name, model) => {
    const title = isRefusal(reply, name) ? model.sheet.refusedTitle : model.sheet.title
    const titled = { ...model, sheet: { ...model.sheet, title } }
    return reply.type('text/html; charset=utf-8').send(await write(reply.server, name, titled))
  }

/** The page of a problem is called so already. */
const isRefusal = ({ statusCode }: FastifyReply, name: keyof Pages): boolean => statusCode >= 400 && name !== 'problem'

/** Gives every reply its `page`. */
export function showPages(app: FastifyInstance, send: SendPage): void {
  app.decorateReply('page', function page(name, model) {
    return send(this, name, model)
  })
}

const templatesIn = (folder: string, part: string): string[] =>
  readdirSync(join(folder, part))
    .filter((file) => file.endsWith('.hbs'))
    .map((file) => `${part}/${file}`)
