// The phone's screens with fixture data, to be looked at: ?scene=name&theme=dark.
import { type JSX, render } from 'preact'
import { PhoneApp } from '../../../src/ui/phone/app.tsx'
import '../../../src/ui/style/base.css'
import '../../../src/ui/parts/parts.css'
import '../../../src/ui/phone/phone.css'
import demo_photo from '../../../../seed_data/photos/fit-05-dry.jpg?url'
import type { FakePhone } from '../fake_phone.ts'
import { CALLS_SCENES } from './calls_scenes.ts'
import { CARD_SCENES } from './card_scenes.ts'
import { CLOCK_SCENES } from './clock_scenes.ts'
import { COMPUTE_SCENES } from './compute_scenes.ts'
import { DOOR_SCENES } from './door_scenes.tsx'
import { FORECAST_SCENES } from './forecast_scenes.ts'
import { HEAT_SCENES } from './heat_scenes.ts'
import { HOLE_SCENES } from './hole_scenes.ts'
import { MAP_SCENES } from './map_scenes.ts'
import { OFFICE_HEAT_KEYS, OFFICE_HEAT_SCENES } from './office_heat_scenes.tsx'
import { PHOTO_SCENES } from './photo_scenes.ts'
import { SCENES } from './scenes.ts'
import { SHEET_SCENES } from './sheet_scenes.ts'
import { arrived, press, quiet, settled } from './shown.ts'

type Scene = () => Promise<{ fake: FakePhone; path: string; press?: readonly string[] }>

const PHONE_SCENES: Readonly<Record<string, Scene>> = {
  ...SCENES,
  ...CARD_SCENES,
  ...CALLS_SCENES,
  ...MAP_SCENES,
  ...HEAT_SCENES,
  ...FORECAST_SCENES,
  ...COMPUTE_SCENES,
  ...HOLE_SCENES,
  ...CLOCK_SCENES,
  ...PHOTO_SCENES,
  ...SHEET_SCENES,
}

const ELEMENT_SCENES = { ...DOOR_SCENES, ...OFFICE_HEAT_SCENES }

declare global {
  var showScene: (name: string) => Promise<void>
}

const asked = new URLSearchParams(location.search)
const theme = asked.get('theme')
const { title } = document
const { dataset } = document.documentElement
dataset.scenes = Object.keys({ ...PHONE_SCENES, ...ELEMENT_SCENES }).join(' ')

/** What the scene shows, and the keys to press then. */
async function drawn(name: string): Promise<{ element: JSX.Element; press: readonly string[] } | undefined> {
  const element = ELEMENT_SCENES[name]
  if (element) return { element: await element(), press: OFFICE_HEAT_KEYS[name] ?? [] }
  const scene = await PHONE_SCENES[name]?.()
  if (scene === undefined) return undefined
  await showPictures(scene.fake)
  if (theme) await scene.fake.services.store.setSetting('theme', theme)
  history.replaceState(null, '', scene.path)
  return { element: <PhoneApp services={scene.fake.services} />, press: scene.press ?? [] }
}

/** Invented photos for what the scenes shot: their own bytes are no pictures. */
async function showPictures({ services, entries }: FakePhone): Promise<void> {
  if (!entries().some(({ entry }) => entry.kind === 'photo')) return
  const picture = await (await fetch(demo_photo)).blob()
  const { store } = services
  const shown = async () => picture
  Object.assign(store, { photo: shown, thumb: shown })
}

const root = document.getElementById('app')

/** The page as it was before its first scene. */
function clear(root: Element): void {
  render(null, root)
  delete dataset.shown
  delete dataset.theme
  if (theme) dataset.theme = theme
  document.title = title
  sessionStorage.clear()
  scrollTo(0, 0)
}

/** Draws a scene in the place of the one before; `data-shown` names it once it stands. */
globalThis.showScene = async (name) => {
  if (root === null) return
  clear(root)
  const shown = await drawn(name)
  if (shown) {
    render(shown.element, root)
    if (name !== 'loading') await arrived(root)
    for (const words of shown.press) await press(root, words)
    await quiet(root)
    await settled(root)
  }
  dataset.shown = name
}

await globalThis.showScene(asked.get('scene') ?? 'card')
