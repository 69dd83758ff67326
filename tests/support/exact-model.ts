import { AGAIN_BY_KIND, SAME_KIND_LOOKS, SAME_TARGET_LOOKS, WANDERING_LOOKS } from '../../server/tours/alike.ts'
import { cellAt, type Grid } from '../../server/tours/grid.ts'
import { ANYONE, isShowpiece, mostMoves, weightOf } from '../../server/tours/rules.ts'
import { botherLooks, SHORT_STOP_LOOKS } from '../../server/tours/value.ts'
import { exactLooks } from './exact-looks.ts'
import { MixedInteger, minus, type Terms } from './mixed-integer.ts'

/**
 * The whole choice of a programme as such a model, written apart from the search and the bound: every factor of the score,
 * with looks given quarter by quarter as the line gives them. Every station must have something on offer at all times.
 */
export function exactModel(grid: Grid): string {
  const model = new MixedInteger()
  const [S, C, T] = [grid.stations.length, grid.candidates.length, grid.slots]
  const shown = new Map<string, string>()
  const at = (s: number, c: number, t: number): string | undefined => shown.get(`${s} ${c} ${t}`)
  for (let s = 0; s < S; s++) {
    for (let t = 0; t < T; t++) {
      const choices: [number, string][] = []
      for (let c = 0; c < C; c++) {
        if ((grid.worth[cellAt(grid, s, c, t)] ?? 0) <= 0) continue
        const name = model.binary()
        shown.set(`${s} ${c} ${t}`, name)
        choices.push([1, name])
      }
      if (choices.length === 0) throw new Error('A quarter with nothing on offer')
      model.row(choices, '=', 1)
    }
  }
  exactLooks(grid, model, at)
  moves(grid, model, at)
  crowds(grid, model, at)
  evening(grid, model, at)
  duties(grid, model, at)
  return model.text()
}

export type At = (s: number, c: number, t: number) => string | undefined

function moves(grid: Grid, model: MixedInteger, at: At): void {
  const C = grid.candidates.length
  for (let s = 0; s < grid.stations.length; s++) {
    const begun: [number, string][] = []
    for (let t = 0; t < grid.slots; t++) {
      for (let c = 0; c < C; c++) {
        const here = at(s, c, t)
        if (here === undefined) continue
        shortStop(model, here, t > 0 ? at(s, c, t - 1) : undefined, t + 1 < grid.slots ? at(s, c, t + 1) : undefined)
        if (t === 0) continue
        for (let d = 0; d < C; d++) {
          const before = at(s, d, t - 1)
          if (d === c || before === undefined) continue
          const lost = (grid.moving[(s * C + d) * C + c] ?? 0) * (grid.worth[cellAt(grid, s, c, t)] ?? 0)
          const move = model.variable(-(botherLooks(grid) + lost))
          model.row(
            [
              [1, move],
              [-1, here],
              [-1, before],
            ],
            '>=',
            -1,
          )
          begun.push([1, move])
        }
      }
    }
    const over = model.variable(-weightOf('rule.moves'))
    model.row([[1, over], ...begun.map(([, name]): [number, string] => [-1, name])], '>=', -mostMoves(grid))
  }
}

function shortStop(model: MixedInteger, here: string, before: string | undefined, after: string | undefined): void {
  const short = model.variable(-SHORT_STOP_LOOKS)
  const others: Terms = [before, after].flatMap((name) => (name === undefined ? [] : [[1, name] as const]))
  model.row([[1, short], [-1, here], ...others], '>=', 0)
}

function crowds(grid: Grid, model: MixedInteger, at: At): void {
  const groups = [
    { of: grid.targetOf, count: grid.targets, looks: SAME_TARGET_LOOKS - SAME_KIND_LOOKS },
    { of: grid.kindOf, count: AGAIN_BY_KIND.length, looks: SAME_KIND_LOOKS },
  ]
  for (let t = 0; t < grid.slots; t++) {
    for (const { of, count, looks: cost } of groups) {
      for (let g = 0; g < count; g++) {
        const rows = [...grid.stations.keys()].map((s) => sumOf(grid, at, s, t, (c) => of[c] === g))
        for (let a = 0; a < rows.length; a++) {
          for (let b = 0; b < a; b++) {
            const both = model.variable(-cost)
            model.row([[1, both], ...minus(rows[a] ?? []), ...minus(rows[b] ?? [])], '>=', -1)
          }
        }
      }
    }
    for (let j = 0; j < grid.targets; j++) {
      const c = [...grid.targetOf].indexOf(j)
      const over = model.variable(-weightOf('rule.at-once'))
      const all = [...grid.stations.keys()].flatMap((s) => sumOf(grid, at, s, t, (other) => grid.targetOf[other] === j))
      model.row([[1, over], ...minus(all)], '>=', -(grid.candidates[c]?.atOnce ?? 1))
    }
  }
}

