// How the screens' frame reaches the phone's live state.
import { createContext } from 'preact'
import { useContext } from 'preact/hooks'
import type { PhoneModel } from './model.ts'

export const PhoneContext = createContext<PhoneModel | undefined>(undefined)

export function usePhone(): PhoneModel {
  const model = useContext(PhoneContext)
  if (model === undefined) throw new Error('PhoneContext: no phone above this screen')
  return model
}
