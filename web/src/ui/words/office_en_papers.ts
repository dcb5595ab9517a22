// Words of the makers' instructions in the office.
import { bytes } from './format.ts'

export const paperWords = {
  title: 'Maker’s instruction',
  none: 'None yet. What is added here comes to the phones with their next contact, and works offline.',
  line: (size: number, day: string) => `PDF, ${bytes(size)}, added ${day}`,
  ofMethod: 'of its method',
  add: 'Add a PDF',
  limit: 'At most 40 MB.',
  adding: 'Sending the PDF',
  notPdf: 'Choose a PDF file.',
  tooLarge: (size: number) => `This file has ${bytes(size)}; at most 40 MB are taken.`,
  remove: 'Remove',
  removeOf: (name: string) => `Remove ${name}`,
  removeSure: (name: string) => `Remove “${name}” from the phones? Dossiers that were filed with it keep it.`,
  keep: 'Keep it',
  save: (name: string) => `Save ${name}`,
}
