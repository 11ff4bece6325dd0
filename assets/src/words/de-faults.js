/**
 * The errors of the engine and the server in German: the English with {} for
 * what differs, and the German with {0}, {1} and so on for the same. The first
 * that matches counts, so the longer of two alike stands first.
 */

/** @type {[string, string][]} */
export const faults = [
  ['{} is not possible here; allowed is {} to {} {}', '{0} geht hier nicht; erlaubt ist {1} bis {2} {3}'],
  ['{} is not possible here; allowed is {} to {}', '{0} geht hier nicht; erlaubt ist {1} bis {2}'],
  ['{} is not possible here', '{0} geht hier nicht'],
  ['{} is not a whole number; allowed is {} to {} {}', '{0} ist keine ganze Zahl; erlaubt ist {1} bis {2} {3}'],
  ['{} is not a whole number; allowed is {} to {}', '{0} ist keine ganze Zahl; erlaubt ist {1} bis {2}'],
  ['{} is not a whole number of teeth', '{0} ist keine ganze Zähnezahl'],
  ['{} is not a whole number', '{0} ist keine ganze Zahl'],
  ['this text has {} characters; allowed is {} to {}', 'dieser Text hat {0} Zeichen; erlaubt sind {1} bis {2}'],
  ['this list has {} entries; allowed is {} to {}', 'diese Liste hat {0} Einträge; erlaubt sind {1} bis {2}'],
  ['this field is required; allowed is {} to {}', 'dieses Feld wird gebraucht; erlaubt ist {0} bis {1}'],
  ['this field is required; allowed are {}', 'dieses Feld wird gebraucht; erlaubt sind {0}'],
  ['this field is required', 'dieses Feld wird gebraucht'],
  ['{} is not known here; allowed are {}', '{0} ist hier nicht bekannt; erlaubt sind {1}'],
  ['the file has {} bytes; allowed are at most {}', 'die Datei hat {0} Bytes; erlaubt sind höchstens {1}'],
  [
    'this is not a JPEG or PNG picture; choose a photograph in one of these two forms',
    'das ist kein Bild als JPEG oder PNG; ein Foto in einer dieser beiden Formen wählen',
  ],
  [
    'the picture is cut off or damaged; take or choose another one',
    'das Bild ist abgeschnitten oder beschädigt; ein anderes machen oder wählen',
  ],
  [
    'the picture has {}; allowed are at most 16 megapixels: set the camera to 12',
    'das Bild hat {0}; erlaubt sind höchstens 16 Megapixel: die Kamera auf 12 stellen',
  ],
  [
    'the picture has {}; the shorter side must have at least {}',
    'das Bild hat {0}; die kürzere Seite muss mindestens {1} haben',
  ],
  [
    'the picture is stored in a form that needs too much memory; choose one as the camera stores it',
    'das Bild ist so gespeichert, dass es zu viel Speicher braucht; eines wählen, wie es die Kamera speichert',
  ],
  [
    'the picture is stored in too many pieces; choose one as the camera stores it',
    'das Bild ist in zu vielen Stücken gespeichert; eines wählen, wie es die Kamera speichert',
  ],

  [
    'the first number is the lower end and must not be above the second',
    'die erste Zahl ist das untere Ende und darf nicht über der zweiten liegen',
  ],

  [
    'this is not a length; {}',
    'das ist keine Länge; so schreiben: 12 1/16 in, 12-1/16", 12,06 in, 306,4 mm oder 30,64 cm',
  ],
  ['this has no unit; {}', 'hier fehlt die Einheit; so schreiben: 12 1/16 in, 12,06 in oder 306,4 mm'],
  ['fractions go with inches only; {}', 'Brüche gehen nur mit Zoll; so schreiben: 12 1/16 in oder 306,4 mm'],
  ['the fraction must be less than one; {}', 'der Bruch muss kleiner als eins sein; so schreiben: 12 1/16 in'],
  ['this is {} mm; allowed is {} to {} mm', 'das sind {0} mm; erlaubt sind {1} bis {2} mm'],

  [
    'the step of {} % drops but the step of {} % does not: a chain that takes a larger step takes every smaller one; try both again',
    'die Stufe von {0} % fällt hinein, die von {1} % aber nicht: eine Kette, die eine größere Stufe aufnimmt, nimmt jede kleinere auf; beide noch einmal versuchen',
  ],
  [
    'a derailleur drive needs the number of rear sprockets, because the limit depends on it; allowed is 1 to 14',
    'eine Kettenschaltung braucht die Zahl der Ritzel hinten, denn die Grenze hängt davon ab; erlaubt ist 1 bis 14',
  ],
  ['the measured span is required: give span_mm, span_in or span_text', 'die gemessene Länge wird gebraucht'],
  [
    'a part is larger than the whole; allowed is at most standard_uncertainty_percent, {}',
    'ein Teil ist größer als das Ganze; erlaubt ist höchstens {0}',
  ],
  ['give the span once, as span_mm, span_in or span_text', 'die gemessene Länge nur einmal angeben'],
  ['give the resolution once, as resolution_mm or resolution_in', 'die Auflösung nur einmal angeben'],

  [
    'there is no {} that this uncertainty belongs to; give both or neither',
    'zu dieser Unsicherheit fehlt der Messwert {0}; beide oder keines angeben',
  ],
  ['give the pitch once: pitch_mm, or span_mm with pitches', 'die Teilung nur einmal angeben'],
  [
    'pitches says how many pitches span_mm covers, so span_mm is required with it',
    'zur Zahl der Glieder gehört die Länge, die sie ergeben',
  ],
  [
    'span_mm covers several pitches; say how many; allowed is 1 to 400',
    'sagen, wie viele Glieder diese Länge sind; erlaubt ist 1 bis 400',
  ],
  [
    'this span over these pitches means a pitch of {} mm; allowed is 8 to 26 mm, so count the pitches again, pin to pin',
    'diese Länge über so viele Glieder ergibt eine Teilung von {0} mm; erlaubt sind 8 bis 26 mm, also die Glieder noch einmal zählen, Bolzen zu Bolzen',
  ],
  [
    'there is nothing to go by; give a width, a pitch, a roller diameter, the drive or the number of rear sprockets',
    'es ist noch nichts bekannt; eine Breite, eine Teilung, einen Rollendurchmesser, den Antrieb oder die Zahl der Ritzel hinten angeben',
  ],
  [
    'the inner width is not smaller than the outer width; the inner width is the gap between the inner plates, the outer width goes over the pin ends',
    'die Innenbreite ist nicht kleiner als die Außenbreite; die Innenbreite ist der Spalt zwischen den Innenlaschen, die Außenbreite geht über die Bolzenenden',
  ],
  [
    'the roller is not smaller than the pitch, so one of the two was misread',
    'die Rolle ist nicht kleiner als die Teilung; eines von beiden ist falsch abgelesen',
  ],
  [
    'a single or hub drive has one rear sprocket; give 1, leave it out, or choose derailleur',
    'ein Antrieb mit einem Ritzel oder Nabenschaltung hat ein Ritzel hinten; 1 angeben, weglassen oder Kettenschaltung wählen',
  ],

  [
    'this would compare {} pairs; allowed are at most {}: narrow chainrings or sprockets',
    'das wären {0} Paare; erlaubt sind höchstens {1}: Kettenblätter oder Ritzel eingrenzen',
  ],
  [
    'the longest distance, {} mm, is below chainstay_mm, {} mm; allowed is that or more',
    'der größte Abstand, {0} mm, liegt unter dem Abstand im Stand, {1} mm; erlaubt ist dieser oder mehr',
  ],
  [
    'the longest distance is below chainstay_mm; allowed is that or more',
    'der größte Abstand liegt unter dem Abstand im Stand; erlaubt ist dieser oder mehr',
  ],
  [
    '{} teeth stand in this list twice; give each tooth count once',
    '{0} Zähne stehen zweimal in dieser Liste; jede Zähnezahl einmal angeben',
  ],
  [
    'at {} mm wheels with these teeth would touch; allowed is {} mm or more for them',
    'bei {0} mm würden sich Räder mit diesen Zähnen berühren; erlaubt sind für sie {1} mm oder mehr',
  ],

  [
    'this is not a tyre size as ISO 5775 writes it; write width-bead in mm, like 37-622',
    'das ist keine Reifengröße nach ISO 5775; Breite-Felge in mm schreiben, etwa 37-622',
  ],
  [
    'width {} and bead {} mm is no tyre; allowed is a width of 10 to 150, first, and a bead seat of 80 to 700, like 37-622',
    'Breite {0} und Felge {1} mm sind kein Reifen; erlaubt ist zuerst eine Breite von 10 bis 150, dann ein Felgenmaß von 80 bis 700, etwa 37-622',
  ],
  [
    'give the wheel once, as wheel_circumference_mm or etrto',
    'das Rad nur einmal angeben, als Umfang oder als Reifengröße',
  ],
  [
    'the wheel is required: give wheel_circumference_mm, 500 to 4000 mm, or etrto, like 37-622',
    'das Rad wird gebraucht: den Umfang, 500 bis 4000 mm, oder die Reifengröße, etwa 37-622',
  ],
  [
    "the chain's tension at a power depends on the cadence; give cadence_rpm, 1 to 300, or leave power_w out",
    'der Kettenzug bei einer Leistung hängt von der Trittfrequenz ab; sie angeben, 1 bis 300, oder die Leistung weglassen',
  ],
  [
    'rear_chainline_mm says nothing without chainline_mm; give both, 0 to 150 mm',
    'die hintere Kettenlinie sagt ohne die vordere nichts; beide angeben, 0 bis 150 mm',
  ],

  ['a distance must be a number of km from 0 up', 'eine Strecke ist eine Zahl von km ab 0'],
  [
    'this lies before the reading at {} km; give the distance the chain has done by now, at least that',
    'das liegt vor der Messung bei {0} km; die Strecke angeben, die die Kette bis jetzt gelaufen ist, mindestens diese',
  ],
  [
    'a limit is needed: give limit_percent (0.1 to 3), or drive with rear_sprockets for the usual one',
    'eine Grenze wird gebraucht: 0,1 bis 3 %, oder der Antrieb mit der Zahl der Ritzel für die übliche',
  ],
  [
    'a currency is the three capital letters of ISO 4217, such as EUR',
    'eine Währung sind die drei Großbuchstaben nach ISO 4217, etwa EUR',
  ],
  [
    'a currency is three capital letters (ISO 4217), such as EUR',
    'eine Währung sind drei Großbuchstaben (ISO 4217), etwa EUR',
  ],
  ['give the wear rate once: rate_percent_per_1000_km or forecast', 'den Verschleiß nur einmal angeben'],
  ['a forecast brings its own range; leave this out', 'eine Vorhersage bringt ihre eigene Spanne mit; das weglassen'],
  [
    'the wear rate is required, as a number from 0.005 to 5 percent per 1000 km or as a forecast',
    'der Verschleiß wird gebraucht, als Zahl von 0,005 bis 5 Prozent je 1000 km oder als Vorhersage',
  ],
  ['the range must hold the rate itself', 'die Spanne muss den Wert selbst enthalten'],
  [
    'the second row must be at a higher elongation than the first',
    'die zweite Zeile muss bei größerer Längung stehen als die erste',
  ],
  [
    'with {} chains at {} % the count at {} % must lie between {} and {}: sprockets suffer at least in proportion to elongation and at most to its cube',
    'bei {0} Ketten mit {1} % muss die Zahl bei {2} % zwischen {3} und {4} liegen: Ritzel leiden mindestens im Verhältnis zur Längung und höchstens mit ihrer dritten Potenz',
  ],

  [
    'no track point in the file has a usable position; allowed are lat -90 to 90 and lon -180 to below 180, as plain decimal numbers',
    'kein Punkt der Datei hat eine brauchbare Position; erlaubt sind lat -90 bis 90 und lon -180 bis unter 180 als einfache Dezimalzahlen',
  ],
  [
    'the file holds a planned route and no recorded ride; a ride is a track (trk) with points',
    'die Datei enthält eine geplante Strecke und keine aufgezeichnete Fahrt; eine Fahrt ist eine Aufzeichnung (trk) mit Punkten',
  ],
  [
    'the file holds no recorded ride; a ride is a track (trk) with points',
    'die Datei enthält keine aufgezeichnete Fahrt; eine Fahrt ist eine Aufzeichnung (trk) mit Punkten',
  ],
  [
    'line {}: this is no GPX 1.1 file; allowed is a file whose outermost element is gpx in the namespace {}',
    'Zeile {0}: das ist keine GPX-1.1-Datei; ihr äußerstes Element muss gpx im Namensraum {1} sein',
  ],
  [
    'line {}: the gpx element does not say version="1.1"; allowed is GPX 1.1',
    'Zeile {0}: dem Element gpx fehlt version="1.1"; erlaubt ist GPX 1.1',
  ],
  [
    'line {}: it has a document type (<!DOCTYPE) or another declaration; a file may have none',
    'Zeile {0}: die Datei hat einen Dokumenttyp (<!DOCTYPE) oder eine andere Deklaration; erlaubt ist keine',
  ],
  [
    'line {}: the file ends inside {}; it was cut off, get it again in full',
    'Zeile {0}: die Datei ist abgeschnitten; sie noch einmal ganz holen',
  ],
  ['line {}: {}', 'Zeile {0}: die Datei ist beschädigt oder keine GPX-Datei ({1})'],
  [
    'the file could not be read to its end; open it again',
    'die Datei ließ sich nicht bis zum Ende lesen; noch einmal öffnen',
  ],
  ['the file stopped giving data; open it again', 'die Datei gab keine Daten mehr; noch einmal öffnen'],

  [
    "the device's clock is more than 24 hours ahead of the server's; set it right and send again",
    'die Uhr dieses Telefons geht mehr als 24 Stunden vor; sie richtig stellen und noch einmal senden',
  ],
  ['a {} may not write to {}; that takes a {}', 'die Rolle {0} darf in {1} nichts eintragen; das braucht {2}'],
  [
    'a {} may change only what the same device added',
    'die Rolle {0} darf nur ändern, was dasselbe Telefon eingetragen hat',
  ],
  [
    'the server was set back to an earlier state; send this again after what it has was taken in',
    'der Server steht auf einem früheren Stand; das wird noch einmal gesendet',
  ],
  ['a {} may not do this; that takes the role {}', 'die Rolle {0} darf das nicht; das braucht {1}'],
  [
    'a {} may shut out only their own device; others take an owner',
    'die Rolle {0} darf nur das eigene Telefon abmelden; andere meldet nur der Besitz ab',
  ],
  [
    'a reading is never changed after the fact; void it with void_reason and take another',
    'eine Messung wird nachträglich nie geändert; sie mit Grund für ungültig erklären und neu messen',
  ],
  [
    'readings are never removed, only voided with void_reason',
    'Messungen werden nie gelöscht, nur mit Grund für ungültig erklärt',
  ],
  ['there is no such record to remove', 'diesen Eintrag gibt es nicht'],
  [
    'this is no garage that was given out here, or by a newer version; the format must be {}',
    'das ist keine hier ausgegebene Garage, oder eine einer neueren Version; das Format muss {0} sein',
  ],
  ['the records are missing, or are no JSON object', 'die Einträge fehlen oder sind kein JSON-Objekt'],
  [
    'this is not JSON (RFC 8259): numbers are plain decimals, and NaN and Infinity are not numbers',
    'das ist kein JSON (RFC 8259)',
  ],
  ['the JSON text is empty or ends too early; send one whole JSON object', 'die Datei ist leer oder abgeschnitten'],
  [
    'this token is not valid: never given, or revoked; join again with an invitation',
    'dieses Telefon ist abgemeldet; mit einer Einladung wieder beitreten',
  ],
  ['there is no such garage, or it is not yours to see', 'diese Garage gibt es nicht, oder sie ist nicht für dich'],
  [
    "this is the garage's last owner: make another device an owner first, or delete the garage",
    'dieses Telefon hat als letztes die Rolle Besitz: erst einem anderen diese Rolle geben, oder die Garage löschen',
  ],
  [
    "this is the garage's last owner: make another device an owner first",
    'dieses Telefon hat als letztes die Rolle Besitz: erst einem anderen diese Rolle geben',
  ],
  [
    'what this device may do was changed just now; try again',
    'die Rolle dieses Telefons hat sich eben geändert; noch einmal versuchen',
  ],
  ['there is no such device in this garage', 'dieses Telefon gibt es in dieser Garage nicht'],
  [
    'this invitation is not valid: mistyped, used up, expired or taken back; ask for a new one',
    'diese Einladung gilt nicht: vertippt, verbraucht, abgelaufen oder zurückgenommen; um eine neue bitten',
  ],
  [
    'there are {} open invitations, as many as are allowed; wait until some expire',
    'es sind {0} Einladungen offen, so viele wie erlaubt; warten, bis welche ablaufen',
  ],
  [
    'this garage has {} devices, as many as are allowed; revoke one first',
    'diese Garage hat {0} Telefone, so viele wie erlaubt; erst eines abmelden',
  ],
  [
    'this server takes no new garages; ask for an invitation to one that is here',
    'dieser Server nimmt keine neuen Garagen; um eine Einladung in eine vorhandene bitten',
  ],
  ['this garage is full: at most {}', 'diese Garage ist voll: höchstens {0}'],
  [
    'too many of these from one address; try again in {} seconds',
    'zu viele Versuche von einer Adresse; in {0} Sekunden noch einmal',
  ],
  [
    "the server's disk is full; nothing was kept, and nothing is lost on the phone: it tries again",
    'der Speicher des Servers ist voll; auf dem Telefon ist nichts verloren, es versucht es wieder',
  ],
  [
    'the server cannot write just now; nothing was kept, and nothing is lost on the phone: it tries again',
    'der Server kann gerade nicht schreiben; auf dem Telefon ist nichts verloren, es versucht es wieder',
  ],
  ['the server is stopping; try again', 'der Server wird gerade beendet; noch einmal versuchen'],
];

