// Words of the page that asks who works now, on a phone that several people share.
export const whoWords = {
  title: 'Who works now?',
  why: 'Several people share this phone. What is recorded from now on carries this name, until the page is closed.',
  worksNow: (name: string) => `${name} works now`,
  withoutPin: 'Go on without PIN',
  withoutPinSays: 'picked from a list, the record says so',
  nobody: 'No people are on this phone yet. They come with the next contact with the office.',
}
