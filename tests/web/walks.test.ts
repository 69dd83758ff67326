import { describe, expect, it } from 'vitest'
import { walksPiece } from '../../server/web/pages/walks.ts'
import { HOST } from '../support/page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from '../support/paper-pages.ts'

describe('the walks over the trees and roofs', () => {
  it('show every target once, with its stations', () => {
    const [page] = walksPiece(HOST, A_FULL_PRINT).pages
    expect(walksPiece(HOST, A_FULL_PRINT).how).toContain('dashed where something is in the way')
    expect(page?.walks).toMatchObject([{ name: 'Great cluster in Hercules', stations: 'By the oak' }])
  })

  it('tell an evening without stops from one whose targets have no walk', () => {
    const pictures = { walk: () => null }
    const bare = walksPiece(HOST, { ...A_FULL_PRINT, pictures })
    expect(bare.pages).toEqual([{ walks: [] }])
    expect(bare.emptyText).toBe('None of tonight’s targets has a walk that can be drawn.')
    expect(walksPiece(HOST, AN_EMPTY_PRINT).emptyText).toBe('Nothing is on the programme.')
  })
})
