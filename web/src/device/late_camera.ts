/** The camera's signals at once, the camera itself when it is first opened: a first tick does not wait for it. */
import { signal } from '@preact/signals'
import type { Camera, CameraView, TorchView } from './types.ts'

export function lateCamera(): Camera {
  const view = signal<CameraView>('off')
  const torch = signal<TorchView>('none')
  let made: Promise<Camera> | undefined
  /** Counts the askings: a camera that came for a page that was left meanwhile is not opened. */
  let asked = 0
  const camera = () => {
    made ??= import('./camera.ts').then(({ pageCamera }) => pageCamera(view, torch))
    return made
  }
  return {
    view,
    torch,
    async open(into) {
      asked += 1
      const mine = asked
      view.value = 'asking'
      try {
        const own = await camera()
        if (mine === asked) await own.open(into)
      } catch {
        made = undefined
        view.value = 'none' // that part never came to this phone: the file input is the other way
      }
    },
    light: async (on) => (await camera()).light(on),
    shoot: async () => (await camera()).shoot(),
    close() {
      asked += 1
      view.value = 'off'
      void made?.then((own) => own.close())
    },
  }
}
