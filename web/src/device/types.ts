/** What this phone can do besides keeping and sending: clocks, camera, wake lock, sound, notices. */
import type { ReadonlySignal } from '@preact/signals'
import type { ClockChange, ClockState } from '../core/run_clock.ts'

export { PhotoFault, type PhotoFaultCode } from './photo_fault.ts'

import type { ClockReading, Person, PreparedPhoto } from '../store/types.ts'

/** The heartbeat: one reading a second while the page runs. */
export interface DeviceClock {
  /** Both clocks now; changes nothing, so that a screen may ask while it is drawn. */
  now(): ClockReading
  /** Both clocks now, taken as a heartbeat too: stamps every entry. */
  stamp(): ClockReading
  /** Changes each second: read it in a component to redraw, and hand it to `elapsedOf` of core/run_clock. */
  readonly state: ReadonlySignal<ClockState>
  /** The server's time at one reading: settles what gaps left in doubt. */
  /** `within_ms`: how far off the word can be, by the way that it took. */
  heardServer(at: ClockReading, server_ms: number, within_ms?: number): void
  /** A changed clock was seen: the app writes a `clock` entry into each job that has a running heat run. */
  onChanged(changed: (change: ClockChange) => void): () => void
  stop(): void
}

/** `in_use`: another app or page holds it, or took it while it was shown. */
export type CameraView = 'off' | 'asking' | 'live' | 'denied' | 'none' | 'in_use'

export type TorchView = 'none' | 'off' | 'on'

export interface Camera {
  readonly view: ReadonlySignal<CameraView>
  /** The lamp beside the lens, where this camera has one that a page may switch. */
  readonly torch: ReadonlySignal<TorchView>
  light(on: boolean): Promise<void>
  /** Shows the rear camera in this element; `none`, `denied` and `in_use` leave the file input as the other way. */
  open(into: HTMLVideoElement): Promise<void>
  /** The picture now in view, re-encoded without location data. */
  shoot(): Promise<PreparedPhoto>
  close(): void
}

export type WakeLockView = 'held' | 'not_held' | 'not_available'

export interface WakeLock {
  readonly view: ReadonlySignal<WakeLockView>
  /** Ask for it (again on each return) until let go. */
  hold(): Promise<void>
  release(): void
}

/** `unknown`: armed, but nobody has said that they heard the rehearsal. */
export type SoundView = 'not_armed' | 'unknown' | 'heard' | 'not_heard' | 'interrupted' | 'not_available'

/** The moments that sound or shake, as in the look's table. */
export type Call = 'recorded' | 'held' | 'five_min' | 'one_min' | 'due' | 'overdue' | 'over_maximum'

export interface Sound {
  readonly view: ReadonlySignal<SoundView>
  /** Call it in a `pointerup` or `click`: arms the sound and plays `due` once. */
  rehearse(): Promise<void>
  /** The person's answer to 'did you hear it?'. */
  heard(yes: boolean): void
  /** Plays and shakes once; repeats are the caller's, at `repeatOf(call)` ms. */
  call(call: Call): void
  /** No call before this many ms have passed; 0 ends it. */
  silence(for_ms: number): void
  readonly canVibrate: boolean
}

export type NoticeView = 'granted' | 'denied' | 'not_asked' | 'not_available'

export interface Notices {
  readonly view: ReadonlySignal<NoticeView>
  ask(): Promise<void>
}

/** A drawn picture for a demo; its words for people are the screen's, by `id`. `words` are drawn into it. */
export type DemoPhoto = { readonly id: string; readonly make: (words?: string) => Promise<PreparedPhoto> }

/** What will call the person on this phone, and what will not, for the 'armed' lines. */
export type Device = {
  readonly clock: DeviceClock
  readonly camera: Camera
  readonly wakeLock: WakeLock
  readonly sound: Sound
  readonly notices: Notices
  /** A chosen file, checked, re-encoded without location data, with its thumbnail; rejects with PhotoFault. */
  preparePhoto(file: Blob): Promise<PreparedPhoto>
  /** Drawn pictures that say that they are invented, for a demo without a camera. */
  demoPhotos(): readonly DemoPhoto[]
  checkPin(person: Person, pin: string): Promise<boolean>
}
