// Words of what was done outside a clock of the bond, on the office's page of a job.
export const clocks = {
  title: 'Done outside a clock of the bond',
  rivets: (list: string, open: string) => `Set after the open time of ${open}: ${list}`,
  mixer: (stood: string, gel: string) => `Flowed again after the mixer had stood ${stood}; it sets in ${gel}`,
  reading: (name: string, took: string, least: string, most: string, shortened: boolean) =>
    `${name} ${took}; ${allowed(least, most)}${shortened ? ' at this temperature' : ''}`,
}

function allowed(least: string, most: string): string {
  if (least === '') return `at most ${most} allowed`
  return most === '' ? `at least ${least} wanted` : `${least} to ${most} allowed`
}
