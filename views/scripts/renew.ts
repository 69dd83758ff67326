// Makes the page what it would be if it were opened now, and changes only what differs: what is open, typed or focused stays.
/** What scripts write into the page themselves. */
const OWN = '[data-status], [data-refused], [data-new-plan], [data-keep]'

/** Turns an element into another one, place by place. */
export function renew(old: Element, fresh: Element): void {
  if (old.matches(OWN) || old.isEqualNode(fresh)) return
  const staysOpen = old.localName === 'details' && summaryOf(old) === summaryOf(fresh)
  for (const { name } of [...old.attributes]) {
    if (!fresh.hasAttribute(name) && !(staysOpen && name === 'open')) old.removeAttribute(name)
  }
  for (const { name, value } of fresh.attributes) {
    if (old.getAttribute(name) !== value) old.setAttribute(name, value)
  }
  renewChildren(old, fresh)
}

function renewChildren(old: Element, fresh: Element): void {
  const left = [...old.childNodes]
  const pairs = [...fresh.childNodes].map((wanted) => {
    const place = left.findIndex((node) => isLike(node, wanted))
    return [place < 0 ? wanted : (left.splice(place, 1)[0] ?? wanted), wanted] as const
  })
  // What goes, goes first, so that nothing that stays need be moved and lose its focus.
  for (const node of left) node.remove()
  let place = old.firstChild
  for (const [node, wanted] of pairs) {
    if (node === place) place = node.nextSibling
    else old.insertBefore(node, place)
    if (node instanceof Element && wanted instanceof Element && node !== wanted) renew(node, wanted)
    else if (node.nodeValue !== wanted.nodeValue) node.nodeValue = wanted.nodeValue
  }
}

/** True for two nodes of which one may become the other. */
function isLike(a: Node, b: Node): boolean {
  if (!(a instanceof Element) || !(b instanceof Element)) return a.nodeType === b.nodeType
  return a.localName === b.localName && a.id === b.id && a.className === b.className
}

const summaryOf = (details: Element): string | undefined =>
  details.querySelector(':scope > summary')?.textContent?.trim()
