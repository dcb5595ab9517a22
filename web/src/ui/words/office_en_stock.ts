// Words of the shop's pages: instruments, lots, materials.

export const shopPages = {
  name: 'Shop',
  instruments: 'Instruments',
  lots: 'Lots',
  materials: 'Materials',
  api: 'API',
}
