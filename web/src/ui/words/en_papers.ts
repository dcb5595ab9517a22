// Words of the makers' instructions on the phone.
import { bytes, capital, numberWord, plural } from './format.ts'

export const paperWords = {
  key: 'Maker’s instruction',
  title: (n: number) =>
    n === 1
      ? 'Maker’s instruction'
      : `${capital(numberWord(n))} ${plural(n, 'instruction', 'instructions')} of the maker`,
  none: 'No instruction of the maker is on this phone',
  noneNext: 'The office adds it to the job or to its method; it comes with the next contact.',
  size: (n: number) => `PDF, ${bytes(n)}`,
  ofJob: 'for this job',
  ofMethod: (method: string) => `for ${method}`,
  here: 'on this phone',
  notHere: 'Not here yet: it comes with the network.',
  open: 'Open',
  openOf: (name: string) => `Open ${name}`,
  save: 'Save as a file',
  saveOf: (name: string) => `Save as a file: ${name}`,
  how: 'How it opens',
  ways: [
    'iPhone: the page shows it; Share keeps it or opens it elsewhere.',
    'Android: most browsers save it; tap the notice, or look in Downloads.',
    'Computer: it opens in another tab.',
    'If nothing opens, save it as a file and open it from there. None of this needs the network.',
  ],
  first:
    'The maker’s word comes before this card’s: where the two differ, follow the maker and record a deviation.',
}
