// Stands before the page: Date and performance.now as the test turns them, and whether the page is seen.
;(() => {
  const turned = globalThis.turnedClock ?? { wall_ms: 0, mono_ms: 0, hidden: false }
  globalThis.turnedClock = turned
  if (turned.there) return
  turned.there = true
  const RealDate = Date
  const realMono = performance.now.bind(performance)
  turned.real = () => RealDate.now()
  const now = () => RealDate.now() + turned.wall_ms
  globalThis.Date = new Proxy(RealDate, {
    construct: (target, words) => (words.length === 0 ? new target(now()) : new target(...words)),
    apply: () => new RealDate(now()).toString(),
    get: (target, key) => (key === 'now' ? now : Reflect.get(target, key)),
  })
  performance.now = () => realMono() + turned.mono_ms
  // Keys are deaf for 400 ms after each act; a test that bounces no glove waits a tenth of that.
  const realTimeout = globalThis.setTimeout.bind(globalThis)
  globalThis.setTimeout = (call, ms, ...words) => realTimeout(call, ms === 400 ? 40 : ms, ...words)
  Object.defineProperty(Document.prototype, 'visibilityState', {
    configurable: true,
    get: () => (turned.hidden ? 'hidden' : 'visible'),
  })
  Object.defineProperty(Document.prototype, 'hidden', { configurable: true, get: () => turned.hidden })
})()
