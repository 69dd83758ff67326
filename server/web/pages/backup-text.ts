import type { BackupStatus } from '../../desk/backups.ts'
import type { Words } from '../../words/words.ts'
import type { Viewer } from './sheet.ts'

/** An instant by the laptop's own clock: the time alone for today, with the day before it otherwise. */
export function laptopTime(words: Words, { laptop: { now, zone } }: Pick<BackupStatus, 'laptop'>, at: Date): string {
  const time = words.time(at, zone)
  const day = words.dayAndMonth(at, zone)
  return day === words.dayAndMonth(now, zone) ? time : words.say('backups.day-time', { day, time })
}

/** Whether copies are made: when the last one was, and whether it is in the second folder too. */
export function backupText(
  { words, isRehearsal }: Pick<Viewer, 'words' | 'isRehearsal'>,
  status: BackupStatus,
): string {
  const { lastAt, second } = status
  if (lastAt === null) return words.say('backups.none-yet')
  const time = laptopTime(words, status, lastAt)
  const when = isRehearsal ? words.say('backups.by-laptop', { time }) : time
  if (second === null) return words.say('backups.last', { time: when })
  const isThere = second.trouble === null && second.lastAt?.getTime() === lastAt.getTime()
  return words.say(isThere ? 'backups.last-second' : 'backups.last-here-only', { time: when })
}

/** What the host must know of the copies, most pressing first. */
export function backupAttention(words: Words, status: BackupStatus): string[] {
  const { trouble, isLate, lastAt, second, goesBackTo, wentBack } = status
  const late = lastAt === null ? 'backups.late-none' : 'backups.late'
  return [
    ...(trouble === null ? [] : [words.say(`backups.trouble-${trouble}`)]),
    ...(isLate ? [words.say(late, { time: lastAt === null ? '' : laptopTime(words, status, lastAt) })] : []),
    ...(second?.trouble ? [words.say(`backups.second-${second.trouble}`)] : []),
    ...(second?.isOnSameDisk ? [words.say('backups.second-same-disk')] : []),
    ...(goesBackTo === null
      ? []
      : [words.say('backups.goes-back', { time: laptopTime(words, status, goesBackTo.madeAt) })]),
    ...(wentBack?.refusal
      ? [words.say('backups.went-not', { why: words.say(`backups.refusal-${wentBack.refusal}`) })]
      : []),
  ]
}
