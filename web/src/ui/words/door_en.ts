// Words of the phone's door: pairing inside the installed app.
import { numberWord, plural } from './format.ts'

export const door = {
  title: 'Pair this phone',
  intro: 'The office makes a code. Type it here; it works once, for 15 minutes.',
  code: 'Code from the office',
  codeNote: 'Eight characters. 0, 1, I, L, O and U are never used.',
  codeShort: (n: number) => `The code has eight characters; ${numberWord(n)} ${plural(n, 'is', 'are')} here.`,
  codeEmpty: 'Type the code first.',
  codeLetters: (letters: string) => `${letters}: not used in codes. Look again at the office’s screen.`,
  name: 'What the office shall call this phone',
  nameNote: 'For instance: bay 2, Mara',
  nameEmpty: 'Give the phone a name first.',
  key: 'Pair this phone',
  sending: 'Asking the office',
  letIn: 'Demo: let it in without a code',
  offline: 'The office did not answer. The code is not spent; try again on the shop’s network.',

  waitingTitle: 'Waiting for the office',
  waitingDigits: 'Check digits',
  waitingDigitsAre: (digits: string) => `Check digits ${digits.split('').join(' ')}`,
  waiting:
    'The office sees the same four digits and lets this phone in. Read them out if you are not in one room.',
  waitingOn: 'Leave this page open. It goes on by itself.',
  waitingAgain: 'Type another code',

  pairedTitle: 'This phone is paired',
  paired: 'Your jobs come next.',

  refusedTitle: 'The office did not let this phone in',
  refused: 'Nothing is lost: nothing was recorded here. Ask the office for a new code.',
  wrongTitle: 'This code is not known',
  wrong: 'Look at the office’s screen once more and type it again. Nothing is spent.',
  usedTitle: 'This code is used',
  used: 'Each code lets in one phone. Ask the office for a new one.',
  expiredTitle: 'This code has expired',
  expired: 'A code is good for 15 minutes. Ask the office for a new one.',
  tooManyTitle: 'Too many tries',
  tooMany: 'Wait a few minutes, then type the code again.',
  otherTitle: 'The office did not take this',
  revokedTitle: 'This phone is no longer let in',
  revoked: 'What it recorded stays here and can be handed over as a file. The office can make a new code.',
  anew: 'Type a new code',

  installTitle: 'Install first, then pair',
  installWhy:
    'On this system the installed app and the browser keep separate records, and the browser may throw its own away after seven days. So the app is paired, not this page. No code is spent here.',
  installSteps: [
    'Tap the Share sign of the browser: a square with an arrow.',
    'Choose ‘Add to Home Screen’, then ‘Add’.',
    'Close this page and open Bayleaf from the home screen.',
    'Choose ‘Pair this phone’ there and type the code.',
  ],
  installOffer: 'Install it on this phone',
  installOfferWhy: 'Installed, the phone keeps its records, and Bayleaf opens without the network.',
  installAll: 'Pair in this browser all the same',
  installAllWhy: 'Records that are not yet at the office may be thrown away by the browser.',

  lostTitle: 'This phone was paired, and its records are gone',
  lost: 'The browser has emptied its store. What had reached the office is there. What had not is lost. Pair the phone again to go on.',
  storeFailedTitle: 'This phone would not open its store',
  storeFailed:
    'The browser refused the place where records are kept. What was recorded before is not lost. Close other tabs of Bayleaf, leave private browsing, free some space, then open it again.',
  storeAgain: 'Open again',
  insecureTitle: 'This address cannot be used on a phone',
  insecure:
    'Without https the browser gives no key, no camera and no store that lasts. Ask the office for the address that begins with https.',
}
