// Words of the demo's front page: a numbered path of five minutes through the three roles.
import type { DemoDevice, DemoPlan } from '../../office_api/rows.ts'
import { duration, listed } from './format.ts'

export type PathStep = {
  readonly title: string
  readonly words: readonly string[]
  readonly opens: readonly string[]
}

const nameOf = (plan: DemoPlan, id: string): string => plan.devices.find((one) => one.id === id)?.person ?? id

/** `opens` are device ids, or 'office': what the step has a link to. */
function path(plan: DemoPlan): readonly PathStep[] {
  const first = nameOf(plan, 'technician')
  const second = nameOf(plan, 'second')
  const eye = nameOf(plan, 'photographer')
  const pin = plan.people.find((one) => one.name === second)?.pin ?? ''
  return [
    {
      title: 'Open the office',
      words: [
        `Sign in as ${plan.office.name} with the password ${plan.office.password}, then open job ${plan.job.order}.`,
        'Leave this tab open: what the phones send appears in it by itself.',
      ],
      opens: ['office'],
    },
    {
      title: `Be the technician, ${first}`,
      words: [
        `Open the job. In ‘Book the van in’ answer what is asked and press Done; the photo can follow.`,
        'In ‘Agree the repair’ choose ‘given’. It is a hold point: the screen holds until the office has signed.',
      ],
      opens: ['technician'],
    },
    {
      title: 'Sign in the office',
      words: [
        'Under Steps press ‘Countersign office agrees’. A few seconds later the phone goes on by itself; press Done there.',
        'Strike an entry or send one back, and look at the phone again: nothing is edited, everything stays readable.',
      ],
      opens: ['office'],
    },
    {
      title: 'Lose the network',
      words: [
        `On ${first}’s phone open ‘This phone’, below the list of jobs, and set ‘Shop network’ to off. Go back to the job and on with ‘Lock the high voltage’. Record a voltage of 7.5: it is over its limit, so it becomes a deviation with a reason.`,
        `${second} countersigns on the same phone with PIN ${pin}. Reload the page or close the tab and open it again: you are where you were, and the line at the top says how many records are only on this phone.`,
      ],
      opens: ['technician'],
    },
    {
      title: `Be the photographer, ${eye}`,
      words: [
        'The list shows which photos are wanted, the nearest deadline first. Take one, or choose a demo photo where there is no camera. A photographer ticks nothing.',
      ],
      opens: ['photographer'],
    },
    {
      title: 'Come back, and file',
      words: [
        `Set ‘Shop network’ to on again. All screens agree, and nobody had to choose. In the office accept the deviation, close the job, file it with a reason, and download the dossier: it can be checked without any server.`,
        `With more time: count the rivets, and run the heat. The demo’s soak takes ${duration(plan.soak_s * 1000)}, and ${second}’s phone shows the same run.`,
      ],
      opens: ['technician', 'office', 'second'],
    },
  ]
}

export const demo = {
  title: 'Bayleaf: five minutes through three roles',
  invented:
    'Everything here is invented: the shop, the people, the vehicle, the method and its figures. Do not repair a vehicle by it.',
  what: 'Bayleaf is the job card of a body repair. Technicians and photographers record on their phones, without a network too; the office watches, decides and files.',
  path,
  pathTitle: 'The path',
  openOffice: 'Open the office',
  openDevice: (device: DemoDevice) => `Open ${device.person}’s phone`,
  newTab: 'opens in a tab of its own',
  jobs: 'The jobs',
  jobsNote: 'The path goes through the first. The others are there to be looked at, on the phones too.',
  people: 'Who is who',
  name: 'Name',
  role: 'Role',
  pin: 'PIN',
  does: 'Does',
  office: 'Office sign-in',
  officeName: 'Name',
  password: 'Password',
  devices: 'Three phones in one browser',
  devicesNote:
    'Each phone has an address of its own, so each keeps its own records, as real phones do. It pairs itself when it is first opened.',
  device: 'Phone',
  address: 'Address',
  fallback: 'If that does not open',
  fallbackNote: (urls: readonly string[]) =>
    `Some browsers do not know names that end in .localhost. Use these instead: ${listed(urls)}.`,
  limits:
    'The demo runs on this computer only. It shows no real phone: a locked screen, a full store, a bad network are not tried here.',
  loading: 'Asking the demo who is who.',
  silentTitle: 'The demo does not answer',
  silent: 'Start it again with: bayleaf demo. This page asks again by itself.',
  again: 'Ask again',
}
