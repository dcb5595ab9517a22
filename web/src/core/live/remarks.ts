/** Remarks of a run that mean something to what is shown: kept as these words, told from any other by them. */

export const RUN_REMARKS = {
  /** The controller holds this pad: with its sensor far behind, it is not touching. */
  setpoint: 'Pad is at its setpoint',
  reclamped: 'Pad clamped on again',
  power_gone: 'Power is gone',
  power_back: 'Power is back',
} as const

export type RunRemark = keyof typeof RUN_REMARKS

/** To what share of its power a pad was turned down: recorded beside the act. */
export const downTo = (permille: number) => `to ${permille / 10} %`

/** What is said of a sensor that came off and holds again. */
export const sensorFixed = (sensor: string) => `Sensor ${sensor} fastened again`

export function isSensorFixed(text: string, sensor: string): boolean {
  return text === sensorFixed(sensor)
}

export function remarkOf(text: string): RunRemark | undefined {
  return (Object.keys(RUN_REMARKS) as RunRemark[]).find((one) => RUN_REMARKS[one] === text)
}