/** What is said when none of those matches, by the error's code; the English follows in brackets. @type {Record<string, string>} */
export const codes = {
  invalid_json: 'Das ließ sich nicht lesen',
  unknown_field: 'Dieses Feld ist hier nicht bekannt',
  missing_field: 'Hier fehlt etwas',
  wrong_type: 'Hier steht das Falsche',
  out_of_range: 'Dieser Wert geht hier nicht',
  not_allowed: 'Das ist hier nicht erlaubt',
  unreadable: 'Das ließ sich nicht lesen',
  contradiction: 'Das passt nicht zusammen',
  too_large: 'Das ist zu groß',
  unknown_name: 'Das gibt es hier nicht',
  denied: 'Das darf dieses Telefon nicht',
  not_found: 'Das gibt es nicht',
  clock_ahead: 'Die Uhr dieses Telefons geht vor',
  too_many: 'Das ist zu viel',
  storage_full: 'Der Speicher ist voll',
  unavailable: 'Das geht gerade nicht',
  internal: 'Hier ist etwas schief gegangen; der Fehler liegt bei uns',
};

/** Units and roles as the errors name them. @type {Record<string, string>} */
export const terms = {
  percent: 'Prozent',
  'percent per 1000 km': 'Prozent je 1000 km',
  pitches: 'Glieder',
  teeth: 'Zähne',
  pairs: 'Gliederpaare',
  days: 'Tage',
  degrees: 'Grad',
  'minor units': 'kleinste Währungseinheiten',
  'per minute': 'je Minute',
  owner: 'Besitz',
  leader: 'Leitung',
  checker: 'Prüfung',
  viewer: 'Einsicht',
};
