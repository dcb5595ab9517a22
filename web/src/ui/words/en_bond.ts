// Words of the band that a bond's clocks stand in. Fetched with it.
export const bondWords = {
  tooEarly: (step: string, wait: string) => `${step}: wait ${wait}`,
  open: (step: string, left: string) => `${step}: ${left} left`,
  closing: (step: string, left: string) => `${step}: only ${left} left`,
  over: (step: string, by: string) => `${step}: over by ${by}`,
  endsOutside: (step: string, left: string) => `${step}: ${left} left`,
  outside: {
    rehearsal: (took: string) => `Would end outside: the rehearsal took ${took}.`,
    plan: (takes: string) => `Would end outside: ${takes} are planned until then.`,
  },
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
  mixerActs: {
    stands: 'Mixer stands',
    flows: 'Flows again',
    changed: 'New mixer on',
  },
  /** As the note in the record. */
  mixerNotes: {
    stands: 'The mixer stands.',
    flows: 'The mixer flows again.',
    changed: 'A new mixer is on.',
  },
  mixerStand: {
    standing: (left: string) => `The mixer stands: ${left} until it sets`,
    ends_outside: (left: string) => `The mixer stands: ${left} until it sets`,
    setting: (left: string) => `The mixer stands: only ${left} until it sets`,
    set: (by: string) => `The mixer has set, ${by} ago: put a new one on`,
    counting: (since: string) => `The mixer stands for ${since}`,
  },
  mixerStep: (left: string) => `It would set before this step ends: ${left} are planned.`,
  mixerSpoken: {
    ends_outside: 'The mixer would set before this step ends',
    setting: 'The mixer is about to set',
    set: 'The mixer has set: put a new one on',
  },
  gelBySheet: (gel: string, sheet: string, revision: string) =>
    `Gel time ${gel}, by ${sheet}, revision ${revision}`,
  gelByMethod: (gel: string) => `Gel time ${gel}, by the method; the data sheet comes first`,
  gelUnknown: 'No gel time is known to this card: the data sheet says it.',
  mixerLate: (stood: string) => `Flowed again after it had stood ${stood}: longer than its gel time`,
}