const sumOf = (grid: Grid, at: At, s: number, t: number, isIn: (c: number) => boolean): Terms =>
  [...grid.candidates.keys()].flatMap((c) => {
    const name = isIn(c) ? at(s, c, t) : undefined
    return name === undefined ? [] : [[1, name] as [number, string]]
  })

/** What the evening pays for beginning a thing again, and for a further thing of a kind. */
function evening(grid: Grid, model: MixedInteger, at: At): void {
  const kindOf = new Map([...grid.targetOf].map((target, c) => [target, grid.kindOf[c] ?? 0]))
  const everShown = new Map<number, string[]>()
  for (const [j, kind] of kindOf) {
    const again = AGAIN_BY_KIND[kind] ?? 0
    const begun: [number, string][] = []
    for (let s = 0; s < grid.stations.length; s++) {
      for (let t = 0; t < grid.slots; t++) {
        const now = sumOf(grid, at, s, t, (c) => grid.targetOf[c] === j)
        if (now.length === 0) continue
        const before = t === 0 ? [] : sumOf(grid, at, s, t - 1, (c) => grid.targetOf[c] === j)
        const begins = model.variable(-WANDERING_LOOKS)
        model.row([[1, begins], ...minus(now), ...before], '>=', 0)
        begun.push([1, begins])
      }
    }
    const ever = model.binary(WANDERING_LOOKS - again)
    model.row([[1, ever], ...minus(begun)], '<=', 0)
    everShown.set(kind, [...(everShown.get(kind) ?? []), ever])
  }
  for (const [kind, names] of everShown) {
    const any = model.binary(AGAIN_BY_KIND[kind] ?? 0)
    model.row([[1, any], ...names.map((name): [number, string] => [-1, name])], '<=', 0)
  }
}

function duties(grid: Grid, model: MixedInteger, at: At): void {
  const S = grid.stations.length
  const stations = [...grid.stations.keys()]
  for (let t = 0; t < grid.slots; t++) {
    const all = (isIn: (s: number, c: number) => boolean): Terms =>
      stations.flatMap((s) => sumOf(grid, at, s, t, (c) => isIn(s, c)))
    const need = (rule: string, count: number, serving: Terms): void => {
      const missing = model.variable(-weightOf(rule))
      model.row([[1, missing], ...serving], '>=', count)
    }
    if (grid.isMoonUp[t] && S > 1)
      need(
        'rule.moon-always',
        1,
        all((_s, c) => grid.candidates[c]?.kind === 'moon'),
      )
    need(
      'rule.anyone-sees',
      Math.ceil(S / 4),
      all((s, c) => (grid.chance[cellAt(grid, s, c, t)] ?? 0) >= ANYONE),
    )
    const isBest = (c: number): boolean => grid.isBest[c * grid.slots + t] === 1
    for (const whom of ['isForChair', 'isForChildren'] as const) {
      if (!grid.stations.some((station) => station[whom])) continue
      need(
        'rule.best-for-all',
        1,
        all((s, c) => grid.stations[s]?.[whom] === true && isBest(c)),
      )
    }
    if (t >= grid.slots - 2)
      need(
        'rule.last-showpiece',
        1,
        all((s, c) => isShowpiece(grid, s, c, t)),
      )
    different(grid, model, at, t)
    neighbours(grid, model, at, t)
  }
}

function different(grid: Grid, model: MixedInteger, at: At, t: number): void {
  const S = grid.stations.length
  const names = Array.from({ length: grid.targets }, (_, j) => {
    const shows = [...grid.stations.keys()].flatMap((s) => sumOf(grid, at, s, t, (c) => grid.targetOf[c] === j))
    const isOn = model.variable(0, 1)
    model.row([[1, isOn], ...minus(shows)], '<=', 0)
    if (shows.length === 0) model.row([[1, isOn]], '<=', 0)
    return isOn
  })
  const missing = model.variable(-weightOf('rule.row-alike'))
  model.row([[1, missing], ...names.map((name): [number, string] => [1, name])], '>=', Math.ceil(0.75 * S))
}

function neighbours(grid: Grid, model: MixedInteger, at: At, t: number): void {
  if (t === 0) return
  const begins = [...grid.stations.keys()].map((s) => {
    const name = model.variable(grid.isStill[t] ? -weightOf('rule.class-still') : 0)
    for (const c of grid.candidates.keys()) {
      const here = at(s, c, t)
      const before = at(s, c, t - 1)
      if (here === undefined) continue
      model.row([[1, name], [-1, here], ...(before === undefined ? [] : [[1, before] as [number, string]])], '>=', 0)
    }
    return name
  })
  for (let s = 1; s < begins.length; s++) {
    if ((grid.stations[s]?.place ?? 0) - (grid.stations[s - 1]?.place ?? 0) !== 1) continue
    const both = model.variable(-weightOf('rule.neighbours-together'))
    model.row(
      [
        [1, both],
        [-1, begins[s] ?? ''],
        [-1, begins[s - 1] ?? ''],
      ],
      '>=',
      -1,
    )
  }
}
