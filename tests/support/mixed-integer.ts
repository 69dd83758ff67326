/** Factors and variables that are added up. */
export type Terms = readonly (readonly [number, string])[]

/** A mixed-integer programme in the text that open solvers read. */
export class MixedInteger {
  private readonly objective: string[] = []
  private readonly rows: string[] = []
  private readonly bounds: string[] = []
  private readonly binaries: string[] = []
  private count = 0

  binary(worth = 0): string {
    const name = this.variable(worth)
    this.binaries.push(name)
    return name
  }

  /** A variable from 0 up to a highest value, with what one of it is worth. */
  variable(worth = 0, highest = Number.POSITIVE_INFINITY): string {
    const name = `v${this.count++}`
    if (worth !== 0) this.objective.push(`${worth < 0 ? '-' : '+'} ${Math.abs(worth)} ${name}`)
    if (highest !== Number.POSITIVE_INFINITY) this.bounds.push(` 0 <= ${name} <= ${highest}`)
    return name
  }

  /** terms compared with a number: `[[1, 'v0'], [-1, 'v1']] <= 0`. */
  row(terms: Terms, sign: '<=' | '>=' | '=', value: number): void {
    if (terms.length === 0) return
    const text = terms.map(([factor, name]) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`).join(' ')
    this.rows.push(` r${this.rows.length}: ${text} ${sign} ${value}`)
  }

  text(): string {
    const objective = this.objective.length > 0 ? this.objective.join('\n ') : '0 v0'
    return `Maximize\n obj: ${objective}\nSubject To\n${this.rows.join('\n')}\nBounds\n${this.bounds.join('\n')}\nBinary\n ${this.binaries.join(' ')}\nEnd\n`
  }
}

export const minus = (terms: Terms): Terms => terms.map(([factor, name]) => [-factor, name])
