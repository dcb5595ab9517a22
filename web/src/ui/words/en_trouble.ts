// Words of what can go wrong on a phone: what, why, how to mend it. Fetched when something does.

export const troubleWords = {
  unknownMet: 'An entry here needs a newer app: it is kept and sent on, not shown.',
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
    drop: 'Back to what I typed',
    tried: (n: number) => `Tried ${n} times: still not kept.`,
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
  startedAnew: {
    title: 'The office does not know this phone',
    what: 'The office’s store was made anew. To go on, begin anew; the office lets this phone in again.',
  },
  handInFirst: 'What is only on this phone stays readable here. Hand it in as a file first.',
  handIn: 'Hand in as a file',
  startAnew: 'Begin anew on this phone',
  updateNeeded: {
    title: 'This app is older than the office’s',
    what: 'Let the new version in when you can; recording goes on.',
  },
}
