// Light or dark: the person's choice, kept with this phone's settings, else the device's.
import { signal } from '@preact/signals'
import { useEffect } from 'preact/hooks'
import { usePhone } from './context.ts'

export const THEMES = ['device', 'light', 'dark'] as const
export type Theme = (typeof THEMES)[number]

const chosen = signal<Theme>('device')

function show(theme: Theme): void {
  chosen.value = theme
  if (theme === 'device') delete document.documentElement.dataset.theme
  else document.documentElement.dataset.theme = theme
}

function isTheme(value: unknown): value is Theme {
  return THEMES.some((theme) => theme === value)
}

export function useTheme(): [Theme, (theme: Theme) => void] {
  const { store } = usePhone().services
  useEffect(() => {
    void store.setting('theme').then((kept) => isTheme(kept) && show(kept))
  }, [store])
  const choose = (theme: Theme) => {
    show(theme)
    void store.setSetting('theme', theme)
  }
  return [chosen.value, choose]
}
