// In the page before its own scripts: when a tap came, when the transaction that keeps its entry was durable.
globalThis.probe = { tap_ms: 0, ticks: [], row: undefined }

addEventListener(
  'click',
  (event) => {
    if (event.target.id !== 'bare-put') probe.tap_ms = event.timeStamp
  },
  { capture: true },
)

const transaction = IDBDatabase.prototype.transaction
IDBDatabase.prototype.transaction = function (stores, mode, options) {
  const begun_ms = performance.now()
  const made = transaction.call(this, stores, mode, options)
  const { tap_ms } = probe
  // One that follows a tap: what the sync brought in before is no tick.
  if (mode === 'readwrite' && tap_ms > 0 && [stores].flat().includes('entries')) {
    probe.tap_ms = 0
    made.addEventListener('complete', () => {
      const durable_ms = performance.now()
      probe.ticks.push({ tap: durable_ms - tap_ms, append: durable_ms - begun_ms, durability: made.durability })
    })
  }
  return made
}

const add = IDBObjectStore.prototype.add
IDBObjectStore.prototype.add = function (row, ...key) {
  if (this.name === 'entries') probe.row = row
  return add.call(this, row, ...key)
}

// The floor: the same row, put into a store of its own that has no index, in a strict transaction.
async function bareStore() {
  globalThis.bare ??= await new Promise((resolve, reject) => {
    const asked = indexedDB.open('bare', 1)
    asked.onupgradeneeded = () => asked.result.createObjectStore('rows', { autoIncrement: true })
    asked.onsuccess = () => resolve(asked.result)
    asked.onerror = () => reject(asked.error)
  })
  return bare
}

function putBare(begun_ms) {
  return new Promise((resolve, reject) => {
    const made = transaction.call(bare, 'rows', 'readwrite', { durability: 'strict' })
    made.oncomplete = () => resolve(performance.now() - begun_ms)
    made.onabort = () => reject(made.error)
    made.objectStore('rows').put(probe.row)
    made.commit()
  })
}

// While nothing else goes on in the page.
globalThis.putAtRest = async () => {
  await bareStore()
  return new Promise((done) => requestIdleCallback(() => done(putBare(performance.now()))))
}

// From a tap, as a tick is: after a tap the browser draws before it tells of the disk.
globalThis.putOnTap = async () => {
  await bareStore()
  const key = document.createElement('button')
  key.id = 'bare-put'
  key.style = 'position: fixed; inset: 0 auto auto 0; z-index: 9999; width: 60px; height: 60px'
  document.body.append(key)
  return new Promise((done) => {
    key.onclick = (event) => {
      event.stopPropagation()
      done(putBare(event.timeStamp).finally(() => key.remove()))
    }
  })
}
