// A device in memory: a clock that the test moves, no camera, a sound that is never heard by itself.
import { type Signal, signal } from '@preact/signals'
import type { ClockState } from '../../src/core/run_clock.ts'
import type { CameraView, Device, NoticeView, SoundView, WakeLockView } from '../../src/device/types.ts'
import type { ClockReading, PreparedPhoto } from '../../src/store/types.ts'

export function fakeDevice(
  now: () => ClockReading,
  clockState: Signal<ClockState>,
  camera: Signal<CameraView>,
): Device {
  const sound = signal<SoundView>('not_armed')
  const wake = signal<WakeLockView>('not_held')
  const notices = signal<NoticeView>('not_asked')
  return {
    clock: {
      now,
      stamp: now,
      state: clockState,
      heardServer: () => {},
      onChanged: () => () => {},
      stop: () => {},
    },
    camera: {
      view: camera,
      torch: signal('none'),
      light: async () => {},
      open: async () => {},
      shoot: async () => drawnPhoto(),
      close: () => {},
    },
    wakeLock: {
      view: wake,
      hold: async () => {
        wake.value = 'held'
      },
      release: () => {},
    },
    sound: {
      view: sound,
      rehearse: async () => {
        sound.value = 'unknown'
      },
      heard: (yes) => {
        sound.value = yes ? 'heard' : 'not_heard'
      },
      call: () => {},
      silence: () => {},
      canVibrate: true,
    },
    notices: { view: notices, ask: async () => {} },
    preparePhoto: async () => drawnPhoto(),
    demoPhotos: () => ['bracket', 'rivet_row', 'pads'].map((id) => ({ id, make: async () => drawnPhoto() })),
    checkPin: async (_person, pin) => pin === '2222',
  }
}

let drawn = 0

/** A grey pixel, each with a byte of its own. */
function drawnPhoto(): PreparedPhoto {
  drawn += 1
  const bytes = Uint8Array.from([0xff, 0xd8, 0xff, drawn]).buffer
  return { bytes, thumb: bytes, type: 'image/jpeg', width: 1200, height: 900 }
}
