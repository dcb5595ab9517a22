// Words of the calls to phones, on the page of devices.
export const calls = {
  title: 'Calls to phones',
  intro:
    'Phones that ask for it are called by web push when a heat run is due and when a hold waits for a name. A call carries no name, order or vehicle. It needs the internet from here and at the phone.',
  fault: {
    '': 'Armed: calls go out under this contact address.',
    missing:
      'Not armed: no contact address is given. Push services want one to write to, and refuse calls without it.',
    scheme: 'Not armed: the contact address begins with neither mailto: nor https:.',
    address: 'Not armed: the contact address is none that can be reached.',
    reserved: 'Not armed: the contact address lies in a reserved domain that nobody can reach.',
  },
  contact: 'Contact address for push services',
  contactNote:
    'A mail address that somebody reads, or a page that begins with https://. Left empty, nobody is called.',
  save: 'Save the address',
  none: 'No phone has asked to be called. On the phone: This phone, What calls me.',
  phone: 'Phone',
  wants: 'Is called for',
  last: 'Last call',
  both: 'heat runs, and holds that wait for a name',
  runs: 'heat runs',
  signs: 'holds that wait for a name',
  fine: 'no trouble told',
}
