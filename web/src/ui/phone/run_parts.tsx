// What a run's page fetches when it has something to show: its forecast, its chart and its verdict.
export { ForecastPart } from './forecast_part.tsx'
export { PlanBefore } from './plan_before.tsx'
export { PlanRelease } from './plan_release.tsx'
export { RunChartPart } from './run_chart.tsx'
export { RunVerdict } from './run_verdict.tsx'
