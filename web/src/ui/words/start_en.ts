// Words of a page whose parts did not all arrive. In the first script, so that they are always there.

export const start = {
  notWhole: 'Bayleaf did not arrive whole',
  notWholeWhy:
    'The network broke off while the app was fetched. Nothing that was recorded is lost. Open it again on the shop’s network.',
  again: 'Open again',
}
