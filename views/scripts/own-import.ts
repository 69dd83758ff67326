// Puts the text of a chosen file where a list is pasted. Without this script a list is pasted by hand.
const form = document.querySelector<HTMLFormElement>('[data-own-import]')
const choice = form?.querySelector<HTMLElement>('[data-file]')
const file = form?.querySelector<HTMLInputElement>('input[type="file"]')
const list = form?.querySelector<HTMLTextAreaElement>('textarea')

if (choice && file && list) {
  choice.hidden = false
  file.addEventListener('change', async () => {
    const [chosen] = file.files ?? []
    if (chosen) list.value = await chosen.text()
  })
}
