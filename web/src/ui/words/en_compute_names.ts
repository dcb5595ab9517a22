// Names of figures, inputs, sources and models of computations. Fetched with their page.

/** What stands after a prefix is a group's or a point's own name. */
const PREFIXES: readonly (readonly [prefix: string, word: (of: string) => string])[] = [
  ['grip_', (of) => `Grip, ${of}`],
  ['rivets_', (of) => `Rivets, ${of}`],
  ['residual_', (of) => `Left after the fit, ${of}`],
  ['moved_', (of) => `Moved, ${of}`],
  ['owed_', (of) => `${of} owed`],
  ['taken_', (of) => `${of} taken`],
  ['lost_', (of) => `${of} lost`],
  ['difference_', (of) => `${of} too many or too few`],
  ['counted_', (of) => `${of} counted in the tray`],
]
const PIECES: Readonly<Record<string, string>> = { head: 'Heads', mandrel: 'Mandrels', shank: 'Shanks' }

const VALUES: Readonly<Record<string, string>> = {
  allowed: 'Allowed',
  at: 'Worst at',
  bead: 'Bead as laid',
  bits_needed: 'Bits needed at least',
  bits_used: 'Bits used',
  bond_peak_cold_end: 'Hottest bond, cold end of the band',
  bond_peak_hot_end: 'Hottest bond, hot end of the band',
  bondline_max: 'Widest gap',
  bondline_mean: 'Mean bondline',
  bondline_min: 'Narrowest gap',
  bondline_volume: 'Bondline wants',
  cartridges: 'Cartridges',
  cold_below: 'Cold below',
  coldest: 'Coldest reading',
  cooling_max: 'Cooling at most',
  counted: 'Positions',
  damaged: 'Holes marked damaged',
  dew_point: 'Dew point',
  drill_to: 'Drill to',
  elapsed: 'Since the first gram',
  end_strain: 'Shear at the end, elastic',
  end_stress: 'Shear stress at the end',
  end_travel: 'Travel of each end',
  equivalent: 'Counts as',
  full_left: 'Full cure still wants',
  full_share: 'Of full cure',
  gap_moved: 'Gap moved at most',
  gap_spread: 'Widest less narrowest',
  handling_left: 'Handling cure still wants',
  handling_share: 'Of handling cure',
  heat_until: 'Release begins',
  hole_from: 'Hole from',
  hole_to: 'Hole to',
  holes_larger: 'Holes for the next size',
  holes_opened: 'Holes to open',
  holes_to_maker: 'Holes for the maker',
  holes_used: 'Holes used as they are',
  in_band: 'Inside the band',
  in_diameters: 'In diameters',
  lagging_min: 'Coldest bond at least',
  larger: 'Of the next size',
  largest: 'Largest hole',
  largest_deviation: 'Largest deviation as it stands',
  largest_moved: 'Moved most since before',
  largest_residual: 'Largest left after the fit',
  largest_step: 'Largest step',
  last_bit: 'Holes of the last bit',
  last_bit_left: 'The last bit may still do',
  leading_max: 'Hottest bond at most',
  left: 'Left',
  left_over: 'Left over',
  lift_below: 'Lift pads below',
  limit: 'Allowed for one bit',
  margin: 'Over the dew point',
  metal_peak_cold_end: 'Hottest metal, cold end of the band',
  metal_peak_hot_end: 'Hottest metal, hot end of the band',
  metal_max: 'Metal at most',
  minimum: 'Minimum',
  mixers: 'Mixers',
  narrowest_gap: 'Narrowest gap',
  neighbour_max: 'Neighbour at most',
  open_time: 'Open time',
  part_flange: 'Part and flange apart',
  per_bit: 'Holes of one bit',
  per_hour: 'Change',
  positions: 'Positions',
  ramp: 'Ramp expected',
  ramp_max: 'Ramp at most',
  release_until: 'Last pad off',
  rivet: 'Rivet',
  rivet_flange: 'Rivet and flange apart',
  rivet_part: 'Rivet and part apart',
  rms: 'Root mean square',
  room: 'Room to spare',
  setpoint: 'Pads set to',
  smallest: 'Smallest diameter',
  soak: 'Soak',
  spares: 'Spares',
  speed: 'Speed against the sheet',
  squeeze_out: 'Comes out at the edges',
  still_to_dry: 'Still to dry',
  step_moved: 'Step moved at most',
  temperature: 'Warmest of the three',
  thinnest: 'At the thinnest bondline',
  to_pick: 'To lay ready',
  travel: 'Travel over the length',
  turned: 'Turned by',
  until_least: 'Until the least',
  upper_bound: 'Shear at most (upper bound)',
  used: 'Used',
  volume: 'Adhesive',
  widest_gap: 'Widest gap',
  workable: 'Workable after',
  workable_from: 'Workable at the earliest',
  workable_until: 'Workable at the latest',
}

