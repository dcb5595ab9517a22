// Words of the photographer's pages: what is wanted, what was missed, the viewfinder, and how good a picture is.
import { LIMITS } from '../../device/picture_quality.ts'
import { bytes, capital, count, listed, numberWord, plural } from './format.ts'

/** A reason as a sentence of its own. */
function ended(words: string): string {
  return /[.!?]$/.test(words) ? words : `${words}.`
}

export const photoWords = {
  wanted: {
    title: (n: number) => `${capital(numberWord(n))} ${plural(n, 'photo', 'photos')} wanted`,
    none: 'No photo is wanted now',
    noneNext: 'New ones show here as the card goes on.',
    later: (n: number) => `Later: ${count(n)} ${plural(n, 'photo', 'photos')}`,
    laterWhy: 'What they show comes with the card. This phone may not have heard yet how far it is.',
    before: (step: string) => `Before ${step}`,
    nextNow: 'It is the next act: these first.',
    stepsLeft: (n: number) => `${capital(numberWord(n))} open ${plural(n, 'step', 'steps')} before it.`,
    whenYouCan: 'When you can',
    missed: 'Too late',
    missedBy: (step: string) => `wanted before ${step}, which has begun`,
    told: (n: number) => `${capital(numberWord(n))} missed, with a deviation that says why.`,
    first: 'Take the first',
    taken: (n: number) => `${count(n)} taken`,
    card: 'See the card',
    here: (n: number, size: number) =>
      `${capital(numberWord(n))} ${plural(n, 'photo is', 'photos are')} only on this phone, ${bytes(size)}.`,
  },
  gone: {
    strike: (why: string) => `Struck: ${ended(why)}`,
    office: (why: string) => `Sent back: ${ended(why)}`,
    again: 'Take it again.',
  },
  sides: { left: /\bleft\b/i, right: /\bright\b/i },
  side: { left: 'Left', right: 'Right' },
  frame: (words: string) => `In the frame: ${words}`,
  car: (part: string) => `Job: ${part}`,
  missed: {
    title: 'Too late for this photo?',
    lead: (step: string) => `It was wanted before ${step}, which has begun.`,
    still: 'Take it all the same',
    deviation: 'It cannot be taken any more',
    what: 'Why is there no photo, and what shows it instead?',
    covers: (names: readonly string[]) => `It speaks for ${listed(names)}.`,
    key: 'Record deviation',
    tellKey: 'Record note',
    tell: 'A technician writes the deviation. Say what happened, and it is recorded as a note at the step.',
    back: 'Back to the photo',
    start: (names: readonly string[]) => `No photo: ${listed(names)}. `,
  },
  inUse: 'The camera is in use',
  inUseWhy:
    'Another app or page holds the camera. Close it there and try again, or choose a file. Nothing is lost.',
  tryAgain: 'Try again',
  lightOn: 'Light on',
  lightOff: 'Light off',
  keepAnyway: 'Keep it anyway',
}

type Figures = { readonly sharpness: number; readonly brightness: number; readonly dark_share: number }

const whole = (value: number) => count(Math.round(value))

export const qualityWords = {
  again: 'Take it again?',
  good: (figures: Figures) =>
    `Sharpness ${whole(figures.sharpness)}, brightness ${whole(figures.brightness)} of 255.`,
  doubts: {
    soft: (figures: Figures) =>
      `It looks blurred: sharpness ${whole(figures.sharpness)}, below ${LIMITS.soft} here.`,
    dark: (figures: Figures) =>
      `It looks dark: brightness ${whole(figures.brightness)} of 255, ${whole(100 * figures.dark_share)} in 100 of it black. Sharpness cannot be judged.`,
    bright: (figures: Figures) =>
      `It looks too bright: brightness ${whole(figures.brightness)} of 255, its light parts are washed out.`,
  },
  source: 'Limits: common practice, no source. You can keep it as it is.',
}
