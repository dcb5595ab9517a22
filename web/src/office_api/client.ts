// The routes of the office as functions: one line a route, typed both ways.
import type { ApiDocument } from '../core/views/api_document.ts'
import { type Answer, mapAnswer } from './answer.ts'
import { calls } from './calls.ts'
import { heat } from './heat.ts'
import { readings } from './readings.ts'
import type * as rows from './rows.ts'
import { sheets } from './sheets.ts'
import { timeZone } from './time_zone.ts'
import { path, type Transport } from './transport.ts'

export type Written = { readonly hash: string; readonly number: number }
/** The API's own document, as the server makes it. */
export const API_DOCUMENT = '/api/openapi.json'
export type OfficeApi = ReturnType<typeof openOfficeApi>

function asked(search: rows.FiledSearch): string {
  const named = Object.entries(search).filter(([, value]) => value !== '' && value !== undefined)
  const query = new URLSearchParams(named.map(([name, value]) => [name, String(value)]))
  return named.length === 0 ? '' : `?${query}`
}

function doors(transport: Transport) {
  return {
    me: () => transport.get<rows.Me>('/api/me'),
    login: (name: string, password: string) =>
      transport.post<{ person: string; name: string }>('/api/office/login', { name, password }),
    logout: () => transport.post<unknown>('/api/office/logout', {}),
    demo: () => transport.get<rows.DemoPlan>('/api/demo'),
  }
}

function jobs(transport: Transport) {
  return {
    board: () => transport.get<rows.Board>('/api/jobs'),
    openJob: (job: rows.NewJob) => transport.post<{ job: string }>('/api/jobs', job),
    entries: (job: string, after: number, signal?: AbortSignal) =>
      transport.get<rows.EntriesPage>(`${path('jobs', job, 'entries')}?after=${after}`, signal),
    write: (job: string, kind: string, body: object) =>
      transport.post<Written>(path('jobs', job, 'entries'), { kind, body }),
    refusedTexts: async (job: string): Promise<Answer<readonly rows.RefusedText[]>> =>
      mapAnswer(
        await transport.get<{ refused?: readonly rows.RefusedText[] }>(path('jobs', job, 'asides')),
        (found) => found.refused ?? [],
      ),
    file: (job: string, reason: string, signal?: AbortSignal) =>
      transport.post<rows.Dossier>(path('jobs', job, 'file'), { reason }, signal),
    addendum: (job: string, reason: string, signal?: AbortSignal) =>
      transport.post<rows.Dossier>(path('jobs', job, 'addendum'), { reason }, signal),
    filedJob: async (job: string) =>
      mapAnswer(
        await transport.get<{ filed: readonly rows.FiledRow[] }>(path('jobs', job, 'filed')),
        (found) => found.filed,
      ),
    ofOrder: async (order: string) =>
      mapAnswer(
        await transport.get<{ jobs: readonly rows.JobOfOrder[] }>(
          `${path('orders')}?order=${encodeURIComponent(order)}`,
        ),
        (found) => found.jobs,
      ),
  }
}

function shop(transport: Transport) {
  return {
    people: async () =>
      mapAnswer(
        await transport.get<{ people: readonly rows.PersonRow[] }>('/api/people'),
        (found) => found.people,
      ),
    addPerson: (person: rows.PersonChange) => transport.post<{ person: string }>('/api/people', person),
    changePerson: (id: string, change: rows.PersonChange) =>
      transport.post<unknown>(path('people', id), change),
    devices: async () =>
      mapAnswer(
        await transport.get<{ devices: readonly rows.DeviceRow[] }>('/api/devices'),
        (found) => found.devices,
      ),
    makeCode: (person: string) => transport.post<rows.PairCode>('/api/pair/codes', { person }),
    confirm: (device: string) => transport.post<unknown>(path('pair', device, 'confirm'), {}),
    refuse: (device: string) => transport.post<unknown>(path('pair', device, 'refuse'), {}),
    revoke: (device: string) => transport.post<unknown>(path('devices', device, 'revoke'), {}),
  }
}

