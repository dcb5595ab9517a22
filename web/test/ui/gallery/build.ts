// Builds the gallery into an ignored folder, for tests and pictures: node test/ui/gallery/build.ts
import { fileURLToPath } from 'node:url'
import { build } from 'vite'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

await build({
  configFile: false,
  logLevel: 'warn',
  root: here('.'),
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: { outDir: here('../../../.tsbuild/gallery'), emptyOutDir: true, minify: false, target: 'es2022' },
})
