/** What the photo engine says, in German. */
export const engine = {
  photo_not_calibrated:
    'Der Ausdruck ist noch nicht gemessen. Ein Stahllineal an seine Prüflinie legen und eintragen, was es zeigt: ein Ausdruck von zu Hause kann sonst einige Prozent falsch sein.',
  photo_no_marks:
    'Die beiden Karoreihen des Rahmens sind nicht zu finden. Beide ganz zeigen, ohne Glanz, auf etwa der halben Bildbreite oder mehr.',
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
  photo_budget_marks: 'wie gut die Karos zu einem flachen Rahmen passen',
  photo_budget_lens: 'was ein anderes Modell der Linse ändern würde',
  photo_budget_calibration: 'das Messen der Prüflinie',
  photo_budget_height: 'der Ausdruck liegt etwas über oder unter den Nieträndern',
  photo_budget_tilt: 'ein Ende des Ausdrucks kann höher liegen, was zählt, wenn das Telefon geneigt ist',
};
