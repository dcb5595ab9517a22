// Fetched with their pages: words of 'my records' and of where they are: on this phone, at the office, filed, set aside, refused.
import { bytes, count, plural } from './format.ts'

export const recordWords = {
  title: 'My records',
  none: 'You have recorded nothing here yet',
  noneNext: 'What you record on a card stands here, with where it is.',
  inJob: (order: string) => `Job ${order}`,
  all: 'Every job',
  strike: 'Strike',
  strikeOf: (what: string) => `Strike ${what}`,
  struck: (reason: string) => `struck: ${reason}`,
  struckPlain: 'struck',
  sentBack: (remark: string) => `sent back: ${remark}`,
  aside: (code: string) => `set aside by the office: ${code}`,
  refused: 'The office could not take it',
  sawIt: 'I have read this',
  raw: 'The record, word for word',
  doubt: 'time in doubt',
  late: 'time typed in late',
  asides: {
    unsigned: 'its signature did not arrive',
    foreign_job: 'this job is not yours',
    unknown_job: 'the office does not know this job',
    revoked_device: 'this phone was taken off',
    wrong_person: 'this person is not on this phone',
    role: 'your role does not write this',
    not_yet_known: 'the office’s program does not know it yet',
  } as Record<string, string>,

  sheet: {
    title: 'Where your records are',
    onPhone: 'on this phone',
    office: 'at the office',
    filed: 'filed',
    onPhoneLine: (entries: number, photos: number, size: number) =>
      `${count(entries)} ${plural(entries, 'record', 'records')}, ${count(photos)} ${plural(photos, 'photo', 'photos')}${photos > 0 ? ` of ${bytes(size)}` : ''} not sent yet.`,
    noneOnPhone: 'Nothing waits here.',
    officeLine: 'The office has them on disk.',
    filedLine: 'In a sealed dossier.',
    notFiled: 'Filed when the job is closed.',
    tryNow: 'Try now',
    handIn: 'Hand in as a file',
    handedIn: (n: number, all: number, at: string) =>
      n === all
        ? `Handed in as a file at ${at}. They count as waiting until the office says that it has them.`
        : `${count(n)} of them were handed in as a file at ${at}; ${count(all - n)} came since.`,
    setAside: (n: number) => `${n} set aside by the office, which may admit ${plural(n, 'it', 'them')}.`,
    refused: (n: number) => `${n} refused: see my records.`,
  },
  handIn: {
    title: 'Hand in as a file',
    what: 'For a phone that will not see the network again. Save the file, bring it to the office; importing it twice does no harm.',
    counts: (entries: number, photos: number) =>
      `${count(entries)} ${plural(entries, 'record', 'records')} and ${count(photos)} ${plural(photos, 'photo', 'photos')} are only on this phone.`,
    nothing: 'Everything is at the office. There is nothing to hand in.',
    key: 'Save the file',
    making: 'Making the file',
    saved: 'The file was given to the browser. Check that it is in your downloads before you leave.',
    failed: 'The file could not be made. Your records are still here; try again.',
  },

  saved: 'Saved on this phone',
}
