/** All that this phone can do beside keeping and sending, put together for the page. */
import type { PhoneStore } from '../store/index.ts'
import { pageCamera } from './camera.ts'
import { startDeviceClock } from './clock.ts'
import { demoPhotos } from './demo_photos.ts'
import { systemNotices } from './notices.ts'
import { checkPin } from './pin.ts'
import { preparePhoto } from './prepare_photo.ts'
import { pageSound } from './sound.ts'
import type { Device } from './types.ts'
import { screenWakeLock } from './wake_lock.ts'

export { type AppUpdate, registerWorker } from './app_update.ts'
export { repeatOf } from './calls.ts'
export type * from './types.ts'
export { PhotoFault } from './types.ts'

/** Starts the clock from what the store last saw, and lets it stamp the store's entries from now on. */
export async function startDevice(store: PhoneStore): Promise<Device> {
  const saved = await store.sync.savedClock()
  const clock = startDeviceClock({ saved, save: (state) => store.sync.saveClock(state) })
  store.useClock(clock.stamp)
  const [camera, wakeLock, sound, notices] = [pageCamera(), screenWakeLock(), pageSound(), systemNotices()]
  return { clock, camera, wakeLock, sound, notices, preparePhoto, demoPhotos, checkPin }
}
