// Says that another programme holds than the one that was last looked at in this phone.
import { shelfOf } from './shelf.ts'

/** Wires the banner of a page; answers how to look again whether it is due. */
export function planBanner(root: () => HTMLElement | null): () => void {
  const nightId = root()?.dataset.field ?? ''
  const name = `looked-${nightId}`
  const holding = (): string => root()?.dataset.tourVersion ?? ''
  let looked = shelfOf()?.getItem(name) ?? null

  function look(): void {
    looked = holding()
    try {
      shelfOf()?.setItem(name, looked)
    } catch {
      // A full phone says it again at the next opening.
    }
    show()
  }

  function show(): void {
    for (const banner of document.querySelectorAll<HTMLElement>('[data-new-plan]')) {
      banner.hidden = looked === holding()
    }
  }

  document.addEventListener('click', ({ target }) => {
    if (target instanceof Element && target.closest('[data-new-plan]')) look()
  })
  if (looked === null) look()
  else show()
  return show
}
