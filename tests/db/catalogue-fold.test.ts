import fc from 'fast-check'
import { expect, it } from 'vitest'
import { bayerWord, starDesignations, starTitle, withoutIndex, writtenOut } from '../../db/catalogue/designations.ts'
import { foldAlias, foldText } from '../../db/catalogue/fold.ts'

it.each([
  ['NGC869', 'ngc 869'],
  ['ngc-869', 'ngc 869'],
  ['M 13', 'm 13'],
  ['α Cen', 'alpha cen'],
  ['αCen', 'alpha cen'],
  ['π³ Orionis', 'pi 3 orionis'],
  ['Boötis', 'bootis'],
  ['Łódź', 'lodz'],
  ['Ålesund', 'alesund'],
  ['Strauß', 'strauss'],
  ["Barnard's Star", 'barnards star'],
  ['  *+-  ', ''],
  ['Афины', 'афины'],
  ['Αθήνα', 'αθηνα'],
  ['𝚨𐅀', 'alpha 𐅀'],
])('folds %s to %s', (text, folded) => {
  expect(foldText(text)).toBe(folded)
})

it('folds a folded text to itself', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 40 }), (text) => foldText(foldText(text)) === foldText(text)),
  )
})

it('takes spaces, dashes and cases of an alias for the same', () => {
  expect(new Set(['Alpha Cen', 'alpha-cen', 'ALPHACEN', 'α Cen'].map(foldAlias))).toEqual(new Set(['alphacen']))
})

it('writes Bayer letters as words, with their index, and Latin letters as they are', () => {
  expect(['α', 'ω2', 'ο1', 'g', 'L2'].map(bayerWord)).toEqual(['Alpha', 'Omega2', 'Omicron1', 'g', 'L2'])
})

it('writes out the letters of well-known lists, and of nothing else', () => {
  expect(writtenOut('M 13')).toBe('messier 13')
  expect(writtenOut('Mel 25')).toBe('melotte 25')
  expect(writtenOut('GJ 820A')).toBe('gliese 820 a')
  expect(writtenOut('c1 Centauri')).toBeUndefined()
  expect(writtenOut('NGC 869')).toBeUndefined()
})

it('drops the index of a numbered letter, and no other number', () => {
  expect(withoutIndex('Alpha1 Centauri')).toBe('Alpha Centauri')
  expect(withoutIndex('61 Cygni')).toBeUndefined()
  expect(withoutIndex('V1803 Cygni')).toBeUndefined()
})

const star = {
  hip: 104214,
  raDeg: 316.7,
  decDeg: 38.7,
  pmRaMasYr: 0,
  pmDecMasYr: 0,
  parallaxMas: 0,
  magnitude: 5.2,
  bv: 1.07,
  constellation: 'Cyg',
}
const named = {
  name: '',
  constellation: 'Cyg',
  bayer: '',
  flamsteed: '61',
  variable: 'V1803',
  nearby: 'GJ 820A',
  hd: 'HD 201091',
}

it('calls a star by its name, else its letter, its number, its variable name, else by a catalogue', () => {
  expect(starTitle(star, { ...named, name: 'Any', bayer: 'π3' }, 'Cygni')).toBe('Any')
  expect(starTitle(star, { ...named, bayer: 'π3' }, 'Cygni')).toBe('Pi3 Cygni')
  expect(starTitle(star, named, 'Cygni')).toBe('61 Cygni')
  expect(starTitle(star, { ...named, flamsteed: '' }, 'Cygni')).toBe('V1803 Cygni')
  expect(starTitle(star, { ...named, flamsteed: '', variable: '' }, 'Cygni')).toBe('GJ 820A')
  expect(starTitle(star, undefined, 'Cygni')).toBe('HIP 104214')
})

it('lists every designation with genitive and code', () => {
  expect(starDesignations(star, named, { code: 'Cyg', name: 'Cygnus', genitive: 'Cygni' })).toEqual([
    '61 Cygni',
    '61 Cyg',
    'V1803 Cygni',
    'V1803 Cyg',
    'GJ 820A',
    'HD 201091',
    'HIP 104214',
  ])
})
