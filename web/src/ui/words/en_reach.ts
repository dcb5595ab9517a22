// Words of how the office is reached, and of a phone that has no job yet.

export const reachWords = {
  idle: (at: string) => `The office was heard at ${at}.`,
  offline: (at: string) => `The office is out of reach since ${at}.`,
  never: 'The office has not been heard yet.',
  goOn: 'Go on working; everything you need is on this phone. It sends by itself.',
  switchedOff: 'The shop network is switched off on this phone.',
  noJob: 'The office assigns it; it comes with the next contact.',
  noJobOffline:
    'This phone has not heard the office since then. Jobs that were assigned meanwhile come with the next contact.',
}
