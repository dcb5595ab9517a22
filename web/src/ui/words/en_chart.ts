// Words of the chart of a heat run.

export const chartWords = {
  min: (limit: string) => `min ${limit}`,
  max: (limit: string) => `max ${limit}`,
  metal: (limit: string) => `metal max ${limit}`,
  neighbour: (limit: string) => `neighbour max ${limit}`,
  label: (n: number) => `Readings of this run against its limits, ${n} times read; the figures stand below`,
  labelExpected: (n: number) =>
    `Readings of this run against its limits and the forecast of the lagging sensor, ${n} times read; the figures stand below`,
  band: 'Broad: where the forecast expects the lagging sensor.',
  planned: 'Dotted: the lagging sensor as the plan releases it.',
  inFigures: (unit: string) => `In figures, ${unit}`,
  after: 'after',
  lagging: 'lagging',
  leading: 'leading',
  onMetal: 'metal',
  onNeighbour: 'neighbour',
  soak: 'soak',
}
