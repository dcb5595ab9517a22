// The shapes of the state vocabulary, 24-unit drawings that always stand beside their word.
import type { JSX } from 'preact'

/** A disc or a hole as a path, so that even-odd filling cuts it out in any colour scheme. */
export function disc(r: number): string {
  return `M${12 - r} 12a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`
}

export type Drawing = { fill?: string; line?: string; thick?: string }

export const TICK_CUT = 'M6.2 12.4 8 10.5l2.9 2.8 5.2-5.9 1.9 1.7-7 7.9z'

const MARKS = {
  open: { line: 'M4 4h16v16H4z' },
  done: { fill: `M3 3h18v18H3z${TICK_CUT}` },
  next: { fill: 'M6 2h12v20l-6-6-6 6z' },
  held: { fill: 'M3 3h6v6.5h6V3h6v18h-6v-6.5H9V21H3z' },
  struck: { line: 'M5 5h14v14H5z', thick: 'M1 12h22' },
  late: { thick: 'M3 20 12 6l9 14' },
  deviation: { thick: 'M2 7h7l6 10h7' },
  finding: { line: 'M3 3h18v18H3z', fill: 'M10.6 6.5h2.8v7h-2.8zM10.6 15h2.8v2.8h-2.8z' },
  phone: { line: 'M6 2.5h12v19H6z', fill: 'M8.5 13h7v6h-7z' },
  office: { line: 'M2.5 13v7.5h19V13', fill: 'M7 4h10v11H7z' },
  filed: { fill: 'M4 2h16v20H4zM7 2v20h1.6V2zM11.5 6v2.2h5V6z' },
  aside: { line: 'M4 4h16v16H4z', thick: 'M8 12h8' },
  refused: { line: 'M4 4h16v16H4z', thick: 'M8 8l8 8M16 8l-8 8' },
  hot: {
    fill: 'M2 17h20v5H2z',
    line: 'M7 14c-2.4-3 2.4-5 0-9M12 14c-2.4-3 2.4-5 0-9M17 14c-2.4-3 2.4-5 0-9',
  },
  safe: { line: 'M2 15.5h20v5H2zM7 11.5h10' },
  caution: { line: 'M12 3 22.5 21.5h-21z', fill: 'M10.8 9.5h2.4v6h-2.4zM10.8 16.7h2.4v2.4h-2.4z' },
  note: { line: 'M4 3h16v18H4zM8 8h8M8 12h8M8 16h5' },
  camera: { line: 'M2.5 7h5L9 4h6l1.5 3h5v13h-19zM12 9.2a4 4 0 1 0 .01 0z' },
  person: { line: 'M12 3.5a4 4 0 1 0 .01 0zM3.5 21c1-6 16-6 17 0' },
  sign: { line: 'M3 21h18M5 16c3-9 6-13 6-8s-3 8-2 8 3-6 4-5-1 5 1 5 1-2 5-2' },
  later: { line: 'M4 9h16v12H4z', thick: 'M7 3h10' },
  clock: { line: 'M12 3a9 9 0 1 0 .01 0zM12 7v5.5l4 2.5' },
  sound: { fill: 'M2 9h4.5L12 4v16l-5.5-5H2z', line: 'M15.5 8.5c2 2 2 5 0 7M18.5 5.5c3.6 3.6 3.6 9.4 0 13' },
  silent: { fill: 'M2 9h4.5L12 4v16l-5.5-5H2z', line: 'M16 9l6 6M22 9l-6 6' },
  back: { thick: 'M16 4 8 12l8 8' },
  onward: { thick: 'M8 4l8 8-8 8' },
  erase: { line: 'M8 5h13.5v14H8l-6-7z', thick: 'M11.5 9.5l5 5M16.5 9.5l-5 5' },
  lift: { thick: 'M12 21V4M5 11l7-7 7 7' },
  lower: { thick: 'M12 3v17M5 13l7 7 7-7' },
  absent: { thick: 'M5 12h14' },
  closer: { thick: 'M4 12h16M12 4v16' },
  farther: { thick: 'M4 12h16' },
  more: { fill: 'M3 10h4v4H3zM10 10h4v4h-4zM17 10h4v4h-4z' },
} as const satisfies Record<string, Drawing>

export type MarkName = keyof typeof MARKS

export function Shape({ drawing, class: name }: { drawing: Drawing; class: string }): JSX.Element {
  return (
    <svg class={name} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      {drawing.fill && <path d={drawing.fill} fill="currentColor" fill-rule="evenodd" stroke="none" />}
      {drawing.line && <path d={drawing.line} fill="none" stroke="currentColor" stroke-width="2" />}
      {drawing.thick && <path d={drawing.thick} fill="none" stroke="currentColor" stroke-width="3.2" />}
    </svg>
  )
}

export function Mark({ name }: { name: MarkName }): JSX.Element {
  return <Shape drawing={MARKS[name]} class="mark" />
}
