// Serves the gallery of screens, for looking at: node test/ui/gallery/serve.ts
import { fileURLToPath } from 'node:url'
import { createServer } from 'vite'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

const server = await createServer({
  configFile: false,
  root: here('.'),
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  server: { port: 24173, strictPort: true, host: '127.0.0.1', fs: { allow: [here('../../..')] } },
  cacheDir: here('../../../.tsbuild/gallery'),
})
await server.listen()
server.printUrls()
