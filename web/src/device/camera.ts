/** The camera inside the page, so that no other app can push this one out of memory. */
import { signal } from '@preact/signals'
import { PhotoFault } from './photo_fault.ts'
import type { Camera, CameraView } from './types.ts'

const WANTED: MediaStreamConstraints = {
  video: { facingMode: { ideal: 'environment' }, width: { ideal: 2_560 }, height: { ideal: 1_920 } },
  audio: false,
}

export function pageCamera(): Camera {
  const view = signal<CameraView>('off')
  let stream: MediaStream | undefined
  let screen: HTMLVideoElement | undefined

  const close = () => {
    for (const track of stream?.getTracks() ?? []) track.stop()
    if (screen !== undefined) screen.srcObject = null
    stream = undefined
    screen = undefined
    view.value = 'off'
  }
  return {
    view,
    async open(into) {
      close()
      if (navigator.mediaDevices?.getUserMedia === undefined) {
        view.value = 'none'
        return
      }
      view.value = 'asking'
      try {
        stream = await navigator.mediaDevices.getUserMedia(WANTED)
        screen = into
        into.srcObject = stream
        await into.play()
        view.value = 'live'
      } catch (error) {
        close()
        view.value = viewOf(error)
      }
    },
    async shoot() {
      if (screen === undefined || screen.videoWidth === 0) {
        throw new PhotoFault('unreadable', 'camera: there is no picture yet; wait until it is seen')
      }
      const frame = await createImageBitmap(screen)
      const { drawnPhoto } = await import('./prepare_photo.ts')
      const photo = await drawnPhoto(frame)
      frame.close()
      return photo
    },
    close,
  }
}

function viewOf(error: unknown): CameraView {
  const name = error instanceof DOMException ? error.name : ''
  return name === 'NotAllowedError' || name === 'SecurityError' ? 'denied' : 'none'
}
