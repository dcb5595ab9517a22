// The part of the phone around the card: records, hand-in, this phone, wanted photos, words, strikes.
export { CardEnd } from './card_end.tsx'
export { HandInScreen } from './hand_in_screen.tsx'
export { RecordsScreen } from './records_screen.tsx'
export { SelfScreen } from './self_screen.tsx'
export { StepsScreen } from './steps_screen.tsx'
export { StorePage, UnpairedPage, UnsavedPage } from './trouble.tsx'
export { WantedScreen } from './wanted_screen.tsx'
export { StrikeScreen, WriteScreen } from './write_screen.tsx'
