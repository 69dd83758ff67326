import { readdirSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import type { FastifyInstance, FastifyReply } from 'fastify'
import Handlebars from 'handlebars'
import type { Assets } from './assets.ts'
import type { Pages } from './pages/index.ts'

export const VIEWS = join(import.meta.dirname, '../../views')

/** A misspelt name in a template throws, and there are no helpers but the built-in ones. */
const STRICT = { strict: true, knownHelpersOnly: true } as const

export interface Views {
  /** A page as finished HTML: its model in its template, in the layout. */
  render<Name extends keyof Pages>(name: Name, model: Pages[Name]): string
}

declare module 'fastify' {
  interface FastifyReply {
    /** Answers a page of the table `Pages` with its model. */
    page<Name extends keyof Pages>(name: Name, model: Pages[Name]): FastifyReply
  }
}

/** Reads and compiles layout, pages, print pages and partials once; nothing is compiled while the service runs. */
export function loadViews(assets: Pick<Assets, 'path'>, folder = VIEWS): Views {
  const handlebars = Handlebars.create()
  for (const [name, source] of templates(join(folder, 'partials'))) handlebars.registerPartial(name, source)
  const compile = (source: string) => handlebars.compile<object>(source, STRICT)
  const layout = compile(readFileSync(join(folder, 'layout.hbs'), 'utf8'))
  const pages = new Map(
    [...templates(join(folder, 'pages')), ...templates(join(folder, 'print'))].map(([name, source]) => [
      name,
      compile(source),
    ]),
  )
  return {
    render(name, model) {
      const page = pages.get(name)
      if (!page) throw new Error(`No template for the page ${name}`)
      const { styles, scripts } = model.sheet
      const linked = { styles: styles.map(assets.path), scripts: scripts.map(assets.path) }
      return layout({ ...model, assets: linked, body: page({ ...model, assets: linked }) })
    },
  }
}

function templates(folder: string): [name: string, source: string][] {
  return readdirSync(folder)
    .filter((file) => file.endsWith('.hbs'))
    .map((file) => [basename(file, '.hbs'), readFileSync(join(folder, file), 'utf8')])
}

/** Answers a page; for the rare reply that was made before there was a `reply.page`. */
export const sendPage = <Name extends keyof Pages>(
  reply: FastifyReply,
  views: Views,
  name: Name,
  model: Pages[Name],
): FastifyReply => reply.type('text/html; charset=utf-8').send(views.render(name, model))

/** Gives every reply its `page`. */
export function showPages(app: FastifyInstance, views: Views): void {
  app.decorateReply('page', function page(name, model) {
    return sendPage(this, views, name, model)
  })
}
