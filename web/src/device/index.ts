/** All that this phone can do beside keeping and sending, put together for the page. */
import type { PhoneStore } from '../store/index.ts'
import { startDeviceClock } from './clock.ts'
import { lateCamera } from './late_camera.ts'
import { systemNotices } from './notices.ts'
import { checkPin } from './pin.ts'
import { pageSound } from './sound.ts'
import type { Device } from './types.ts'
import { screenWakeLock } from './wake_lock.ts'

export { type AppUpdate, registerWorker } from './app_update.ts'
export { repeatOf } from './calls.ts'
export { PhotoFault } from './photo_fault.ts'
export type * from './types.ts'

const DEMO_PHOTO_IDS = ['bracket', 'rivet_row', 'pads']

// Loaded when a picture is taken: the first tick must not wait for them.
const preparePhoto = async (file: Blob) => (await import('./prepare_photo.ts')).preparePhoto(file)
const demoPhotos = () =>
  DEMO_PHOTO_IDS.map((id) => ({
    id,
    make: async (words?: string) => (await import('./demo_photos.ts')).demoPhoto(id, words),
  }))

/** Starts the clock from what the store last saw, and lets it stamp the store's entries from now on. */
export async function startDevice(store: PhoneStore): Promise<Device> {
  const saved = await store.sync.savedClock()
  const clock = startDeviceClock({ saved, save: (state) => store.sync.saveClock(state) })
  store.useClock(clock.stamp)
  const [camera, wakeLock, sound, notices] = [lateCamera(), screenWakeLock(), pageSound(), systemNotices()]
  return { clock, camera, wakeLock, sound, notices, preparePhoto, demoPhotos, checkPin }
}
