// Puts the text of a chosen file where a list is pasted. Without this script a list is pasted by hand.
const part = document.querySelector<HTMLElement>('[data-list-file]')
const choice = part?.querySelector<HTMLElement>('[data-file]')
const file = part?.querySelector<HTMLInputElement>('input[type="file"]')
const list = part?.querySelector<HTMLTextAreaElement>('textarea')

if (choice && file && list) {
  choice.hidden = false
  file.addEventListener('change', async () => {
    const [chosen] = file.files ?? []
    if (chosen) list.value = await chosen.text()
  })
}
