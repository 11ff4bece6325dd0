/** The texts of en-glass.js in German. */
export default {
  'glass.title': 'Bildschirm als Lineal',
  'glass.kit.none': 'Noch nicht eingestellt. Danach misst dieser Bildschirm eine Kette ganz ohne Werkzeug.',
  'glass.kit.ok': 'Eingestellt am {when} an: {against}. Ein Millimeter ist auf {percent} % bekannt.',
  'glass.kit.changed':
    'Am {when} für eine andere Größe, Vergrößerung oder Haltung dieses Telefons eingestellt und darum nicht benutzt. Neu einstellen oder zurück wie vorher.',
  'glass.kit.zoomed': 'Die Seite ist vergrößert. Ganz herauszoomen; auf einer vergrößerten Seite wird nicht gemessen.',
  'glass.against.rule': 'Stahllineal',
  'glass.against.card': 'Karte',
  'glass.set.rule': 'Mit einem Stahllineal einstellen',
  'glass.set.card': 'Mit einer Karte einstellen',
  'glass.set.hint':
    'Ein Stahllineal ist besser. Eine Bank- oder Ausweiskarte von 85,6 mm Breite tut es auch, mit größerer Spanne.',
  'glass.check.ready': 'Kette gestrafft und sauber auf das Glas legen, die Marke unter ihre Bolzen stellen.',
  'glass.check.done': '{n} Messungen über {pitches} Glieder, im Mittel {span}',
  'glass.check.open': 'Auf dem Glas messen',
  'glass.check.again': 'Noch einmal messen',
  'glass.how.rule.1':
    'Das Lineal links auf das Glas legen, die Kante auf dem Glas, ein ganzer Strich auf der oberen Linie.',
  'glass.how.rule.2':
    'Ein Auge senkrecht über der unteren Linie: dort muss es sich spiegeln. Die Linie auf den Strich {length} schieben.',
  'glass.how.rule.3': 'Viermal. Das Lineal dazwischen abheben.',
  'glass.how.card.1': 'Die lange Seite der Karte links auf das Glas legen, eine kurze Kante auf der oberen Linie.',
  'glass.how.card.2':
    'Ein Auge senkrecht über der unteren Linie: dort muss es sich spiegeln. Die Linie auf die andere Kante schieben.',
  'glass.how.card.3': 'Viermal. Die Karte dazwischen abheben.',
  'glass.how.measure.1':
    'Kette abnehmen oder ihr freies unteres Stück nehmen. Die Seite reinigen: Sand zerkratzt das Glas. Straff ziehen.',
  'glass.how.measure.2':
    'Eine Bolzenmitte auf die obere Linie, ein Auge senkrecht darüber: es muss sich hinter dem Bolzen im Glas spiegeln.',
  'glass.how.measure.3':
    'Jetzt das Auge senkrecht über die untere Linie, nie von vorher aus: dorthin gehört der Bolzen {n} Glieder weiter. Die Linie unter seine Mitte schieben.',
  'glass.how.measure.4': 'Fünfmal, an fünf Stellen der Kette, keine über dem Verschlussglied.',
  'glass.start': 'Linien zeigen',
  'glass.leave': 'Zurück',
  'glass.count': '{n} von {all}',
  'glass.take': 'Übernehmen',
  'glass.undo': 'Letzte zurück',
  'glass.far': 'weit',
  'glass.near': 'nah',
  'glass.fine': 'fein',
  'glass.up': 'Linie hinauf, {pace}',
  'glass.down': 'Linie hinab, {pace}',
  'glass.wild':
    'Diese weichen zu sehr voneinander ab, um dieselbe Länge zu sein. Neu beginnen, das Auge senkrecht über jeder Linie.',
  'glass.moved':
    'Das Fenster hat sich inzwischen geändert, und damit, wie weit die Linien auseinander gehören. Neu beginnen.',
  'glass.implausible':
    'So wenige oder so viele Punkte je Millimeter hat kein Bildschirm. Länge prüfen und neu beginnen.',
  'glass.small':
    'Dieses Fenster ist zu niedrig: mindestens {n} Glieder müssen passen. Telefon hochkant halten oder ein Lineal nehmen.',
  'glass.again': 'Neu beginnen',
  'glass.lines': 'Zwei Linien im Abstand {length}',
};
