import type { PlayedStation } from './played-plan.ts'
import { minOf, type Stage, THE_HOST } from './played-stage.ts'

/** The first never taps; the second confirms and times; the third ends early and has trouble; the fourth leaves the plan, and then the row. */
export async function operators(stage: Stage, min: number): Promise<void> {
  const [, second, third, fourth] = stage.notes.stations
  if (second) await confirms(stage, second, min)
  if (third) await endsEarly(stage, third, min)
  if (fourth) await leavesThePlan(stage, fourth, min)
}

async function confirms({ notes, mark }: Stage, station: PlayedStation, min: number): Promise<void> {
  const { id, on } = station
  if (on && min === on.fromMin + 2) {
    const act = await mark('Jonas', 'showing', id, { targetKey: on.targetKey, aim: on.aim })
    station.say(act.min, on.targetKey, on.aim)
  }
  if (min === 20 || min === 100) {
    const seconds = min === 20 ? 500 : 700
    const act = await mark('Jonas', 'timed', id, { people: 10, seconds })
    station.time(act.min, 10, seconds)
  }
  if (on && (min === 25 || min === 70 || min === 130)) {
    await mark('Jonas', 'seen', id, { targetKey: on.targetKey, who: min === 70 ? 'half' : 'they' })
    station.saySeen()
    notes.seen.set(on.targetKey, (notes.seen.get(on.targetKey) ?? 0) + 1)
  }
  if (min === 111) {
    const act = await mark('Jonas', 'showing', id, { targetKey: 'm13', aim: 'whole' })
    await mark('Jonas', 'undo', null, { markKey: act.key })
    notes.acts.set('Jonas', (notes.acts.get('Jonas') ?? 0) - 1)
  }
}

async function endsEarly({ mark }: Stage, station: PlayedStation, min: number): Promise<void> {
  const { id, on } = station
  if (min === 31) {
    const act = await mark('Adaeze', 'timed', id, { people: 8, seconds: 600 })
    station.time(act.min, 8, 600)
  }
  if (on && min === 47) {
    const act = await mark('Adaeze', 'trouble', id, { what: 'cloud' })
    station.trouble(act.min)
  }
  if (on && min === 53) {
    const act = await mark('Adaeze', 'showing', id, { targetKey: on.targetKey, aim: on.aim })
    station.say(act.min, on.targetKey, on.aim)
  }
  if (on?.stop && min === minOf(on.stop.endsAt) - 4 && min > 60) {
    const act = await mark('Adaeze', 'shown', id, { targetKey: on.targetKey })
    station.finish(act.min)
  }
}

async function leavesThePlan({ mark }: Stage, station: PlayedStation, min: number): Promise<void> {
  const { id, on } = station
  if (min === 10) {
    const act = await mark('Pirkko', 'timed', id, { people: 12, seconds: 720 })
    station.time(act.min, 12, 720)
  }
  if (min === 35) {
    const next = station.own.find((stop) => minOf(stop.startsAt) > min && stop.targetKey !== on?.targetKey)
    if (next) {
      await mark('Pirkko', 'skipped', id, { targetKey: next.targetKey, why: 'trees' })
      station.skip(next)
    }
  }
  if (min === 77) {
    const targetKey = on?.targetKey === 'm34' ? 'm45' : 'm34'
    const act = await mark('Pirkko', 'showing', id, { targetKey, aim: 'whole' })
    station.say(act.min, targetKey, 'whole')
  }
  if (min === 152) {
    const act = await mark(THE_HOST, 'station', id, { is: 'out' })
    station.leave(act.min)
  }
}
