/** The texts of en-photo.js in German, and what the photo engine says. */
export default {
  'instrument.photo': 'Foto',
  'kept.reading.photo': 'Foto: {mm} % länger über {n} Glieder',
  'photo.title': 'Foto der Kette',
  'photo.proof':
    'Versuch: wie genau es an echten Fotos ist, ist noch nicht nachgewiesen. Vor dem Handeln mit einem Lineal prüfen.',
  'photo.kit':
    'Misst eine Kette aus einem Bild, an einem selbst gedruckten Rahmen oder einem Stahllineal. Das Bild bleibt auf diesem Telefon.',
  'photo.on': 'Einschalten',
  'photo.off': 'Ausschalten',
  'photo.open': 'Einrichten',
  'photo.kept.loading': 'Die Dateien für unterwegs werden geholt …',
  'photo.kept.yes': 'Bereit für unterwegs',
  'photo.kept.no': 'Die Dateien sind noch nicht auf diesem Telefon, es braucht also Netz.',
  'photo.ready': 'Den gedruckten Rahmen oder ein Stahllineal auf die gestraffte Kette legen und ein Bild machen.',
  'photo.done': '{percent} über {pitches} Glieder',
  'photo.again': 'Neues Bild',
  'photo.take': 'Bild machen',
  'photo.choose': 'Eines wählen',
  'photo.first': 'Zuerst den Rahmen drucken und seine Prüflinie messen.',
  'photo.reference': 'Was auf der Kette liegt',
  'photo.reference.frame': 'Gedruckter Rahmen',
  'photo.reference.rule': 'Stahllineal',
  'photo.rule.text':
    'Ein Stahllineal mit einem Strich je Millimeter. Seine Striche liegen um seine Dicke über den Nieten, und das zählt.',
  'photo.thick.frame': 'Ausdruck mit Karton ist etwa so dick, mm',
  'photo.thick.rule': 'Etwa so dick ist es, mm',
  'photo.thick.first': 'Zuerst angeben, wie dick es ist.',
  'photo.rule.lay':
    'Das Lineal auf die Außenlaschen legen, die Striche neben den Nieten, keiner verdeckt. Ein anderes Stück Kette unter der fernen Kante hält es gerade.',
  'photo.rule.hold':
    'Das Telefon gerade darüber, 400 bis 600 mm entfernt, ohne Zoom, 12 Megapixel; mindestens 170 mm des Lineals im Bild.',
  'photo.print': 'Der gedruckte Rahmen',
  'photo.print.text':
    'Kein Drucker zu Hause ist maßstäblich. Ein Stahllineal an die Prüflinie legen, von Strich zu Strich, viermal, auf einen halben Millimeter.',
  'photo.print.open': 'Rahmen drucken',
  'photo.line': 'Prüflinie, mm',
  'photo.line.n': 'Prüflinie, Ablesung {n}, mm',
  'photo.line.none': 'Noch nichts abgelesen: ohne das gibt es kein Ergebnis.',
  'photo.line.ok': '{mm} mm, auf {u} mm genau (Standardunsicherheit)',
  'photo.line.unreadable': 'Eine dieser Angaben ist keine Länge.',
  'photo.line.far': 'Die Linie ist etwa 240 mm lang; so falsch druckt kein Drucker. Sind es mm?',
  'photo.line.wild':
    'Diese liegen mehr als 1 mm auseinander. Noch einmal ablesen, das Auge senkrecht über jedem Strich.',
  'photo.how': 'Das Bild',
  'photo.how.1':
    'Die Seite der Kette reinigen, sie auf einen Tisch legen und straff ziehen. So halten: eine lose Kette verbirgt Verschleiß.',
  'photo.how.2': 'Den Rahmen auf die Außenlaschen legen, überall Niete im Fenster, und flach andrücken.',
  'photo.how.3': 'Das Telefon gerade darüber, 400 bis 700 mm entfernt, ohne Zoom; der ganze Rahmen im Bild.',
  'photo.how.4': 'Gleichmäßiges Licht: kein Glanz auf Nieten, Karos oder Strichen, kein Schatten quer darüber.',
  'photo.busy': 'Wird gemessen …',
  'photo.crash': 'Das Bild ließ sich nicht messen. Noch einmal versuchen; vielleicht hilft ein anderes.',
  'photo.found': 'Was gefunden wurde',
  'photo.refused': 'Kein Ergebnis',
  'photo.picture': 'Die Kette in vier Stücken, {n} Niete mit Nummern, davon {clear} klar',
  'photo.where': 'Telefon {far} cm entfernt, {tilt}° geneigt',
  'photo.seen': 'Auf jedem der {n} Niete sitzt ein Ring, und keiner ist ausgelassen.',
  'photo.taut': 'Die Kette war straff gezogen.',
  'photo.flat.frame': 'Der Rahmen lag überall flach auf den Laschen: eine Lücke darunter verbirgt Verschleiß.',
  'photo.flat.rule':
    'Das Lineal lag flach auf den Laschen, die ferne Kante gestützt: eine Lücke darunter verbirgt Verschleiß.',
  'photo.confirm': 'Alle drei bestätigen',
  'photo.use': 'Ergebnis zeigen',
  'photo.other': 'Anderes Bild',
  'photo.frame': 'Der Rahmen zum Drucken',
  'photo.frame.1':
    'Mit 100 % drucken, „tatsächliche Größe“, nie „an Seite anpassen“. Das Blatt muss mindestens 279 mm lang sein.',
  'photo.frame.2': 'Auf steifen Karton kleben. Den Umriss ausschneiden und das Fenster an den gestrichelten Linien.',
  'photo.frame.3':
    'Die Prüflinie, dem Namen nach {mm} mm, mit einem Stahllineal messen. Ein neuer Druck wird neu gemessen.',
  'photo.frame.picture': 'Zwei Karoreihen neben einem langen Fenster und eine Prüflinie von {mm} mm',
  'photo.frame.print': 'Drucken',
  'photo.frame.back': 'Zurück',
};