const INPUTS: Readonly<Record<string, string>> = {
  activation_energy: 'activation energy',
  across: 'diameter across',
  adhesive: 'adhesive',
  air: 'air',
  along: 'diameter along',
  bit: 'drill bit',
  blob: 'sample blob',
  blob_least: 'blob at least',
  earlier: 'earlier margin',
  earlier_runs: 'earlier heat runs',
  flange: 'flange',
  foot_bed: 'bed of the foot',
  from: 'from',
  full_time: 'full cure by the sheet',
  glass_ply: 'glass ply',
  grip_from: 'grip from',
  grip_to: 'grip to',
  handling_time: 'handling cure by the sheet',
  least: 'at least',
  least_spares: 'spares at least',
  limit: 'holes for one bit',
  nominal: 'rivet',
  per_bit: 'holes of one bit',
  'rivet.hole_max_mm': 'hole at most',
  'rivet.hole_min_mm': 'hole at least',
  sheet_temperature: 'the sheet’s temperature',
  sheet_time: 'the sheet’s time',
  tallies: 'rivets',
}

/** The figure of a result by its name; `label` knows groups and points by their ids. */
export function valueName(name: string, label: (id: string) => string): string {
  const known = VALUES[name]
  if (known !== undefined) return known
  for (const [prefix, word] of PREFIXES) {
    if (!name.startsWith(prefix)) continue
    const id = name.slice(prefix.length)
    return word(PIECES[id] ?? label(id))
  }
  return name.replaceAll('_', ' ')
}

export function inputName(name: string): string {
  return INPUTS[name] ?? name.replaceAll('_', ' ')
}

export const sourceWords: Readonly<Record<string, string>> = {
  arrhenius:
    'Equivalent age, ASTM C1074: exp(−Q (1/T − 1/Tr)) with Q = Ea / 8.314 J/(mol K); exact over every ramp (NIST DLMF 6.2, 8.19).',
  bits: 'Plain counting; how much one bit may do is its supplier’s figure, else the method’s.',
  bondline: 'Plain mean of the gaps times bond width and length.',
  counting: 'Counted from the rivets as recorded; it cannot see what was never recorded.',
  drying:
    'Moisture in a laminate can turn to steam and blister it: dry before heated bonded repairs, MIL-HDBK-17-3F, volume 3, chapter 12.',
  edge_laminate: 'Laminate: at least 3 diameters to the edge; composite practice, from memory.',
  edge_metal:
    'FAA AC 43.13-1B, chapter 4: at least 2 diameters to the edge; written for solid rivets in metal sheet.',
  galvanic: 'Five electromotive groups after Niu, Airframe Structural Design; MIL-STD-1250A on small anodes.',
  geometry: 'Triangle, base times height over two; 1000 mm³ are 1 mL.',
  grip_rows: 'The supplier’s grip range; the whole stack-up must lie in it, ends included. Common practice.',
  heat_plan:
    'The heat plan of the office: coupled thin plates, the band over contact and loss. The zone document says every input.',
  hole: 'FAA AC 43.13-1B, paragraph 4-57 b on the next larger rivet; limits are the method’s.',
  kabsch: 'Rigid least-squares fit without reflection: Kabsch 1976, Horn 1987.',
  magnus:
    'Magnus form over water (below 0 °C over ice), WMO-No. 8, annex 4.B. Band: humidity ±3 %, temperatures ±0.5 K.',
  method_limits: 'The method’s own figures.',
  per_10_kelvin:
    'Half as long per 10 K warmer, common practice without a source; never longer than the data sheet says.',
  shear_lag: 'Elastic shear lag: Volkersen 1938; Hart-Smith, NASA CR-112235 and CR-112236.',
  slowest: 'The slowest of computed cure, data sheet and sample blob decides.',
  spares: 'One for each position; spares rounded up, as the method asks.',
  three_kelvin: 'ISO 8502-4: 3 K over the dew point, written for painting steel, borrowed here.',
}
