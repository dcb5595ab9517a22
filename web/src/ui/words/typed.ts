// What was typed on the keypad, as a number.

/** What was typed at a keypad as a scaled integer; undefined while it is no number, or has too many decimals. */
export function typedValue(typed: string, decimals: number): number | undefined {
  const match = /^(-?)(\d*)(?:\.(\d*))?$/.exec(typed)
  const [, sign = '', whole = '', part = ''] = match ?? []
  if (match === null || whole + part === '' || part.length > decimals) return undefined
  const value = Number(`${whole || '0'}${part.padEnd(decimals, '0')}`)
  return Number.isSafeInteger(value) && value !== 0
    ? sign === '-'
      ? -value
      : value
    : value === 0
      ? 0
      : undefined
}
