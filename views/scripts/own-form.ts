// Shows the fields of the chosen kind alone and tells the service so, which then passes over those of other kinds. Without this script all are there, each group saying for which kinds it is.
const form = document.querySelector<HTMLFormElement>('[data-own-form]')
const choice = form?.querySelector<HTMLSelectElement>('select[name="kind"]')

if (form && choice) {
  for (const note of form.querySelectorAll<HTMLElement>('[data-note]')) note.hidden = true
  form.append(Object.assign(document.createElement('input'), { type: 'hidden', name: 'ofKind', value: 'true' }))
  show(form, choice.value)
  choice.addEventListener('change', () => show(form, choice.value))
}

function show(within: HTMLFormElement, kind: string): void {
  for (const part of within.querySelectorAll<HTMLElement>('[data-kinds]')) {
    const kinds = part.dataset.kinds ?? ''
    part.hidden = kinds !== '' && !kinds.split(' ').includes(kind)
  }
}
