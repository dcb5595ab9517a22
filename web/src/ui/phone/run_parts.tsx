// What a run's page fetches when it has something to show: its chart and its verdict.
export { RunChartPart } from './run_chart.tsx'
export { RunVerdict } from './run_verdict.tsx'
