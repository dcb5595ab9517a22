// Words of the band that a bond's clocks stand in. Fetched with it.
export const bondWords = {
  tooEarly: (step: string, wait: string) => `${step}: wait ${wait}`,
  open: (step: string, left: string) => `${step}: ${left} left`,
  closing: (step: string, left: string) => `${step}: only ${left} left`,
  over: (step: string, by: string) => `${step}: over by ${by}`,
  endsOutside: (step: string) => `${step}: would end outside`,
  rehearsal: (took: string, left: string) => `The rehearsal took ${took}, ${left} are left.`,
  since: (what: string, at: string) => `Since ${what}, ${at}`,
  shortened: 'shortened by the temperature',
  doubt: 'check the clock',
  late: (n: string, list: string) => `${n} set after the open time: ${list}`,
  lateAt: (position: string, minute: number) => `${position} at minute ${minute}`,
  /** Said once, when it becomes so: not each second. */
  spoken: {
    closing: (step: string) => `${step}: its time is nearly over`,
    over: (step: string) => `${step}: its time is over`,
    ends_outside: (step: string) => `${step}: would end outside its time`,
  },
  mixer: 'A new mixer restarts nothing.',
}
