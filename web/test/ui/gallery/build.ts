// Builds the gallery into a folder, for tests and pictures: node test/ui/gallery/build.ts FOLDER
import { fileURLToPath } from 'node:url'
import { build } from 'vite'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

const outDir = process.argv[2]
if (outDir === undefined) throw new Error('build.ts: a folder to build into')

await build({
  configFile: false,
  logLevel: 'warn',
  root: here('.'),
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    ...{ outDir, emptyOutDir: true, minify: false, target: 'es2022' },
    // In one piece: no part comes later than the page that wants it, however busy the machine is.
    rolldownOptions: { output: { codeSplitting: false } },
  },
})
