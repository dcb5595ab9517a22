// How the web app is built: one page, hashed assets, a service worker that knows them all.
import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vite'
import { fewFiles } from './build/chunks.ts'
import { precache } from './build/precache.ts'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))

export default defineConfig({
  // Dexie's entry for old browsers is 2 KB larger and does the same.
  resolve: { alias: { dexie: 'dexie/dist/modern/dexie.min.mjs' } },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: '../server/bayleaf/front_end',
    emptyOutDir: true,
    // Of what is fetched later only the styles are named here: a first page would have to fetch the whole list.
    modulePreload: {
      polyfill: false,
      resolveDependencies: (_file, files) =>
        files.filter((file) => /\.css$|\/(phone|shared|rolldown-runtime)-/.test(file)),
    },
    target: 'es2022',
    assetsInlineLimit: 0,
    cssCodeSplit: true,
    sourcemap: false,
    rolldownOptions: {
      output: {
        codeSplitting: {
          groups: [
            fewFiles({
              page: here('./src/main.tsx'),
              phone: here('./src/phone_main.tsx'),
              office: here('./src/office_main.tsx'),
            }),
          ],
        },
      },
    },
  },
  plugins: [precache(here('./src/sw/sw.ts'))],
  server: { proxy: { '/api': 'http://localhost:8080' } },
})
