// Words of the phone around the card: my jobs, wanted photos, this phone, and what can go wrong.
import { capital, numberWord, plural } from './format.ts'

export const phone = {
  jobs: {
    title: (n: number) => `${capital(numberWord(n))} open ${plural(n, 'job', 'jobs')}`,
    page: 'My jobs',
    empty: 'No job is on this phone',
    emptyNext: 'The office assigns it; it comes with the next contact.',
    emptyOffline:
      'This phone has not heard the office since then. Jobs that were assigned meanwhile come with the next contact.',
    goOn: (order: string) => `Go on with ${order}`,
    next: (title: string) => `Next: ${title}`,
    held: 'Held:',
    heldBy: (title: string) => `${title} waits for a check`,
    allDone: 'Every step is done',
    closed: 'closed',
    filed: 'filed',
    gone: 'no longer yours',
    method: (title: string, revision: string) => `${title}, revision ${revision}`,
    opens: 'waits for its method',
    wanted: (n: number) => `${n} ${plural(n, 'photo', 'photos')} wanted`,
    records: 'My records',
    thisPhone: 'This phone',
  },

  wanted: {
    page: 'Wanted photos',
    title: (n: number) => `${capital(numberWord(n))} ${plural(n, 'photo', 'photos')} wanted`,
    none: 'No photo is wanted now',
    noneNext: 'New ones show here as the card goes on.',
    before: (step: string) => `Before: ${step}`,
    whenYouCan: 'When you can',
    first: 'Take the first',
    taken: (n: number) => `${n} taken`,
    card: 'See the card',
  },

  glance: {
    conditions: 'What holds here',
    hot: 'Pads hot',
    hotOf: (temperature: string) => `Pads hot, ${temperature}`,
    due: 'Due now',
    none: 'Pads cold',
    on: 'confirmed',
    off: 'not confirmed',
    reported: 'This page reports what was recorded. It clears nobody to go in.',
    onPhone: (n: number) => `${n} on this phone`,
    allAtOffice: 'All at the office',
    nothingYet: 'Nothing recorded yet',
    mustSee: (n: number) => `${n} refused: see why`,
  },

  trouble: {
    full: {
      title: 'This phone is full',
      what: 'The last record was not kept. What was recorded before is safe and stays readable.',
      mend: 'Free some space (photos, other apps), then record it again. Or hand in your records as a file.',
    },
    closed: {
      title: 'The records are shut',
      what: 'The browser closed this app’s store and it did not open again. What was recorded before is on the disk.',
      mend: 'Close the app and open it again. If this comes back, hand in your records as a file.',
      key: 'Open again',
    },
    lost: {
      title: 'The records on this phone are gone',
      what: 'This phone was paired, and its store is empty: the browser cleared it. What was at the office is safe; what was only on this phone is lost.',
      mend: 'Tell the office, and pair this phone again. Install the app on the home screen so that it is kept.',
    },
    unsaved: {
      title: 'Not saved',
      what: 'What you just recorded is not kept:',
      key: 'Record it again',
      drop: 'Let it be',
    },
    revoked: {
      title: 'This phone was taken off by the office',
      what: 'It takes no more records to the office. To go on, begin anew on this phone with a code from the office.',
    },
    refusedSync: 'The office did not hear this phone:',
    unpaired: {
      title: 'This phone is not paired',
      what: 'Pair it with the office first. It takes one contact.',
      key: 'Pair this phone',
    },
    startedAnew:
      'The office’s store was made anew and does not know this phone. To go on, begin anew; the office lets this phone in again.',
    handInFirst: 'What is only on this phone stays readable here. Hand it in as a file first.',
    handIn: 'Hand in as a file',
    startAnew: 'Begin anew on this phone',
    updateNeeded:
      'This app is older than the office’s. Let the new version in when you can; recording goes on.',
  },

  pages: {
    notFound: 'There is no such page',
    partMissing: 'This part of the app is not on this phone yet; it comes with the network',
    starting: 'Opening this phone’s records',
  },
  reach: {
    idle: (at: string) => `The office was heard at ${at}.`,
    syncing: 'Sending and hearing now.',
    offline: (at: string) => `The office is out of reach since ${at}.`,
    never: 'The office has not been heard yet.',
    goOn: 'Go on working; everything you need is on this phone. It sends by itself.',
    switchedOff: 'The shop network is switched off on this phone.',
  },
}
