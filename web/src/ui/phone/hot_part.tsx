// The part of every page that only a hot run needs: its calls, its bands, its line in the list of jobs.
export { Alarms } from './alarms.tsx'
export { DueBand } from './due_band.tsx'
export { RunBand, RunLine } from './run_band.tsx'
