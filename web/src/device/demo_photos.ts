/** Drawn pictures for a demo without a camera: invented, and each unlike the last by its number. */

import type { PreparedPhoto } from '../store/types.ts'
import { drawnPhoto } from './prepare_photo.ts'

const [WIDTH, HEIGHT] = [1_200, 900]
const [SHEET, METAL, DARK, LIGHT] = ['#c9d2cc', '#8a9a91', '#13201b', '#fafbf7']

type Pen = CanvasRenderingContext2D

const SUBJECTS: Readonly<Record<string, (pen: Pen) => void>> = {
  bracket: (pen) => bracket(pen),
  rivet_row: (pen) => rivetRow(pen),
  pads: (pen) => pads(pen),
}

let made = 0

/** `id` as in DEMO_PHOTO_IDS; `words` say what the slot wants, and stand in the picture. */
export function demoPhoto(id: string, words = ''): Promise<PreparedPhoto> {
  return drawnPhoto(drawing(SUBJECTS[id] ?? bracket, words))
}

function drawing(draw: (pen: Pen) => void, words: string): HTMLCanvasElement {
  const canvas = document.createElement('canvas')
  canvas.width = WIDTH
  canvas.height = HEIGHT
  const pen = canvas.getContext('2d')
  if (pen === null) throw new Error('demo photo: this browser has no 2D canvas')
  pen.fillStyle = SHEET
  pen.fillRect(0, 0, WIDTH, HEIGHT)
  draw(pen)
  caption(pen, words)
  return canvas
}

/** The number makes every demo photo a photo of its own; the time of day does so after a reload. */
function caption(pen: Pen, words: string): void {
  made += 1
  pen.fillStyle = DARK
  pen.fillRect(0, HEIGHT - 90, WIDTH, 90)
  pen.fillStyle = LIGHT
  pen.font = '40px sans-serif'
  pen.fillText(`DEMO, INVENTED ${new Date().toISOString().slice(11, 23)} / ${made}`, 30, HEIGHT - 32)
  if (words === '') return
  pen.fillStyle = DARK
  pen.font = '32px sans-serif'
  pen.fillText(words, 30, 60, WIDTH - 60)
}

function bracket(pen: Pen): void {
  pen.fillStyle = METAL
  pen.fillRect(250, 150, 180, 560)
  pen.fillRect(250, 560, 640, 150)
  pen.fillStyle = DARK
  for (const [x, y] of [
    [340, 220],
    [340, 420],
    [560, 635],
    [800, 635],
  ] as const)
    disc(pen, x, y, 26)
}

function rivetRow(pen: Pen): void {
  pen.fillStyle = METAL
  pen.fillRect(80, 320, 1_040, 220)
  for (let x = 180; x <= 1_020; x += 210) {
    pen.fillStyle = LIGHT
    disc(pen, x, 430, 52)
    pen.fillStyle = DARK
    disc(pen, x, 430, 16)
  }
}

function pads(pen: Pen): void {
  pen.fillStyle = METAL
  pen.fillRect(100, 250, 1_000, 320)
  pen.fillStyle = '#a0522d'
  pen.fillRect(160, 300, 400, 220)
  pen.fillRect(640, 300, 400, 220)
  pen.strokeStyle = DARK
  pen.lineWidth = 8
  for (const x of [360, 600, 840]) {
    pen.beginPath()
    pen.moveTo(x, 410)
    pen.lineTo(x, 760)
    pen.stroke()
  }
}

function disc(pen: Pen, x: number, y: number, radius: number): void {
  pen.beginPath()
  pen.arc(x, y, radius, 0, 2 * Math.PI)
  pen.fill()
}
