// Words of the chart of a heat run.

export const chartWords = {
  min: (limit: string) => `min ${limit}`,
  max: (limit: string) => `max ${limit}`,
  metal: (limit: string) => `metal max ${limit}`,
  neighbour: (limit: string) => `neighbour max ${limit}`,
  label: (n: number) => `Readings of this run against its limits, ${n} times read; the figures stand below`,
  inFigures: (unit: string) => `In figures, ${unit}`,
  after: 'after',
  lagging: 'lagging',
  leading: 'leading',
  onMetal: 'metal',
  onNeighbour: 'neighbour',
  soak: 'soak',
}