function shelf(transport: Transport) {
  return {
    methods: async () =>
      mapAnswer(
        await transport.get<{ methods: readonly rows.MethodRow[] }>('/api/methods'),
        (found) => found.methods,
      ),
    methodText: (digest: string) => transport.getText(path('methods', digest)),
    importMethod: (method: rows.MethodFile, signal?: AbortSignal) =>
      transport.post<rows.MethodTaken>('/api/methods', method, signal),
    checkMethod: (method: rows.MethodFile, signal?: AbortSignal) =>
      transport.post<rows.CheckedFile>('/api/methods/check', method, signal),
    pinning: async (digest: string) =>
      mapAnswer(
        await transport.get<{ jobs: readonly rows.PinningJob[] }>(path('methods', digest, 'jobs')),
        (found) => found.jobs,
      ),
    methodGuide: () => transport.getText('/api/method-guide'),
    apiDocument: () => transport.get<ApiDocument>(API_DOCUMENT),
    handIn: (file: Blob, signal?: AbortSignal) =>
      transport.postBytes<rows.HandInTaken>('/api/handin', file, signal),
    filed: (search: rows.FiledSearch) => transport.get<rows.FiledPage>(`${path('filed')}${asked(search)}`),
    log: async () =>
      mapAnswer(
        await transport.get<{ lines: readonly rows.LogLine[] }>('/api/office/log'),
        (found) => found.lines,
      ),
  }
}

function makersPapers(transport: Transport) {
  return {
    papers: async () =>
      mapAnswer(
        await transport.get<{ papers: readonly rows.MakersPaper[] }>('/api/papers'),
        (found) => found.papers,
      ),
    addPaper: (named: rows.PaperPlace, pdf: Blob, signal?: AbortSignal) =>
      transport.postBytes<rows.MakersPaper>(
        `/api/papers?${new URLSearchParams(Object.entries(named).filter(([, value]) => value !== ''))}`,
        pdf.slice(0, pdf.size, 'application/pdf'),
        signal,
      ),
    removePaper: (id: string) => transport.remove(path('papers', id)),
  }
}

function stock(transport: Transport) {
  const kept = (id: string, ...at: readonly string[]): string => path(...at, ...(id === '' ? [] : [id]))
  return {
    instruments: async () =>
      mapAnswer(
        await transport.get<{ instruments: readonly rows.InstrumentRow[] }>('/api/instruments'),
        (found) => found.instruments,
      ),
    keepInstrument: (id: string, facts: rows.InstrumentFacts) =>
      transport.post<{ id: string }>(kept(id, 'instruments'), facts),
    lots: async () =>
      mapAnswer(await transport.get<{ lots: readonly rows.LotRow[] }>('/api/lots'), (found) => found.lots),
    keepLot: (id: string, facts: rows.LotFacts) => transport.post<{ id: string }>(kept(id, 'lots'), facts),
    materials: async () =>
      mapAnswer(
        await transport.get<{ groups: readonly rows.MaterialGroup[] }>('/api/materials'),
        (found) => found.groups,
      ),
    usedLots: async (words: string) =>
      mapAnswer(
        await transport.get<{ used: readonly rows.UsedLot[] }>(
          `/api/used-lots?words=${encodeURIComponent(words)}`,
        ),
        (found) => found.used,
      ),
  }
}

export function openOfficeApi(transport: Transport) {
  return {
    ...doors(transport),
    ...jobs(transport),
    ...shop(transport),
    ...calls(transport),
    ...timeZone(transport),
    ...shelf(transport),
    ...stock(transport),
    ...sheets(transport),
    ...makersPapers(transport),
    ...readings(transport),
    ...heat(transport),
  }
}

export const photoUrl = (sha256: string): string => path('photos', sha256)
export const thumbUrl = (sha256: string): string => path('thumbs', sha256)
export const yamlUrl = (digest: string): string => path('methods', digest, 'yaml')
export const paperUrl = (sha256: string): string => path('papers', sha256)
export const drawingUrl = (sha256: string): string => path('drawings', sha256)
export const dossierUrl = (dossier: string): string => path('filed', dossier, 'dossier')
export const reportUrl = (dossier: string): string => path('filed', dossier, 'report')
/** The report as it would be filed now. */
export const previewUrl = (job: string): string => path('jobs', job, 'report.pdf')
