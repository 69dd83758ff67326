// Shows the fields of the chosen kind and sends no others. Without this script all are there, each group saying for which kinds it is.
const form = document.querySelector<HTMLFormElement>('[data-own-form]')
const choice = form?.querySelector<HTMLSelectElement>('select[name="kind"]')

if (form && choice) {
  for (const note of form.querySelectorAll<HTMLElement>('[data-note]')) note.hidden = true
  show(form, choice.value)
  choice.addEventListener('change', () => show(form, choice.value))
}

function show(within: HTMLFormElement, kind: string): void {
  for (const part of within.querySelectorAll<HTMLElement>('[data-kinds]')) {
    const kinds = part.dataset.kinds ?? ''
    part.hidden = kinds !== '' && !kinds.split(' ').includes(kind)
  }
  for (const field of within.querySelectorAll<HTMLInputElement | HTMLSelectElement>('input, select')) {
    field.disabled = field.closest('[data-kinds][hidden]') !== null
  }
}
