// Words of the page 'What calls me'. Fetched with it.
export const callWords = {
  title: 'What calls me',
  intro:
    'A call reaches this phone while the app is closed or the screen is locked, if the internet carries it.',
  notAlarm: 'It is no safety alarm: it may come late or not at all. Set a second timer beside a heat run.',
  at: {
    unknown: 'Asking the office …',
    offline: 'No answer from the office. What is armed can be seen and changed when it is heard again.',
    contact: 'Not armed: the office has given no usable contact address for calls (office, Devices).',
    off: 'Not armed: nothing calls this phone.',
    lost: 'Not armed any more: this browser has dropped the calls. Choose again what is to call.',
    armed: 'Armed. The office calls this phone for what is chosen below.',
  },
  reach: {
    yes: '',
    not_installed:
      'Not armed: this phone calls installed apps only. Put the app on the home screen, open it there.',
    not_available: 'Not armed: this browser cannot be called.',
    denied: 'Not armed: notices of this app are forbidden. Allow them in the settings of this phone.',
  },
  runs: 'Heat runs',
  runsSmall: (on: boolean) => `${on ? 'on' : 'off'}: 5 minutes before, when due, 3 minutes overdue`,
  signs: 'Waits for my name',
  signsSmall: (on: boolean) => `${on ? 'on' : 'off'}: a hold point that I can countersign`,
  rehearse: 'Call this phone now',
  called: 'Sent. Lock the screen and see whether it arrives.',
  met: {
    denied: 'Not allowed: this phone asked, and the answer was no.',
    not_given: 'This browser gave no address for calls. Try again with the internet at hand.',
    offline: 'No answer from the office: nothing was changed.',
  },
  trouble: 'The last call did not go out',
  more: 'What calls me',
}