/** By the engine's codes. */
export const engine = {
  photo_not_calibrated:
    'Der Ausdruck ist noch nicht gemessen. Ein Stahllineal an seine Prüflinie legen und eintragen, was es zeigt: ein Ausdruck von zu Hause kann sonst einige Prozent falsch sein.',
  photo_no_marks:
    'Die beiden Karoreihen des Rahmens sind nicht zu finden. Beide ganz zeigen, ohne Glanz, auf etwa der halben Bildbreite oder mehr.',
  photo_no_thickness:
    'Wie dick das Lineal oder der Ausdruck mit seinem Karton ist, wurde nicht angegeben: so weit liegen die Striche über den Laschen, und das zählt.',
  photo_no_rule:
    'Kein Lineal mit einem Strich je Millimeter ist zu finden. Mindestens 170 mm davon zeigen, ohne Glanz, groß und scharf: 12 Megapixel aus 400 bis 600 mm.',
  photo_rule_bent:
    'Die Striche des Lineals stehen nicht wie auf einem geraden Lineal. Es flach auf die Außenlaschen legen, längs der Kette, und so, dass nichts glänzt.',
  photo_rule_uncertain:
    'Das Ergebnis wäre unsicherer als 0,12 %, zu sehr, um etwas zu nützen. Das Telefon höher und gerade halten oder die Niete reinigen.',
  photo_tilted: 'Das Telefon war zu schräg. Gerade über die Kette halten, höchstens 14° geneigt.',
  photo_too_near: 'Das Telefon war zu nah. Mindestens 350 mm Abstand halten; am besten 400 bis 700 mm.',
  photo_not_flat: 'Der Rahmen liegt nicht flach. Auf steifen Karton kleben und auf die Außenlaschen drücken.',
  photo_blurred:
    'Das Bild ist nicht scharf genug für die Ränder der Niete. Telefon ruhig halten, zum Scharfstellen tippen, mehr Licht nehmen.',
  photo_coarse:
    'Das Bild zeigt zu wenige Bildpunkte je Millimeter. Die Kamera auf 12 Megapixel stellen oder näher herangehen, aber nicht unter 350 mm.',
  photo_not_a_chain:
    'Was im Fenster liegt, sieht nicht wie eine Kette aus: geschlossene Nietränder in gleichen Abständen, dazu auf beiden Seiten die runden Enden der Laschen. Die Kette reinigen und flach auf die Seite legen.',
  photo_few_pitches:
    'Weniger als 12 Glieder sind zu messen. Den Rahmen so auf ein gerades Stück Kette legen, dass im ganzen Fenster Niete zu sehen sind, und sie abwischen.',
  photo_count:
    'Die Niete gehen nicht auf: einer ist zu viel oder zu wenig für ihre Plätze. Im Bild nachsehen: ist einer verdeckt oder etwas anderes markiert?',
  photo_scattered:
    'Die gefundenen Niete stehen nicht in gleichmäßigen Gliederpaaren. Abwischen, das Licht so drehen, dass nichts glänzt, und ein neues Bild machen.',
  photo_not_straight: 'Die Kette ist nicht gerade. Straff ziehen und in die Mitte des Fensters legen.',
  photo_not_possible:
    'Die Längung aus diesem Bild kann keine Kette haben. Etwas wurde für einen Niet gehalten, das keiner ist.',
  photo_uncertain:
    'Das Ergebnis wäre unsicherer als 0,12 %, zu sehr, um etwas zu nützen. Die Prüflinie mit einem besseren Lineal messen, das Telefon höher und gerade halten oder die Niete reinigen.',
  photo_budget_localisation: 'wie gut die Nietränder zu gleichmäßigen Gliederpaaren passen',
  photo_budget_resolution: 'ein Zehntel Bildpunkt an beiden Enden',
  photo_budget_marks: 'wie gut die Striche oder Karos zu etwas Flachem passen',
  photo_budget_lens: 'was ein anderes Modell der Linse ändern würde',
  photo_budget_calibration: 'das Messen der Prüflinie',
  photo_budget_height:
    'die Striche liegen etwas über oder unter der Höhe, die ihre Dicke ergibt, und wie weit weg das Telefon war',
  photo_budget_rule: 'die Genauigkeit des Lineals selbst, bis 0,1 mm',
  photo_budget_tilt: 'ein Ende von Ausdruck oder Lineal kann höher liegen, was zählt, wenn das Telefon geneigt ist',
};
