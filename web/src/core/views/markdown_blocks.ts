/** Our own pages of instruction, written in Markdown: as much of it as they use. */

export type Inline = { readonly as: 'text' | 'code' | 'strong' | 'soft'; readonly text: string }
export type Block =
  | { readonly as: 'heading'; readonly level: number; readonly text: string; readonly id: string }
  | { readonly as: 'paragraph'; readonly parts: readonly Inline[] }
  | { readonly as: 'list'; readonly items: readonly (readonly Inline[])[] }
  | { readonly as: 'code'; readonly text: string }

const HEADING = /^(#{1,6}) (.*)$/
const ITEM = /^(?:-|\d+\.) (.*)$/
const INDENTED = /^ {4}(.*)$/
const INLINE = /`([^`]+)`|\*\*([^*]+)\*\*|\*([^*]+)\*/g

export function blocksOf(markdown: string): readonly Block[] {
  const lines = markdown.split(/\r?\n/)
  const blocks: Block[] = []
  for (let at = 0; at < lines.length; ) {
    const [block, next] = blockAt(lines, at)
    if (block) blocks.push(block)
    at = next
  }
  return blocks
}

type Found = readonly [block: Block | undefined, next: number]

function blockAt(lines: readonly string[], at: number): Found {
  const line = lines[at] ?? ''
  if (line.trim() === '') return [undefined, at + 1]
  if (line.startsWith('```')) return fenced(lines, at)
  if (INDENTED.test(line)) return whileLines(lines, at, (one) => INDENTED.test(one), codeOf)
  const heading = HEADING.exec(line)
  if (heading) {
    const [, marks = '', text = ''] = heading
    return [{ as: 'heading', level: marks.length, text, id: idOf(text) }, at + 1]
  }
  if (ITEM.test(line)) return whileLines(lines, at, (one) => one.trim() !== '', listOf)
  return whileLines(lines, at, (one) => one.trim() !== '' && !one.startsWith('```'), paragraphOf)
}

function fenced(lines: readonly string[], at: number): Found {
  const end = lines.findIndex((line, place) => place > at && line.startsWith('```'))
  const until = end === -1 ? lines.length : end
  return [{ as: 'code', text: lines.slice(at + 1, until).join('\n') }, until + 1]
}

function whileLines(
  lines: readonly string[],
  at: number,
  belongs: (line: string) => boolean,
  make: (lines: readonly string[]) => Block,
): Found {
  const end = lines.findIndex((line, place) => place > at && !belongs(line))
  const until = end === -1 ? lines.length : end
  return [make(lines.slice(at, until)), until]
}

const codeOf = (lines: readonly string[]): Block => ({
  as: 'code',
  text: lines.map((line) => line.slice(4)).join('\n'),
})

const paragraphOf = (lines: readonly string[]): Block => ({
  as: 'paragraph',
  parts: inlineOf(lines.map((line) => line.trim()).join(' ')),
})

/** A line that begins no item goes on with the one before. */
function listOf(lines: readonly string[]): Block {
  const items: string[] = []
  for (const line of lines) {
    const item = ITEM.exec(line)?.[1]
    if (item === undefined) items.push(`${items.pop() ?? ''} ${line.trim()}`.trim())
    else items.push(item)
  }
  return { as: 'list', items: items.map(inlineOf) }
}

export function inlineOf(text: string): readonly Inline[] {
  const parts: Inline[] = []
  let from = 0
  for (const match of text.matchAll(INLINE)) {
    if (match.index > from) parts.push({ as: 'text', text: text.slice(from, match.index) })
    const [whole, code, strong, soft] = match
    if (code !== undefined) parts.push({ as: 'code', text: code })
    else parts.push({ as: strong === undefined ? 'soft' : 'strong', text: strong ?? soft ?? '' })
    from = match.index + whole.length
  }
  if (from < text.length) parts.push({ as: 'text', text: text.slice(from) })
  return parts
}

const idOf = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
