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
        `Sign in as ${plan.office.name} with the password ${plan.office.password}.`,
        `Job ${plan.job.order} is on the board: ${plan.job.part}. Leave this tab open; it shows what arrives, by itself.`,
      ],
      opens: ['office'],
    },
    {
      title: `Be the technician, ${first}`,
      words: [
        `Open the job and make the first acts. Then set ‘shop network’ to off, and go on: nothing stops. The line at the top counts what is only on this phone.`,
        `Reload the page, or close and open it: you are where you were.`,
      ],
      opens: ['technician'],
    },
    {
      title: `Be the photographer, ${eye}`,
      words: [
        'The card lists the photos that are asked for. Take one, or pick a demo photo where there is no camera. A photographer ticks nothing.',
      ],
      opens: ['photographer'],
    },
    {
      title: 'Meet a hold point and a heat run',
      words: [
        `Back at ${first}: at the hold point the screen holds. Hand the phone to ${second}, who countersigns with PIN ${pin}, or let ${second} do it on the other phone.`,
        `Then switch the pads on. The demo’s soak takes ${duration(plan.soak_s * 1000)}; the other phones show the same run.`,
      ],
      opens: ['technician', 'second'],
    },
    {
      title: 'Back on the network',
      words: [
        'Set ‘shop network’ to on again. All three screens agree, and nobody had to choose.',
        'In the office: accept what there is to accept, close the job, file it. The dossier that you download can be checked without any server.',
      ],
      opens: ['technician', 'office'],
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
