// Words of what the office has on its shelf, as a step offers it. Loaded with the screens of the asks.
export const shelfWords = {
  instruments: 'Instruments, by the office’s list',
  instrument: (number: string, kind: string) => `${number}, ${kind}`,
  until: (day: string) => `calibrated until ${day}`,
  soon: (day: string) => `calibrated only until ${day}`,
  overSince: (day: string) => `calibration overdue since ${day}`,
  unknown: 'nobody knows until when it is calibrated',
  overdue: (number: string) =>
    `The calibration of ${number} is overdue. It can be recorded; take another one if there is one.`,
}
