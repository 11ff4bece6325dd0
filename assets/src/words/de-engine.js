/**
 * What the engine says, in German, by its codes (internal/words has the
 * English). `{name:2}` is a value shown with two decimals, as the engine does.
 */
import more from './de-engine-more.js';

export default {
  ...more,
  elongation_is: 'Die Längung ist {elongation:2} %, auf {half:2} % genau (95-mal von 100).',
  limit_is: 'Die Grenze für diesen Antrieb ist {limit:2} %.',
  probability_is: 'Die Wahrscheinlichkeit, dass die Kette über der Grenze ist, beträgt {percent:0} %.',
  probability_small: 'Die Wahrscheinlichkeit, dass die Kette über der Grenze ist, liegt unter 1 %.',
  probability_large: 'Die Wahrscheinlichkeit, dass die Kette über der Grenze ist, liegt über 99 %.',
  not_a_chain: 'Keine heile Kette misst so: die Glieder sind verzählt oder eine Zahl ist vertippt.',
  not_a_chain_gauge:
    'Keine Kette, die noch fahrbar ist, nimmt eine so große Stufe auf, es sei denn, die Lehre saß nicht, wie ihr Hersteller es zeigt.',
  reads_short:
    'Sie misst kürzer als jede neue Kette. Eine Kette, die durchhängt, misst zu kurz, und das verbirgt Verschleiß.',
  compare_hides:
    'Die neue Kette kann selbst bis zu {most:2} % länger sein; um so viel ist die alte dann stärker verschlissen, als es scheint.',
  count_again:
    'Gezählt wurden {counted:0} Glieder; diese Länge passt zu {fits:0}. Noch einmal zählen, Bolzen zu Bolzen.',
  play_subtracted:
    '{play:3} % wurden abgezogen, weil die Rollen auseinander gedrückt wurden und ihr Spiel als Verschleiß mitgemessen wird.',
  bias_subtracted: '{bias:3} % wurden abgezogen, weil dieses Messmittel bekanntlich um so viel zu viel zeigt.',
  bias_added: '{bias:3} % wurden hinzugezählt, weil dieses Messmittel bekanntlich um so viel zu wenig zeigt.',
  gauge_open_high:
    'Die größte versuchte Stufe, {lo:2} %, fiel hinein. Eine größere wurde nicht versucht, die Kette kann also schlechter sein, als es scheint.',
  gauge_open_low: 'Die kleinste versuchte Stufe, {hi:2} %, fiel nicht hinein; die Kette liegt irgendwo darunter.',
  new_may_be_long:
    'Eine neue Kette darf bis zu {most:2} % länger messen; so viel ist noch kein Zeichen von Verschleiß.',
  measure_finer:
    'Diese Messung ist grob. Vor der Entscheidung mit einem feineren Messmittel oder über mehr Glieder messen.',

  budget_resolution: 'auf {resolution:3} mm abgelesen, an beiden Enden',
  budget_alignment: 'Anpeilen jedes Bolzens und gerades Anlegen, auf {half:1} mm je Ende',
  budget_rule: 'die Genauigkeit des Lineals selbst, auf {half:1} mm',
  budget_hang: 'erste Bolzen auf einer Höhe, wenn die Ketten nebeneinander hängen, auf {half:2} mm',
  budget_new_chain: 'die neue Kette kann selbst bis zu {most:2} % länger sein',
  budget_tension: 'von Hand gerade gezogen, nicht mit bekannter Kraft, auf {half:2} %',
  budget_roller: 'Rollendurchmesser an den beiden Stellen, auf {half:2} mm',
  budget_play: 'Spiel der beiden Rollen, zusammen {play:3} mm',
  budget_calibration: 'Kalibrierung des Bildschirms, {percent:2} %',
  budget_screen: 'Anpeilen beider Bolzen über dem Glas, {mm:3} mm',
  budget_photo: 'das Foto: Ausdruck, Linse, Höhe und wie klar die Nietränder sind',
  budget_picture: 'das Foto: Linse, Höhe und wie klar die Nietränder sind',
  budget_print: 'wie gut Ausdruck oder Lineal bekannt sind, in jedem Foto gleich',
  budget_steps: 'alles zwischen {lo:2} % und {hi:2} % ist möglich',
  budget_gauge: 'wann eine Stufe hineinfällt: ihre Fertigung, ihr eigener Verschleiß und der Druck der Hand',
  budget_gauge_play: 'die Lehre drückt Rollen auseinander; deren Spiel ist von Kette zu Kette verschieden',
  budget_stated: 'mit der Messung angegeben, {u:3} mm',

  next_three_places:
    'An drei Stellen rings um die Kette messen, nicht über dem Verschlussglied, und den größten Wert nehmen.',
  next_check_again:
    'Weiterfahren. In einigen hundert Kilometern wieder prüfen, nach nassen oder sandigen Fahrten früher.',
  next_larger_step:
    'Zuerst eine größere Stufe versuchen: bis eine draußen bleibt, weiß niemand, wie weit die Kette verschlissen ist.',
  next_pull_straight: 'Die Kette gerade ziehen und noch einmal messen, bevor du dich darauf verlässt.',
  next_gauge_again: 'Die Lehre an drei Stellen noch einmal ansetzen, wie ihr Hersteller es zeigt.',
  next_if_again: 'Misst sie wieder so, nicht mehr mit dieser Kette fahren: wechseln und die Ritzel ansehen.',
  next_get_chain:
    'Jetzt die nächste Kette besorgen und bald wechseln: die Ritzel verschleißen schneller, sobald eine Kette über der Grenze ist.',
  next_check_soon: 'Bis dahin vor jeder längeren Fahrt prüfen.',
  next_change: 'Die Kette vor der nächsten Fahrt wechseln; unterwegs sachte heimfahren und nicht kräftig treten.',
  next_stop:
    'Mit dieser Kette nicht weiterfahren: so lang kann sie bei jedem Tritt abspringen oder reißen. Schieben oder abholen lassen und die Kette wechseln.',
  next_skip_test:
    'Mit der neuen Kette in jedem Gang fest aufs Pedal drücken, erst im Montageständer, dann auf ruhiger Straße. Springt sie, geht das Ritzel mit.',
  next_inspect:
    'Ritzel und Kettenblätter auf hakenförmige oder dünn gelaufene Zähne ansehen, die meistgefahrenen zuerst.',
  next_measure_again: 'Neu messen: Kette gerade ziehen, Glieder zählen, beide Enden gleich ablesen.',
  next_do_not_rely: 'Bis dahin gilt die Kette als ungeprüft.',

  caution_damage:
    'Was immer sie misst: eine Kette mit angerissenen Laschen, steifen, verbogenen oder verdrehten Gliedern oder tiefem Rost ersetzen.',
  caution_stricter:
    'Mit E-Antrieb, Kindersitz oder schwerer Last höchstens 0,5 % als Grenze nehmen und doppelt so oft prüfen.',
  caution_part: 'Eine verschlissene Kette kann unter Last springen oder reißen und dich stürzen lassen.',
  caution_skip: 'Eine neue Kette auf verschlissenen Ritzeln kann unter Last springen und dich stürzen lassen.',
  caution_closure:
    'Die neue Kette mit einem Verschlussglied oder Nietstift für genau diese Kette schließen; schmale Verschlussglieder und Nietstifte werden nur einmal benutzt, und ein alter Bolzen wird nie wieder eingepresst.',
  caution_fingers: 'Finger weg von der laufenden Kette, vor allem bei starrem Antrieb.',
  caution_guidance:
    'Dies ist ein Rat, keine Prüfung: Anleitungen der Hersteller und örtliche Regeln gehen vor. Im Zweifel eine Fachwerkstatt fragen.',

  class_derailleur_5_6: 'Schaltungskette für 5 oder 6 Ritzel',
  class_derailleur_7_8: 'Schaltungskette für 7 oder 8 Ritzel',
  class_derailleur_9: 'Schaltungskette für 9 Ritzel',
  class_derailleur_10: 'Schaltungskette für 10 Ritzel',
  class_derailleur_11: 'Schaltungskette für 11 Ritzel',
  class_derailleur_12: 'Schaltungskette für 12 Ritzel',
  class_derailleur_13: 'Schaltungskette für 13 Ritzel',
  class_single_3_32: 'Kette für ein Ritzel, 1/2 × 3/32 in',
  class_single_1_8: 'Kette für ein Ritzel, 1/2 × 1/8 in',
  class_cargo_5_32: 'Breite Kette für ein Ritzel, 1/2 × 5/32 in',
  class_cargo_3_16: 'Breite Kette für ein Ritzel, 1/2 × 3/16 in',
  class_pitch_10_mm: 'Kette mit 10 mm Teilung',
  class_pitch_5_8_in: 'Kette mit 5/8 in Teilung',
  class_pitch_1_in: 'Kette mit 1 in Teilung',

  closure_spring_clip_joining_link:
    'Kettenschloss mit Feder: lässt sich wieder öffnen. Das geschlossene Ende der Feder zeigt in Laufrichtung.',
  closure_reusable_joining_link:
    'Wiederverwendbares Verschlussglied: nur wo sein Hersteller sagt, dass es wieder geöffnet werden darf; beide Seiten müssen eingerastet sein.',
  closure_one_use_joining_link: 'Einmal-Verschlussglied: jedes Mal, wenn die Kette geöffnet wird, ein neues einsetzen.',
  closure_one_use_pin:
    'Nietstift: einen neuen für genau diese Kette einmal einpressen, auf beiden Seiten bündig, und seine Führung abbrechen.',
  closure_half_link: 'Gekröpftes Glied: nur für eine ungerade Gliederzahl, und schwächer als ein gerades Glied.',
  closure_never:
    'Nie einen alten Bolzen wieder einpressen, nie ein Einmal-Glied oder einen Nietstift wieder benutzen, nie mit einem Teil für eine andere Breite verbinden.',

  identify_outer_inside: 'Die Außenbreite von {read:2} mm liegt in {lo:2} bis {hi:2} mm.',
  identify_outer_edge: 'Die Außenbreite von {read:2} mm liegt knapp außerhalb von {lo:2} bis {hi:2} mm.',
  identify_outer_outside: 'Die Außenbreite von {read:2} mm passt nicht zu {lo:2} bis {hi:2} mm.',
  identify_outer_unknown:
    'Die Außenbreiten dieser Familie sind von Hersteller zu Hersteller verschieden; die Breite sagt nichts.',
  identify_inner_inside: 'Die Innenbreite von {read:2} mm liegt in {lo:2} bis {hi:2} mm.',
  identify_inner_edge: 'Die Innenbreite von {read:2} mm liegt knapp außerhalb von {lo:2} bis {hi:2} mm.',
  identify_inner_outside: 'Die Innenbreite von {read:2} mm passt nicht zu {lo:2} bis {hi:2} mm.',
  identify_inner_unknown:
    'Die Innenbreiten dieser Familie sind von Hersteller zu Hersteller verschieden; die Breite sagt nichts.',
  identify_pitch_inside: 'Die Teilung von {read:2} mm passt zu {nominal:2} mm.',
  identify_pitch_long:
    'Die Teilung von {read:2} mm ist {percent:1} % länger als {nominal:2} mm, wie bei einer verschlissenen Kette.',
  identify_pitch_outside: 'Die Teilung von {read:2} mm passt nicht zu {nominal:2} mm.',
  identify_roller: 'Die Rolle sagt nur, ob Halbzoll oder nicht: alle Halbzollketten haben sie.',

  identify_fits_yes: 'Sie passt zu diesem Rad.',
  identify_fits_no: 'Sie passt nicht zu den Ritzeln dieses Rades.',
  identify_fits_other_pitch: 'Sie passt nicht auf Halbzoll-Ritzel.',
  identify_fits_no_bike: 'Ob sie zum Rad passt, zeigt sich, sobald Antrieb und Zahl der Ritzel bekannt sind.',
  identify_fits_no_count: 'Ob sie zum Rad passt, hängt von der Zahl der Ritzel hinten ab.',
  identify_fits_teeth:
    'Ob sie zum Rad passt, hängt von der Breite der Zähne ab: die Innenlaschen müssen ohne Kraft über Ritzel und Kettenblatt gehen.',
  identify_fits_beyond_table:
    'Die Tabelle endet bei 13 Ritzeln; den Hersteller des Antriebs fragen, welche Kette er verlangt.',

  identify_next_outer: 'Die Außenbreite über die Bolzenenden messen, nicht am Verschlussglied: sie sagt am meisten.',
  identify_next_inner: 'Auch den Spalt zwischen den Innenlaschen messen.',
  identify_next_marks:
    'Die Außenbreite an drei Bolzen messen und nachsehen, ob Breite oder Zahl der Ritzel in die Laschen geprägt ist.',
  identify_next_again:
    'Neu messen: Außenbreite über glatte Bolzenenden, Innenbreite zwischen den Innenlaschen, Teilung von einem Bolzen zum allernächsten.',
  identify_next_count:
    'Diese Teilung ist zweimal ein halber Zoll. Wenn die Kette keine langen, offenen Glieder hat, wurde von einem Bolzen zum übernächsten gemessen: halbieren.',
  identify_next_wear:
    'Die Teilung misst lang: den Verschleiß prüfen, bevor diese Kette benutzt oder eine gleiche gekauft wird.',
  identify_caution_roller: 'Ein Rollendurchmesser sagt nie, welche Kette es ist.',
  identify_caution_none:
    'Keine Familie erklärt diese Messwerte. Diese Kette nicht auf Verdacht nach der nächstliegenden auflegen oder verbinden.',
  identify_caution_unsure:
    'Mehr als eine Familie ist möglich. Allein daraufhin keine Kette kaufen, verbinden oder auflegen.',
  identify_caution_match:
    'Eine Kette, die für ihre Ritzel zu breit oder zu schmal ist, schaltet schlecht und kann klemmen, abspringen oder unter Last reißen.',
};
