// Says on the page what becomes of the taps, in the page's own sentences.
import type { Outbox, Outcome } from './outbox.ts'

/** Stands in the page's sentences where the number of taps or the words of one belong. */
const BLANK = '#'
const AT_THE_LAPTOP = ['127.0.0.1', 'localhost', '[::1]']

type Said = Outcome | 'taken'

/** Says how the last sending ended, or that a tap was taken. */
export function say(said: Said, count: number, what = ''): void {
  const line = document.querySelector<HTMLElement>('[data-status]')
  if (!line) return
  const isHost = AT_THE_LAPTOP.includes(location.hostname)
  const away = isHost ? 'signIn' : 'joinAgain'
  const name = said === 'joinAgain' ? away : said === 'waiting' && count === 1 ? 'waitingOne' : said
  line.textContent = (line.dataset[name] ?? '').replaceAll(BLANK, () => (said === 'taken' ? what : String(count)))
  if (said === 'joinAgain') line.append(' ', wayIn(isHost, line.dataset[`${away}Link`] ?? ''))
}

function wayIn(isHost: boolean, text: string): HTMLAnchorElement {
  const link = document.createElement('a')
  link.href = isHost ? `/sign-in?back=${encodeURIComponent(location.pathname)}` : '/join'
  link.textContent = text
  return link
}

/** Lists each act that the laptop refused, why, and a button that gives it up. */
export function listRefused(box: Pick<Outbox, 'refused' | 'drop'>): void {
  const section = document.querySelector<HTMLElement>('[data-refused]')
  if (!section) return
  const acts = box.refused()
  const lines = acts.map(({ key, text, now }) => {
    const line = document.createElement('li')
    const button = document.createElement('button')
    button.textContent = (section.dataset.drop ?? '').replaceAll(BLANK, () => text)
    button.addEventListener('click', () => {
      box.drop(key)
      listRefused(box)
    })
    line.append(`${text}. ${now.reason}`, button)
    return line
  })
  section.hidden = acts.length === 0
  section.querySelector('ul')?.replaceChildren(...lines)
}
