// Words of signing in at the office.

export const signIn = {
  title: 'Office',
  intro: 'Sign in with your own name.',
  name: 'Name',
  password: 'Password',
  key: 'Sign in',
  working: 'Signing in',
  needName: 'Type your name first.',
  needPassword: 'Type your password first.',
  wrong: 'Name and password do not fit together.',
  tooMany: (seconds: number) =>
    seconds > 0
      ? `Too many tries. Wait ${seconds} s, then try again.`
      : 'Too many tries. Wait a while, then try again.',
  ended: 'Your sign-in has ended. Nothing that was recorded is lost; sign in again.',
  looking: 'Asking the office who is signed in.',
  silentTitle: 'The server does not answer',
  silent:
    'Check that it is running and that this computer is on its network. This page asks again by itself.',
  again: 'Ask again',
  demo: 'Demo data, invented. The name and password stand on the demo’s front page.',
  demoLink: 'To the demo’s front page',
}
