/** The camera inside the page, so that no other app can push this one out of memory. */
import type { Signal } from '@preact/signals'
import { PhotoFault } from './photo_fault.ts'
import type { Camera, CameraView, TorchView } from './types.ts'

const WANTED: MediaStreamConstraints = {
  video: { facingMode: { ideal: 'environment' }, width: { ideal: 2_560 }, height: { ideal: 1_920 } },
  audio: false,
}

/** What it shows and its lamp are told by the signals that it is given. */
export function pageCamera(view: Signal<CameraView>, torch: Signal<TorchView>): Camera {
  let stream: MediaStream | undefined
  let screen: HTMLVideoElement | undefined
  /** Counts the openings: a stream that comes for one that was closed meanwhile is let go at once. */
  let opening = 0

  const close = () => {
    opening += 1
    stop(stream)
    if (screen !== undefined) screen.srcObject = null
    stream = undefined
    screen = undefined
    view.value = 'off'
    torch.value = 'none'
  }
  const closeAs = (why: CameraView) => {
    close()
    view.value = why
  }
  return {
    view,
    torch,
    async open(into) {
      close()
      if (navigator.mediaDevices?.getUserMedia === undefined) return closeAs('none')
      const mine = opening
      view.value = 'asking'
      try {
        const given = await navigator.mediaDevices.getUserMedia(WANTED)
        if (mine !== opening) return stop(given)
        stream = given
        screen = into
        into.srcObject = given
        await into.play()
        if (mine !== opening) return
        for (const track of given.getTracks()) track.onended = () => closeAs('in_use')
        torch.value = hasTorch(given) ? 'off' : 'none'
        view.value = 'live'
      } catch (error) {
        if (mine === opening) closeAs(viewOf(error))
      }
    },
    async light(on) {
      const track = stream?.getVideoTracks()[0]
      if (track === undefined || torch.value === 'none') return
      const lit = await track.applyConstraints({ advanced: [{ torch: on } as MediaTrackConstraintSet] }).then(
        () => true,
        () => false,
      )
      torch.value = lit ? (on ? 'on' : 'off') : 'none'
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

function stop(stream: MediaStream | undefined): void {
  for (const track of stream?.getTracks() ?? []) {
    track.onended = null
    track.stop()
  }
}

/** Told by the camera itself; no browser says it of a front camera. */
function hasTorch(stream: MediaStream): boolean {
  const track = stream.getVideoTracks()[0]
  return (track?.getCapabilities?.() as { torch?: boolean } | undefined)?.torch === true
}

const VIEWS: Readonly<Record<string, CameraView>> = {
  NotAllowedError: 'denied',
  SecurityError: 'denied',
  NotReadableError: 'in_use',
  AbortError: 'in_use',
}

export function viewOf(error: unknown): CameraView {
  return (error instanceof DOMException ? VIEWS[error.name] : undefined) ?? 'none'
}
