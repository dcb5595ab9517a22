// The phone's screens with fixture data, to be looked at: ?scene=name&theme=dark.
import { render } from 'preact'
import { PhoneApp } from '../../../src/ui/phone/app.tsx'
import '../../../src/ui/style/base.css'
import '../../../src/ui/parts/parts.css'
import '../../../src/ui/phone/phone.css'
import { CARD_SCENES } from './card_scenes.ts'
import { MAP_SCENES } from './map_scenes.ts'
import { COMPUTE_SCENES } from './compute_scenes.ts'
import { HEAT_SCENES } from './heat_scenes.ts'
import { PHOTO_SCENES } from './photo_scenes.ts'
import { SCENES } from './scenes.ts'

const asked = new URLSearchParams(location.search)
const theme = asked.get('theme')
if (theme) document.documentElement.dataset.theme = theme
const scene = { ...SCENES, ...CARD_SCENES, ...MAP_SCENES, ...HEAT_SCENES, ...COMPUTE_SCENES, ...PHOTO_SCENES }[asked.get('scene') ?? 'card']
const root = document.getElementById('app')
if (scene && root) {
  const { fake, path } = await scene()
  if (theme) await fake.services.store.setSetting('theme', theme)
  history.replaceState(null, '', path)
  render(<PhoneApp services={fake.services} />, root)
}
