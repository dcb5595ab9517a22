// The parts of a step's page that only some steps have: fetched when first shown.

export { PutOff } from './put_off.tsx'
export { StepDone } from './step_done_part.tsx'
export { MadeElsewhere, StepNeeds } from './step_waits.tsx'
export { TwoBand } from './two_band.tsx'
export { WhoBand } from './who_band.tsx'
export { WrittenHere } from './written_here.tsx'
