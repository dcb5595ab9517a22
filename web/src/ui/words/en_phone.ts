// Words of the phone around the card: my jobs, wanted photos, this phone, and what can go wrong.
import { capital, numberWord, plural } from './format.ts'

export const phone = {
  invented: 'invented',
  jobs: {
    title: (n: number) => `${capital(numberWord(n))} open ${plural(n, 'job', 'jobs')}`,
    page: 'My jobs',
    empty: 'No job is on this phone',
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

  wanted: { page: 'Wanted photos' },

  glance: {
    conditions: 'What holds here',
    hot: 'Pads hot',
    hotOf: (temperature: string) => `Pads hot, ${temperature}`,
    due: 'Due now',
    lost: (positions: readonly string[]) => `lost inside: ${positions.join(', ')}`,
    more: (n: number) => `and ${n} more`,
    next: (step: number, title: string) => `Next: ${step} ${title}`,
    gone: (name: string) => `changed: ${name}`,
    none: 'Pads cold',
    on: 'confirmed',
    off: 'not confirmed',
    reported: 'This page reports what was recorded. It clears nobody to go in.',
    onPhone: (n: number) => `${n} on this phone`,
    allAtOffice: 'All at the office',
    counting: 'Counting what waits',
    nothingYet: 'Nothing recorded yet',
    mustSee: (n: number) => `${n} refused: see why`,
  },

  pages: {
    notFound: 'There is no such page',
    partMissing: 'This part of the app is not on this phone yet; it comes with the network',
    starting: 'Opening this phone’s records',
    stillComing: 'Records are still coming from the office.',
  },
  network: {
    name: 'Shop network',
    on: 'on',
    off: 'off',
    why: 'Switch it off to try the card offline. Demo only.',
    offWhy: 'Cut off, for the demo. Recording goes on.',
  },
  syncing: 'Sending and hearing now.',
}
