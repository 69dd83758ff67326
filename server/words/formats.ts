/** Makes each format of a kind once for a language and its options: making one takes longer than using it a hundred times. */
function onceEach<Options extends object, Format>(make: (language: string, options: Options) => Format) {
  const made = new Map<string, Format>()
  return (language: string, options: Options): Format => {
    const name = `${language} ${JSON.stringify(options)}`
    const found = made.get(name) ?? make(language, options)
    made.set(name, found)
    return found
  }
}

export const dateFormat = onceEach(
  (language, options: Intl.DateTimeFormatOptions) => new Intl.DateTimeFormat(language, options),
)
export const numberFormat = onceEach(
  (language, options: Intl.NumberFormatOptions) => new Intl.NumberFormat(language, options),
)
export const listFormat = onceEach(
  (language, options: Intl.ListFormatOptions) => new Intl.ListFormat(language, options),
)
