// In the page before its own scripts: when a tap came, and when what it asks for stood on the screen. What is
// wanted must be told without a layout (`textContent`, no `innerText`), which would count as the screen's.
globalThis.shown = { tap_ms: 0, wanted: () => false, times: [] }

addEventListener(
  'click',
  (event) => {
    shown.tap_ms = event.timeStamp
  },
  { capture: true },
)

// After the frame that shows it: a message posted while it is made comes once it is drawn.
function drawn(then) {
  requestAnimationFrame(() => {
    const { port1, port2 } = new MessageChannel()
    port1.onmessage = () => then(performance.now())
    port2.postMessage('')
  })
}

function look() {
  if (shown.tap_ms === 0 || !shown.wanted()) return
  const { tap_ms } = shown
  shown.tap_ms = 0
  drawn((now_ms) => shown.times.push(now_ms - tap_ms))
}

addEventListener('DOMContentLoaded', () => {
  const everything = { childList: true, subtree: true, characterData: true, attributes: true }
  new MutationObserver(look).observe(document, everything)
})

// The floor: a key of its own that only changes its own words.
globalThis.bareKey = () => {
  const key = document.createElement('button')
  key.id = 'bare-key'
  key.style = 'position: fixed; inset: 0 auto auto 0; z-index: 9999; width: 60px; height: 60px'
  key.onclick = (event) => {
    event.stopPropagation()
    key.textContent = 'shown'
  }
  document.body.append(key)
}
