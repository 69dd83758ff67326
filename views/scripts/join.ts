// Takes the token of a QR code out of the address, tells the phone's clock, and waits for the host. Without this script one types the code.
const TOKEN = /^#([\w-]{22})$/
const LOOK_MS = 3_000

const page = () => document.querySelector<HTMLElement>('[data-join]')

takeToken()
addEventListener('hashchange', takeToken)
document.addEventListener('submit', (event) => {
  if (event.target instanceof HTMLFormElement) fill(event.target, 'phoneAt', new Date().toISOString())
})
if (page()?.dataset.waits !== undefined) setInterval(lookAgain, LOOK_MS)

/** The address forgets the token at once, so that neither the history nor anyone who looks at the screen has it. */
function takeToken(): void {
  const token = TOKEN.exec(location.hash)?.[1]
  if (location.hash !== '') history.replaceState(null, '', location.pathname + location.search)
  const form = document.querySelector('form')
  if (!token || !form) return
  fill(form, 'token', token)
  for (const part of form.querySelectorAll<HTMLElement>('[data-code]')) part.hidden = true
  for (const part of form.querySelectorAll<HTMLElement>('[data-by-qr]')) part.hidden = false
  form.closest('details')?.setAttribute('open', '')
  const link = document.querySelector<HTMLAnchorElement>('[data-look-link]')
  if (link) link.hash = token
}

function fill(form: HTMLFormElement, name: string, value: string): void {
  const field = form.querySelector<HTMLInputElement>(`input[name="${name}"]`)
  if (field) field.value = value
}

/** Asks how the host has decided: goes on when let in, shows the form when turned away. */
async function lookAgain(): Promise<void> {
  const old = page()
  if (old?.dataset.waits === undefined || document.hidden) return
  const response = await fetch(location.href).catch(() => null)
  if (!response?.ok) return
  const fresh = new DOMParser()
    .parseFromString(await response.text(), 'text/html')
    .querySelector<HTMLElement>('[data-join]')
  if (!fresh) return
  old.replaceWith(fresh)
  if (fresh.dataset.go !== undefined) location.assign(fresh.dataset.go)
}
