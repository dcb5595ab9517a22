// The office's message catalogue: every visible word of its screens, by area.

import { plural } from './format.ts'
import { board, openJob, waits } from './office_en_board.ts'
import { job } from './office_en_job.ts'
import { what } from './office_en_record.ts'
import { devices, filed, handin, log, methods, people } from './office_en_shop.ts'

const nav = {
  name: 'Office',
  skip: 'To the page',
  board: 'Board',
  methods: 'Methods',
  heat: 'Heat',
  people: 'People',
  devices: 'Devices',
  instruments: 'Shop',
  handin: 'Hand-in',
  filed: 'Filed',
  log: 'Office log',
  invented: 'Demo, invented',
  signedIn: (name: string) => name,
  signOut: 'Sign out',
  waitingDevices: (n: number) => `${n} ${plural(n, 'phone waits', 'phones wait')}`,
}

const seen = {
  loading: 'Asking the office for this page.',
  heard: (at: string) => `last heard ${at}`,
  silent: (at: string) => `The server has not answered since ${at}.`,
  silentNext: 'What you see is what it said last. Nothing is lost; this page asks again by itself.',
  silentFirst: 'The server does not answer.',
  silentFirstNext:
    'Check that it is running and that this computer is on its network. This page asks again by itself.',
  again: 'Ask again',
  refused: 'The server refused this page.',
  code: (code: string) => `Code ${code}`,
  noPage: 'There is no page at this address.',
  toBoard: 'To the board',
}

const act = {
  cancel: 'Cancel',
  close: 'Close',
  stop: 'Stop waiting',
  working: 'Working',
  recording: 'Recording',
  silent: 'The server did not answer, so this may not be recorded. What you typed is still here.',
  silentNext: 'Try again when it answers.',
  refused: (code: string) => `Not taken (${code}).`,
  stopped: 'Stopped waiting. The server may still have finished it: look before you try again.',
  needReason: 'Write the reason first.',
  needRemark: 'Write the remark first.',
  done: 'Recorded.',
}

export const o = {
  nav,
  seen,
  act,
  board,
  waits,
  openJob,
  job,
  what,
  people,
  devices,
  methods,
  handin,
  filed,
  log,
}
