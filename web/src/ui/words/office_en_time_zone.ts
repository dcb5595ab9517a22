// Words of the shop's time zone, on the page of the filed.
export const timeZoneWords = {
  title: 'Times in reports',
  none: 'UTC: no time zone is set. Each report says so.',
  set: (zone: string) => `Times of the day as in ${zone}; each report names it with its offset from UTC.`,
  field: 'Time zone',
  note: 'A place of the time zone database, such as Europe/Helsinki. Left empty, times are UTC. What is filed stays as it is.',
  take: (zone: string) => `Take this browser’s: ${zone}`,
  save: 'Save the time zone',
}
