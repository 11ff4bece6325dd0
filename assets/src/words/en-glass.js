/** Words of the phone's screen as a rule. */
export default {
  'glass.title': 'Screen as a rule',
  'glass.kit.none': 'Not set yet. Once it is, this screen measures a chain with no tool at all.',
  'glass.kit.ok': 'Set on {when} against a {against}: a millimetre is known to {percent} %.',
  'glass.kit.changed':
    'It was set on {when} for another size, zoom or way of holding this phone, so it is not used. Set it again, or go back to how it was.',
  'glass.kit.zoomed': 'The page is zoomed in. Zoom out fully; nothing is measured on a zoomed page.',
  'glass.against.rule': 'steel rule',
  'glass.against.card': 'card',
  'glass.set.rule': 'Set it with a steel rule',
  'glass.set.card': 'Set it with a card',
  'glass.set.hint':
    'A steel rule is the better one. A bank or identity card 85.6 mm wide will do, at the price of a wider range.',
  'glass.check.ready': 'Lay the chain on the glass, taut and clean, and set the mark under its pins.',
  'glass.check.done': '{n} spans over {pitches} pitches, on average {span}',
  'glass.check.open': 'Measure on the glass',
  'glass.check.again': 'Measure again',
  'glass.how.rule.1':
    'Lay the rule along the left of the glass, its edge on the glass, a whole mark on the upper line.',
  'glass.how.rule.2':
    'One eye straight over the lower line: see its reflection there. Move the line to the {length} mark.',
  'glass.how.rule.3': 'Four times. Lift the rule in between.',
  'glass.how.card.1': 'Lay the card’s long side along the left of the glass, one short edge on the upper line.',
  'glass.how.card.2':
    'One eye straight over the lower line: see its reflection there. Move the line to the other edge.',
  'glass.how.card.3': 'Four times. Lift the card in between.',
  'glass.how.measure.1':
    'Take the chain off, or use its free lower run. Clean its side: grit scratches the glass. Pull it taut.',
  'glass.how.measure.2':
    'A pin’s middle on the upper line, one eye straight over it: see its reflection in the glass behind the pin.',
  'glass.how.measure.3':
    'Now the eye straight over the lower line, never from where it was: the pin {n} pitches on belongs there. Move the line under its middle.',
  'glass.how.measure.4': 'Five times, at five places of the chain, none over the joining link.',
  'glass.start': 'Show the lines',
  'glass.leave': 'Back',
  'glass.count': '{n} of {all}',
  'glass.take': 'Take it',
  'glass.undo': 'Undo the last',
  'glass.far': 'far',
  'glass.near': 'near',
  'glass.fine': 'fine',
  'glass.up': 'Line up, {pace}',
  'glass.down': 'Line down, {pace}',
  'glass.wild': 'These differ too much to be the same length. Start again, with the eye straight over each line.',
  'glass.moved': 'The window has changed meanwhile, and with it how far apart the lines are to be. Start again.',
  'glass.implausible': 'No screen has so few or so many points to a millimetre. Check the length, and start again.',
  'glass.small': 'This window is too low: at least {n} pitches must fit. Hold the phone upright, or use a rule.',
  'glass.again': 'Start again',
  'glass.lines': 'Two lines {length} apart',
};
