import { words } from '../words.js';

/** Machines at sites that send readings, and their keys. */
export const gatewayWords = {
  title: words.places.gateways,
  what: 'gateway keys',
  machine: 'Machine',
  site: 'Site',
  made: 'Key made',
  lastUsed: 'Last used',
  state: 'State',
  never: 'never',
  valid: 'In use',
  withdrawn: (on: string, by: string) => `Withdrawn ${on} by ${by}`,
  withdraw: 'Withdraw the key',
  withdrawAsk: (name: string) => `Withdraw the key of ${name}?`,
  withdrawNote: 'From then on the gateway is refused, and told why. A new key can be made for it at any time.',
  withdrawNow: 'Withdraw it',
  empty: 'No gateway has a key.',
  emptyWhy: 'Make a key below, and enter it at the gateway.',
  make: 'Make a key',
  needSite: 'Choose the site that the gateway stands at',
  needName: 'Enter which machine it is for',
  nameHint: 'Such as PLC of skid 2',
  keyFor: (name: string) => `The key of ${name}`,
  keyOnce: 'Enter it at the gateway now, as Authorization: Bearer and this key. It is shown this once.',
};
