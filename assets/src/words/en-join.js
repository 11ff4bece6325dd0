/** Texts of Join in English. */
export default {
  'join.title': 'Join a garage',
  'join.means': 'Somebody has invited this phone into a shared garage. If it joins:',
  'join.means.1':
    'The garage’s bikes, readings and rounds come onto this phone and are kept up to date when there is signal.',
  'join.means.2': 'What is entered in it here, everybody in it sees, with this phone’s name.',
  'join.means.3': 'Whoever sent the link decides what this phone may do, and can shut it out again.',
  'join.own': 'The bikes that are on this phone already stay, in a garage of their own.',
  'join.device': 'Name of this phone',
  'join.device.hint': 'So that the others know who it is, such as Ada’s phone.',
  'join.main': 'Join',
  'join.busy': 'A moment…',
  'join.name': 'Give it a name',
  'join.not': 'Not now',
  'join.none': 'There is no invitation in this address. Open the link again, or ask for a new one.',
  'join.away': 'Go to Check',
  'join.signal': 'There is no signal, or the server is away. The link can be opened again later.',
  'join.in': 'You are in: {name}',
  'join.role.owner': 'This phone is an owner: it may do everything, and invite others.',
  'join.role.leader': 'This phone is a leader: it may add and change bikes, chains and rounds, and take readings.',
  'join.role.checker':
    'This phone is a checker: it may take readings, add distance and care, and check bikes in a round.',
  'join.role.viewer': 'This phone is a viewer: it sees everything and changes nothing.',
  'join.bring.title': 'And the bikes that were here?',
  'join.bring.one':
    'One bike is in this phone’s own garage. It can stay there, or come into the shared one for all to see.',
  'join.bring.many':
    '{n} bikes are in this phone’s own garage. They can stay there, or come into the shared one for all to see.',
  'join.bring': 'Bring them into this garage',
  'join.brought': 'They are in the shared garage now.',
  'join.bikes': 'See its bikes',
  'join.round': 'Go to the round',
};
