import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import Fastify from 'fastify'
import { describe, expect, it } from 'vitest'
import type { Pages } from '../../server/web/pages/index.ts'
import { PIECE_NAMES, papersPage } from '../../server/web/pages/papers.ts'
import { pageWriter, readViews, VIEWS } from '../../server/web/views.ts'
import { EVERY_PAGE } from '../support/every-page.ts'
import { HOST } from '../support/page-data.ts'
import { A_FULL_PRINT } from '../support/paper-pages.ts'

/** Sentences that the script of the page fills itself. */
const FOR_SCRIPTS = / data-[\w-]+="[^"]*"/g

/** Papers that tell nothing of the programme, and so never warn of an old one. */
const APART: readonly string[] = ['checklists', 'class-letter', 'class-cloud', 'site-notes', 'thin-cloud']

const app = Fastify()
await readViews(app)
const write = pageWriter({ path: (name) => `/assets/${name}` })
const names: (keyof Pages)[] = []
for (const name in EVERY_PAGE) if (isPage(name)) names.push(name)

function isPage(name: string): name is keyof Pages {
  return name in EVERY_PAGE
}

async function rendered<Name extends keyof Pages>(name: Name): Promise<[full: string, empty: string]> {
  const [full, empty] = EVERY_PAGE[name]
  return [await write(app, name, full), await write(app, name, empty)]
}

const written = new Map(await Promise.all(names.map(async (name) => [name, await rendered(name)] as const)))

describe.each(names)('the page %s', (name) => {
  const pages = written.get(name) ?? []

  it('has one main heading, a title and a language', () => {
    for (const html of pages) {
      expect(html).toMatch(/<html lang="en"/)
      expect(html).toMatch(/<title>[^<]+<\/title>/)
      expect(html.match(/<main/g)).toHaveLength(1)
      expect(html).toMatch(/<h1/)
    }
  })

  it('carries no style, script or handler of its own, which the door would refuse', () => {
    for (const html of pages) {
      expect(html).not.toMatch(/ style=| on\w+="|<style|<script(?! src=)|javascript:/)
    }
  })

  it('posts only to addresses of this service, and names every field', () => {
    for (const html of pages) {
      for (const [, action = ''] of html.matchAll(/<form[^>]* action="([^"]*)"/g)) expect(action).toMatch(/^\/(?!\/)/)
      for (const [field] of html.matchAll(/<(?:input|select)[^>]*>/g)) expect(field).toMatch(/ name="[^"]+"/)
    }
  })

  it('says nothing undefined and no bare code', () => {
    for (const html of pages) {
      expect(html).not.toMatch(/undefined|NaN|\[object /)
      expect(html.replace(FOR_SCRIPTS, '')).not.toMatch(/\{\w+\}/)
      expect(html).not.toMatch(/>\s*(sight|tour|cause|rule|problem|page)\.[a-z-]+\s*</)
    }
  })
})

describe('a programme that is not all that is to know', () => {
  it('has its own word on the board and on its page, with a button for the host', () => {
    const [board = ''] = written.get('board') ?? []
    expect(board).toMatch(/A newer programme waits: version 2, made at 19:15\./)
    expect(board).toMatch(/href="[^"]*\/again#new">See old beside new</)
    expect(board).toMatch(/action="[^"]*\/programme\/accept".*name="tourId" value="tour-2"/s)
    const [programme = ''] = written.get('programme') ?? []
    expect(programme).toMatch(/The row does not go by this version\..*name="tourId" value="tour-1"/s)
    expect(programme).toMatch(/The night was changed after this programme was built.*Build it again/s)
  })

  it.each(PIECE_NAMES.filter((name) => !APART.includes(name)))(
    'is printed with a warning as %s, and one that holds without',
    async (name) => {
      const printed = (isStale: boolean) => write(app, 'papers', papersPage(HOST, { ...A_FULL_PRINT, isStale }, name))
      expect(await printed(true)).toContain('Out of date: the night was changed after this programme was built.')
      expect(await printed(false)).not.toContain('Out of date')
    },
  )
})

describe('the templates', () => {
  it('are one for every page', () => {
    const files = ['pages', 'print'].flatMap((folder) => readdirSync(join(VIEWS, folder)))
    expect(files.sort()).toEqual(names.map((name) => `${name}.hbs`).sort())
  })

  it('refuse a model that lacks what they say', async () => {
    const { status: _left, ...rest } = EVERY_PAGE.problem[0]
    await expect(write(app, 'problem', JSON.parse(JSON.stringify(rest)))).rejects.toThrow(/status/)
  })

  it('write what people typed as text, never as markup', async () => {
    const [full] = EVERY_PAGE.problem
    expect(await write(app, 'problem', { ...full, message: '<b>oak</b>' })).toContain('&lt;b&gt;oak')
  })
})
