// Keeps a page of the running night current, and leads to what is wrong in a form. Without this script a reload does the same.
const FRESH_S = 60

const problems = document.querySelector<HTMLElement>('[data-problems]')
problems?.focus()

for (const form of document.querySelectorAll<HTMLFormElement>('[data-wait]')) {
  const button = form.querySelector('button')
  const working = form.querySelector<HTMLElement>('[data-working]')
  form.addEventListener('submit', () => {
    button?.setAttribute('disabled', '')
    if (working) working.textContent = working.dataset.working ?? ''
  })
  // Whoever goes back to a form finds it as it was sent.
  addEventListener('pageshow', () => {
    button?.removeAttribute('disabled')
    if (working) working.textContent = ''
  })
}

/** The page itself may say after how many seconds it wants to be fresh. */
const kept = document.querySelector<HTMLElement>('[data-keep-fresh]')
if (kept) setInterval(refresh, (Number(kept.dataset.keepFresh) || FRESH_S) * 1000)

async function refresh(): Promise<void> {
  const old = document.querySelector('main')
  const isReading = old?.contains(document.activeElement) || old?.querySelector('details[open]')
  if (!old || isReading || document.hidden) return
  const response = await fetch(location.href).catch(() => null)
  if (!response?.ok) return
  const page = new DOMParser().parseFromString(await response.text(), 'text/html')
  const fresh = page.querySelector('main')
  if (fresh && !fresh.isEqualNode(old)) old.replaceWith(fresh)
}

for (const input of document.querySelectorAll<HTMLInputElement>('input[type="date"]')) {
  input.addEventListener('input', () => sayDate(input))
}

/** Says a date again with its month as a word, because day and month are easily swapped. */
function sayDate(input: HTMLInputElement): void {
  const hint = document.getElementById(`${input.id}-hint`)
  const at = input.valueAsDate
  if (hint && at) {
    const format = new Intl.DateTimeFormat(document.documentElement.lang, { dateStyle: 'full', timeZone: 'UTC' })
    hint.textContent = format.format(at)
  }
}
