// Words of the job card: acts, asks, hold points, deviations, strikes.
import { numberWord, plural } from './format.ts'

export const card = {
  job: (order: string) => `Job ${order}`,
  stage: (n: number, title: string) => `Stage ${n} · ${title}`,
  step: (n: number) => `Step ${n}`,
  tools: 'Tools',
  needs: 'Waits for',
  done: 'Done',
  photoCanFollow: 'photo can follow',
  openAsks: (n: number) => `${numberWord(n)} still open`,
  allSteps: 'All steps',
  note: 'Note',
  deviation: 'Deviation',
  more: 'More',
  otherJob: 'This job is not on this phone',
  notForReader: 'A technician records this',
  otherStep: 'This step is not in the pinned method',
  beforeHold: 'Recorded before its hold point passed.',
  elsewhere: 'Recorded under another revision; open here.',
  sentBack: (remark: string) => `Sent back by the office: ${remark}`,
  change: 'Change',
  signed: 'signed',

  verbs: {
    tick: 'Check it',
    text: 'Write',
    choice: 'Choose',
    reading: 'Enter reading',
    photo: 'Take photo',
    lot: 'Enter lot',
    tally: 'Count rivets',
    heat_run: 'Open the heat run',
    countersign: 'Countersign',
    compute: 'Work it out',
  },
  hints: {
    reading: (limits: string, points: number, missing: number) =>
      points < 2
        ? limits
        : missing < points
          ? `${numberWord(missing)} of ${numberWord(points)} points to go`
          : `${limits}, ${numberWord(points)} points`,
    against: 'against an earlier reading',
    since: 'the phone proposes the time',
  },

  people: (n: number) => `${capitalTwo(n)} needed`,

  needWords: 'Write the reason first.',

  held: {
    key: (n: number) => `held: ${n} ${plural(n, 'check', 'checks')} open`,
    backToCard: 'To the next act',
  },
  limits: {
    min: (v: string) => `min ${v}`,
    max: (v: string) => `max ${v}`,
  },
  lotLine: {
    noExpiry: 'no date printed',
    lot: (number: string) => `Lot ${number}`,
    until: (date: string) => `expires ${date}`,
  },
  slot: {
    take: 'Take photo',
    another: 'Another photo',
    move: 'Move',
    loose: 'Photo without a slot',
    notHere: 'Photo not on this phone',
  },
  verdict: { inside: 'Within what is allowed', outside: 'Not within what is allowed', none: 'Worked out' },
  wantsRole: (who: string) => `By ${who}`,
}

function capitalTwo(n: number): string {
  const word = numberWord(n)
  return `${word.slice(0, 1).toUpperCase()}${word.slice(1)} people`
}
