// Bundles the service worker and hands it the list of the files that were just built.
import { createHash } from 'node:crypto'
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join, relative, resolve } from 'node:path'
import { build, type Plugin } from 'vite'

type PrecacheRow = { url: string; revision: string | null }

const LEFT_OUT = /(^sw\.js$)|(\.map$)/

function filesBelow(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name)
    return statSync(path).isDirectory() ? filesBelow(path) : [path]
  })
}

// A name with a digest never changes its bytes; every other file is told apart by a digest of its own.
function rowOf(folder: string, path: string): PrecacheRow {
  const url = relative(folder, path).replaceAll('\\', '/')
  if (url.startsWith('assets/')) return { url: `/${url}`, revision: null }
  return {
    url: `/${url}`,
    revision: createHash('sha256').update(readFileSync(path)).digest('hex').slice(0, 16),
  }
}

function precacheRows(folder: string): PrecacheRow[] {
  return filesBelow(folder)
    .sort()
    .map((path) => rowOf(folder, path))
    .filter((row) => !LEFT_OUT.test(row.url.slice(1)))
}

/** Builds `worker` to `sw.js` beside the app, with its list of files as __BAYLEAF_PRECACHE__. */
export function precache(worker: string): Plugin {
  let folder = ''
  return {
    name: 'bayleaf-precache',
    apply: 'build',
    configResolved(config) {
      folder = resolve(config.root, config.build.outDir)
    },
    async writeBundle() {
      await build({
        configFile: false,
        logLevel: 'warn',
        define: {
          'self.__BAYLEAF_PRECACHE__': JSON.stringify(precacheRows(folder)),
          'process.env.NODE_ENV': '"production"',
        },
        build: {
          outDir: folder,
          emptyOutDir: false,
          copyPublicDir: false,
          lib: { entry: worker, formats: ['iife'], name: 'bayleaf_worker', fileName: () => 'sw.js' },
        },
      })
    },
  }
}
