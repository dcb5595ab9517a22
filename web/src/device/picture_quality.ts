/**
 * How sharp and how bright a picture is, by figures: measured when it is taken, while it can be taken again.
 *
 * Sharpness is the variance of the Laplacian (the four neighbours minus four times the middle) of the luma, after the
 * picture was made small: Pech-Pacheco, Cristobal, Chamorro-Martinez, Fernandez-Valdivia, ICPR 2000, who compare it
 * with other measures of focus. Luma is the weighted sum of ITU-R BT.601. The limits are common practice, no source:
 * they depend on what is seen, so a picture beyond them is asked about and never refused.
 */
import type { PictureQuality } from '../store/types.ts'

/** Measured at this longer edge: noise of a dark sensor is averaged away, and a phone does it in a moment. */
export const MEASURED_EDGE = 512

/** Below `soft` the picture looks blurred at this size; mean luma and shares of the 0 to 255 scale. */
export const LIMITS = { soft: 40, dark: 45, bright: 225, clipped_share: 0.4 } as const

const CLIPPED = { dark: 5, bright: 250 } as const

export type Luma = { readonly width: number; readonly height: number; readonly values: Float32Array }

/** Luma 0 to 255 of RGBA bytes. */
export function lumaOf(rgba: ArrayLike<number>, width: number, height: number): Luma {
  const values = new Float32Array(width * height)
  for (let i = 0; i < values.length; i += 1) {
    const [r = 0, g = 0, b = 0] = [rgba[4 * i], rgba[4 * i + 1], rgba[4 * i + 2]]
    values[i] = 0.299 * r + 0.587 * g + 0.114 * b
  }
  return { width, height, values }
}

export function qualityOf(luma: Luma): PictureQuality {
  const { values } = luma
  const share = (clipped: (value: number) => boolean) => values.filter(clipped).length / values.length
  return {
    sharpness: variance(laplacian(luma)),
    brightness: values.reduce((sum, value) => sum + value, 0) / values.length,
    dark_share: share((value) => value <= CLIPPED.dark),
    bright_share: share((value) => value >= CLIPPED.bright),
  }
}

/** Of the inner pixels; the edge has no neighbours. */
function laplacian({ width, height, values }: Luma): Float32Array {
  const inner = new Float32Array(Math.max(0, width - 2) * Math.max(0, height - 2))
  const at = (x: number, y: number) => values[y * width + x] ?? 0
  let i = 0
  for (let y = 1; y < height - 1; y += 1) {
    for (let x = 1; x < width - 1; x += 1) {
      inner[i] = at(x - 1, y) + at(x + 1, y) + at(x, y - 1) + at(x, y + 1) - 4 * at(x, y)
      i += 1
    }
  }
  return inner
}

function variance(values: Float32Array): number {
  if (values.length === 0) return 0
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length
}

export type Doubt = 'soft' | 'dark' | 'bright'

/** What may be wrong with it; empty where nothing is. A dark picture is not called soft: nobody can tell. */
export function doubtsAbout(quality: PictureQuality): readonly Doubt[] {
  const { sharpness, brightness, dark_share, bright_share } = quality
  if (brightness < LIMITS.dark || dark_share > LIMITS.clipped_share) return ['dark']
  const bright: readonly Doubt[] =
    brightness > LIMITS.bright || bright_share > LIMITS.clipped_share ? ['bright'] : []
  return sharpness < LIMITS.soft ? ['soft', ...bright] : bright
}
