// The pages of the shop under one name of the bar.
import type { JSX } from 'preact'
import { shopPages as words } from '../words/office_en_stock.ts'
import { linkTo } from './place.ts'

export const SHOP_PAGES = ['instruments', 'lots', 'materials', 'api'] as const
export type ShopPage = (typeof SHOP_PAGES)[number]

export function ShopNav({ here }: { here: ShopPage }): JSX.Element {
  return (
    <nav class="o-subnav" aria-label={words.name}>
      {SHOP_PAGES.map((page) => (
        <a key={page} class="o-tab" href={linkTo[page]} aria-current={page === here ? 'page' : undefined}>
          {words[page]}
        </a>
      ))}
    </nav>
  )
}
