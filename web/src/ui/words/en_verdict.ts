// The verdict on a heat run in words: one line each for what was found, and how they add up.
import type { LineCode, Overall, Standing } from '../../core/live/verdict.ts'

export const runVerdictWords: {
  readonly title: string
  readonly overall: { readonly [One in Overall]: string }
  readonly line: { readonly [One in LineCode]: string }
  readonly standing: { readonly [One in Standing]: string }
  readonly limit: (limit: string) => string
  readonly aborted: string
} = {
  title: 'This run against its limits',
  overall: {
    conforming: 'Conforms',
    conforming_with_deviations: 'Conforms, with deviations',
    not_conforming: 'Does not conform',
    not_judged: 'Nothing to judge: no reading of the bond',
  },
  line: {
    ramp: 'Steepest rise',
    soak: 'Soak',
    soak_gap: 'Gap in the soak',
    bond_peak: 'Hottest bond',
    metal_peak: 'Hottest metal',
    metal_minutes: 'Metal above its limit, all runs',
    neighbour_peak: 'Hottest neighbour',
    release: 'Pads out of order, or never',
    cooling: 'Steepest fall',
    cold: 'Last reading, hottest sensor',
    sensor_gap: 'Longest time without a reading',
  },
  standing: {
    conforming: 'within',
    deviation: 'deviates',
    not_conforming: 'not conforming',
    not_judged: 'no limit given',
    not_recorded: 'not judged: no turn-down, lift or switch-off was recorded',
  },
  limit: (limit) => `limit ${limit}`,
  aborted: 'It was aborted.',
}
