/** All that this phone can do beside keeping and sending, put together for the page. */
import type { PhoneStore } from '../store/index.ts'
import { startDeviceClock } from './clock.ts'
import { lateCamera } from './late_camera.ts'
import { lateSound } from './late_sound.ts'
import { systemNotices } from './notices.ts'
import type { Device } from './types.ts'
import { screenWakeLock } from './wake_lock.ts'

export { type AppUpdate, registerWorker } from './app_update.ts'
export { PhotoFault } from './photo_fault.ts'
export type * from './types.ts'

const DEMO_PHOTO_IDS = ['bracket', 'rivet_row', 'pads']

// Loaded when they are wanted: the first tick must not wait for them.
const preparePhoto = async (file: Blob) => (await import('./prepare_photo.ts')).preparePhoto(file)
const checkPin: Device['checkPin'] = async (...typed) => (await import('./pin.ts')).checkPin(...typed)
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
  const [camera, wakeLock, sound, notices] = [lateCamera(), screenWakeLock(), lateSound(), systemNotices()]
  return { clock, camera, wakeLock, sound, notices, preparePhoto, demoPhotos, checkPin }
}
