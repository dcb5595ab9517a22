// Serves the gallery of screens, for looking at: node test/ui/gallery/serve.ts
import { fileURLToPath } from 'node:url'
import { createServer } from 'vite'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

const port = Number(process.env.GALLERY_PORT ?? 24173)

const server = await createServer({
  configFile: false,
  root: here('.'),
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  server: { port, strictPort: true, host: '127.0.0.1', fs: { allow: [here('../../..')] } },
  cacheDir: here(`../../../.tsbuild/gallery-${port}`),
})
await server.listen()
server.printUrls()
