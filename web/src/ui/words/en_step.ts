// Words of the parts of a step that are fetched when they are first shown: who, holds, values, what was put off.
import { listed, numberWord, plural } from './format.ts'

export const stepWords = {
  leftToDo: (n: number) => `${n} ${plural(n, 'position', 'positions')} to go`,
  who: {
    by: (what: string) => `For ${what}.`,
    notYou: 'That is not you.',
    onJob: (names: readonly string[]) => `On this job: ${listed(names)}.`,
    nobody: 'Nobody on this job: ask the office.',
    you: 'That is you.',
  },
  later: {
    state: (who: string) => `Put off by ${who}`,
    again: 'Take it up again',
    othersAgain: 'Do it whenever you can: it is as open as before.',
    reason: 'put off, taken up again',
  },
  value: {
    title: (ask: string) => `Change: ${ask}`,
    again: 'Type again',
    choose: 'Choose again',
    strike: 'Strike',
    strikeOf: (what: string) => `Strike ${what}`,
    againOf: (what: string) => `Type again: ${what}`,
    notYours: (who: string) => `Only ${who} or the office strikes it. Typed again, the new value stands.`,
    notYoursPlain: (who: string) => `Only ${who} or the office strikes it.`,
    another: 'Record another',
    none: 'Nothing stands here.',
    outside: 'outside its limits',
    withReason: 'with a deviation, see below',
    stale: 'Worked out from older records: work it out again.',
  },
  two: {
    line: (name: string) => `${name}: two people said different things.`,
    same: 'Two people recorded the same.',
    band: (step: number) => `Step ${step}: two values stand`,
    bandLine: 'Look at it together, and record what is right.',
  },
  lot: {
    wrong: 'another material',
    expired: 'expired',
    noAnswer: (why: string) => `Kept and marked: ${why}. It does not answer.`,
    withDeviation: (why: string, words: string) => `Goes on, ${why}, with a deviation: ${words}`,
    goOn: 'Go on with this lot: write a deviation',
  },
  written: {
    title: 'Notes and deviations here',
    passes: 'passes the hold point',
  },
}

export const heldWords = {
  go: (step: number) => `Go on with step ${step}`,
  word: 'Held',
  band: (step: number) => `Hold point, step ${step}`,
  waitsFor: (step: number, title: string) => `waits for hold point ${step}: ${title}`,
  toHold: (step: number) => `To hold point ${step}`,
  /** 'waits for two checks.' What is outside is named below it. */
  waits: (open: number) => `waits for ${numberWord(open)} ${plural(open, 'check', 'checks')}.`,
  doesNotPass: 'does not pass as it stands.',
  nothingOpen: 'waits for the signature on its deviation.',
  already: 'Already done: record a deviation',
  goOnWith: 'Go on all the same: record a deviation',
  alreadyTitle: 'Going on before the hold point has passed',
  alreadyWhy:
    'The hold point then counts as passed with a deviation. What is open stays open, and everybody sees it.',
  alreadySigned: (who: string) => `It also wants the signature of ${who}.`,
  passedByDeviation: 'passed with a deviation',
  wantsCountersign: (who: string) => `The deviation wants a signature: ${who}.`,
  noneFree: 'No other step is free. The record is not held: a deviation goes on.',
  signDeviation: 'Countersign the deviation',
  haveSigned: 'Have it signed',
  onAnother: (name: string) => `${name}: on another phone`,
  outside: (name: string) => `${name} is outside`,
  voided: (who: string) => `The signature of ${who} counts no more: what it saw has changed.`,
  mustSign: (names: readonly string[]) => `${listed(names, 'or')} may sign.`,
  youMay: 'You may sign it.',
  nobodyMay: 'Nobody who may sign it is on this phone: ask the office.',
}

/** Why a countersign does not count any more, and that it is asked anew. */
export const voidWords = {
  own_value: 'Does not count: the signer made one of the records.',
  demand: 'Does not count: the signer is not who the method asks for.',
  missing: 'Does not count any more: something was recorded after it that it did not see.',
  superseded: 'Does not count any more: what it saw was recorded again.',
  struck: 'The signature was struck.',
  saw: (was: string) => `It saw ${was}`,
  now: (now: string) => `now ${now}`,
  nowNothing: 'now struck',
  anew: 'It has to be signed anew.',
}

export const morningWords = {
  title: 'Is it still so?',
  lead: 'Go to the car and look at each. Then say what you saw.',
  seen: (who: string, when: string) => `Last seen by ${who}, ${when}`,
  still: 'Still so',
  changed: 'Changed',
  changedNow: 'It changed',
  said: 'seen to hold',
  gone: 'not so any more',
  notByRun: 'not so, by the heat runs',
  goneTitle: 'Stop: this does not hold any more',
  goneLine:
    'Nobody works under or inside it until it is put right. The person who is qualified for it is called first.',
  record: 'Record what you found',
  again: 'It holds again',
  notNow: 'I am not at the car yet',
  toCard: 'To the next act',
  left: (n: number) => `${numberWord(n)} still to look at`,
  all: 'All looked at',
  lost: (piece: string, position: string) => `${piece || 'piece'} lost inside, ${position}`,
  toMap: 'To the fastener map',
}

export const listWords = {
  show: 'Show',
  all: 'All',
  free: (n: number) => `Free now, ${n}`,
  later: (n: number) => `Put off, ${n}`,
  holds: 'Hold points',
  noneFree: 'No step is free now.',
  stage: (done: number, all: number) => `${done} of ${all}`,
  waitsFor: (what: string) => `waits for ${what}`,
  heldBy: (step: number) => `held by step ${step}`,
  holdPoint: 'hold point',
  twoSaid: 'two values stand',
  putOff: (reason: string) => `put off: ${reason}`,
}

export const moveWords = {
  title: 'Which slot does it belong to?',
  lead: 'It is recorded there anew, and struck here. Both stay readable.',
  reason: (slot: string) => `moved to: ${slot}`,
  notYours: (who: string) => `Only ${who} or the office moves it: the old place is struck with it.`,
  gone: 'This photo is not on this phone.',
  wanted: 'wanted',
  taken: (n: number) => `${n} there`,
}

export const strikeWords = {
  undone: (step: number) => `${step} done`,
  strike: 'Strike',
  strikeThis: (what: string) => `Strike ${what}`,
}

export const momentWords = {
  names: {
    on: 'switched on',
    soaked: 'soaked',
    workable: 'workable',
    lifted: 'every pad lifted',
    off: 'switched off',
    cold: 'cold',
  } as Record<string, string>,
  at: (title: string, moment: string) => `${title}: ${moment}`,
}
