/** What a browser would send back of a page: every field of its main form as it is filled in. */
export function filledIn(html: string): Record<string, string> {
  const form = html.slice(html.indexOf('<form id="form"'), html.lastIndexOf('</form>'))
  const fields: Record<string, string> = {}
  for (const [input] of form.matchAll(/<input[^>]*>/g)) {
    const [, name = ''] = / name="([^"]*)"/.exec(input) ?? []
    if (name === '' || input.includes('type="image"')) continue
    if (input.includes('type="checkbox"') && !input.includes(' checked')) continue
    fields[name] = / value="([^"]*)"/.exec(input)?.[1] ?? ''
  }
  for (const [, name = '', options = ''] of form.matchAll(/<select[^>]* name="([^"]*)"[^>]*>(.*?)<\/select>/gs)) {
    fields[name] = /<option value="([^"]*)" selected/.exec(options)?.[1] ?? ''
  }
  return fields
}

/** The address that a browser asks for when a form that only asks is sent untouched: all its fields, each as often as it stands there. */
export function askedBy(form: string): string {
  const [, action = ''] = / action="([^"]*)"/.exec(form) ?? []
  const inputs = [...form.matchAll(/<input[^>]*>/g)].map(([input]): [string, string] => [
    / name="([^"]*)"/.exec(input)?.[1] ?? '',
    / value="([^"]*)"/.exec(input)?.[1] ?? '',
  ])
  const selects = [...form.matchAll(/<select[^>]* name="([^"]*)"[^>]*>(.*?)<\/select>/gs)].map(
    ([, name = '', options = '']): [string, string] => [
      name,
      (/<option value="([^"]*)" selected/.exec(options) ?? /<option value="([^"]*)"/.exec(options))?.[1] ?? '',
    ],
  )
  return `${action}?${new URLSearchParams([...inputs, ...selects])}`
}
