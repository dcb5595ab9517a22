/** A picture made ready to keep: judged by its first bytes, drawn anew (which drops its location), thumbnailed. */
import type { PictureQuality, PreparedPhoto } from '../store/types.ts'
import { PhotoFault } from './photo_fault.ts'
import { lumaOf, MEASURED_EDGE, qualityOf } from './picture_quality.ts'

const FILE_BYTES_MAX = 40 * 1024 * 1024
const EDGE_MAX = 2_560
const THUMB_EDGE_MAX = 320
const QUALITY = 0.86
const THUMB_QUALITY = 0.72

type Drawable = CanvasImageSource & { readonly width: number; readonly height: number }

export async function preparePhoto(file: Blob): Promise<PreparedPhoto> {
  if (file.size > FILE_BYTES_MAX) {
    throw new PhotoFault('too_large', `photo: ${file.size} bytes, at most ${FILE_BYTES_MAX} are taken`)
  }
  // Read at once: a chosen file can stop being readable when its original changes.
  const bytes = await file.arrayBuffer().catch((error: unknown) => {
    throw new PhotoFault('unreadable', 'photo: the file can no longer be read; take it again', {
      cause: error,
    })
  })
  const picture = await decoded(bytes)
  const photo = await drawnPhoto(picture)
  picture.close()
  return photo
}

/** Also for camera frames and demo drawings: what was drawn carries no data but its pixels. */
export async function drawnPhoto(picture: Drawable): Promise<PreparedPhoto> {
  const size = fitted(picture, EDGE_MAX)
  const [bytes, thumb] = [
    await jpegOf(picture, size, QUALITY),
    await jpegOf(picture, fitted(picture, THUMB_EDGE_MAX), THUMB_QUALITY),
  ]
  return { bytes, thumb, type: 'image/jpeg', ...size, quality: measured(picture) }
}

async function decoded(bytes: ArrayBuffer): Promise<ImageBitmap> {
  const type = typeOf(bytes)
  if (type === undefined) {
    throw new PhotoFault(
      'not_an_image',
      'photo: neither JPEG nor PNG by its first bytes; choose one of these',
    )
  }
  try {
    return await createImageBitmap(new Blob([bytes], { type }), { imageOrientation: 'from-image' })
  } catch (error) {
    throw new PhotoFault('unreadable', 'photo: its picture cannot be read; take it again', { cause: error })
  }
}

const JPEG = [0xff, 0xd8, 0xff]
const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]

export function typeOf(bytes: ArrayBuffer): 'image/jpeg' | 'image/png' | undefined {
  const first = new Uint8Array(bytes, 0, Math.min(8, bytes.byteLength))
  if (JPEG.every((byte, i) => first[i] === byte)) return 'image/jpeg'
  return PNG.every((byte, i) => first[i] === byte) ? 'image/png' : undefined
}

export type Size = { readonly width: number; readonly height: number }

/** The size with its longer edge at most `edge`; never larger than it was, never less than a pixel. */
export function fitted({ width, height }: Size, edge: number): Size {
  const scale = Math.min(1, edge / Math.max(width, height))
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) }
}

function measured(picture: Drawable): PictureQuality {
  const { canvas, pen } = drawn(picture, fitted(picture, MEASURED_EDGE))
  const { data, width, height } = pen.getImageData(0, 0, canvas.width, canvas.height)
  canvas.width = 0
  return qualityOf(lumaOf(data, width, height))
}

async function jpegOf(picture: Drawable, size: Size, quality: number): Promise<ArrayBuffer> {
  const { canvas } = drawn(picture, size)
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality))
  canvas.width = 0 // lets go of its memory at once, which phones short of it need
  if (blob === null) throw noMemory()
  return blob.arrayBuffer()
}

type Drawn = { readonly canvas: HTMLCanvasElement; readonly pen: CanvasRenderingContext2D }

function drawn(picture: Drawable, { width, height }: Size): Drawn {
  const canvas = document.createElement('canvas')
  canvas.width = width
  canvas.height = height
  const pen = canvas.getContext('2d')
  if (pen === null) throw noMemory()
  pen.imageSmoothingQuality = 'high'
  // JPEG has no clear parts: what a PNG leaves clear becomes white, not black.
  pen.fillStyle = '#fff'
  pen.fillRect(0, 0, width, height)
  pen.drawImage(picture, 0, 0, width, height)
  return { canvas, pen }
}

function noMemory(): PhotoFault {
  return new PhotoFault('unreadable', 'photo: this phone has no memory left to draw it')
}
