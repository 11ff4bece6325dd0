/** The rest of de-engine.js: length and centre, gears, forecast, cost, care, rides. */
export default {
  methods_differ:
    'Die Verfahren sind verschieden: {exact:0} Glieder nach genauer Geometrie mit Reserve, {rule:0} nach der Faustformel. Empfohlen wird die längere, denn gefährlich ist die zu kurze Kette.',
  reserve_raised: 'Auf {pitches:0} Glieder erhöht, damit das größte Paar nicht straff gezogen wird.',
  added_rounded:
    '{added:0} dazu ergäbe eine ungerade Zahl, die ohne gekröpftes Glied nicht schließt; es wurde aufgerundet.',
  one_ring_wide:
    'Antriebe mit einem Kettenblatt und so großem Ritzel brauchen oft ein oder zwei Gliederpaare mehr. Gibt es eine Vorschrift des Schaltwerkherstellers, gilt sie.',
  stock_short:
    'Die Kette von {stock:0} Gliedern ist um {missing:0} zu kurz. Eine längere nehmen; mit ihr nicht ins größte Paar schalten.',
  capacity_unknown:
    'Die Kapazität des Käfigs ist nicht bekannt, deshalb wird Lose nach dem beurteilt, was die längsten Käfige aufnehmen, etwa {most:0} Zähne. Dieser Antrieb braucht {needed:0} Zähne; mit der Angabe zum Schaltwerk vergleichen.',
  capacity_short:
    'Dieser Antrieb braucht {needed:0} Zähne Kapazität, das Schaltwerk nimmt aber nur {capacity:0} auf. In den kleinen Kombinationen hängt die Kette durch.',
  sprocket_too_large: 'Das größte Ritzel hat {largest:0} Zähne; der Hersteller des Schaltwerks erlaubt {most:0}.',
  tight_combinations:
    'Zu straffe Kombinationen mit {pitches:0} Gliedern: {count:0}. Hineinschalten kann das Schaltwerk abreißen und das Rad blockieren. {needed:0} Glieder auflegen und bis dahin nie hineinschalten.',
  slack_combinations:
    'Kombinationen, in denen der Käfig eine Kette von {pitches:0} Gliedern nicht aufnehmen kann: {count:0}. Nicht darin fahren: eine lose Kette kann abspringen.',
  next_length_wrap:
    'Vor dem Kürzen die Kette am Schaltwerk vorbei ums größte Kettenblatt und größte Ritzel legen, Federung wo am längsten, und die Reserve zählen: nichts abnehmen, was sich nicht zurückbringen lässt.',
  next_length_large:
    'Bei geschlossener Kette im Montageständer die Kurbel von Hand drehen und ins größte Paar schalten: der Käfig muss noch gebeugt sein, nicht gerade gezogen.',
  next_length_small: 'Dann das kleinste Paar: die Kette darf weder durchhängen noch sich berühren.',
  next_length_road: 'Im Montageständer in jedem Gang fest drücken, dann zuerst sachte auf ruhiger Straße fahren.',
  caution_too_short:
    'Eine zu kurze Kette kann das Schaltwerk abreißen, das Rad blockieren und dich stürzen lassen. Im Zweifel ein Gliederpaar länger lassen.',
  caution_suspension:
    'Bei Hinterradfederung auch den größten Abstand angeben: eine im Stand gekürzte Kette kann zu kurz sein, sobald das Rad einfedert.',
  caution_half_link:
    'Ein gekröpftes Glied ist schwächer als ein gerades, etwa zwei Drittel so fest, und nur für Ketten mit einem Ritzel gemacht. Nur verwenden, wo der Kettenhersteller es anbietet.',
  no_count_fits:
    'Keine Gliederzahl ergibt das gewünschte Spiel innerhalb des Verstellwegs. Anderes Kettenblatt oder Ritzel versuchen, oder einen Kettenspanner.',
  half_link_would_fit: 'Mit gekröpftem Glied würden {pitches:0} Glieder passen.',
  reserve_short:
    'Der Verstellweg ist bei {at:2} % Längung aufgebraucht, bevor die Kette ihre Grenze von {limit:1} % erreicht.',
  past_single_limit:
    'Mit {elongation:2} % ist die Kette an oder über der Grenze von {limit:1} % für einen Antrieb mit einem Ritzel. Wechseln statt nachspannen.',
  new_chain_play:
    'Eine neue Kette darf bis zu {most:2} % länger als nominell sein. Wo die Achse jetzt steht, kann allein das {play:0} mm Spiel geben: die vorhandene Kette messen, bevor auf ein Paar oder eine Gliederzahl gebaut wird, die nur knapp passt.',
  play_cannot_be_set:
    'Die Achse lässt sich nicht verschieben; das Spiel ist, was die Gliederzahl ergibt, und wächst mit dem Verschleiß.',
  next_centre_tightest:
    'Kurbel langsam drehen und die straffste Stelle finden: Kettenblätter laufen nie ganz rund. Dort das Spiel einstellen.',
  next_centre_line_up:
    'Das Rad ausrichten, Achsmuttern oder Exzenter mit dem Drehmoment des Herstellers anziehen, den Bremsarm befestigen und das Spiel noch einmal messen.',
  next_centre_guard: 'Den Kettenschutz wieder anbauen.',
  caution_play:
    'Bei zu viel Spiel kann die Kette abspringen und das Rad blockieren; zu wenig verschleißt Lager und kann die Kette zerreißen.',
  caution_fixed:
    'Bei starrem Antrieb blockiert eine abspringende Kette das Rad: am unteren Ende des Spiels bleiben und oft prüfen.',

  circumference_computed:
    'Der Umfang von {circumference:0} mm ist aus der Reifengröße gerechnet. Unter dem Fahrer abgerollt ist er ein bis zwei Prozent kleiner.',
  chainlines_equal:
    'Keine hintere Kettenlinie angegeben: die Mitte der Ritzel wird in einer Linie mit der Mitte der Kettenblätter angenommen.',
  laboratory_range:
    'In einem Labor kamen an sauberen Ketten {worst:0} bis {best:1} % der Leistung durch, bei Kettenzügen von {low:0} und {high:0} N; größere Räder waren besser. Das ist der Bereich eines Prüfstands, keine Zahl für dieses Fahrrad, und dazwischen und darüber hinaus wird nichts herausgelesen.',
  tension_average:
    'Der Kettenzug ist ein Mittel über eine Kurbelumdrehung. Kräftiges Treten erreicht in der Spitze etwa das Doppelte.',
  tension_not_measured:
    'In manchen Gängen liegt der Zug außerhalb dessen, was das Labor gemessen hat; über ihren Wirkungsgrad wird nichts gesagt.',
  gears_out_of_reach: 'Gänge, die eine Kette von {pitches:0} Gliedern nicht erreicht: {count:0}. Nicht hineinschalten.',
  caution_width:
    'Kette, Ritzel und Kettenblätter müssen für dieselbe Zahl von Ritzeln gemacht sein; was nach den Zähnen passt, passt deshalb noch nicht zusammen.',

  forecast_prior_only:
    'Von dieser Kette gibt es noch keine Messung. So verschleißen Ketten mit dieser Pflege gewöhnlich, und so verschieden sind sie; eine Messung grenzt es stark ein.',
  forecast_care_assumed: 'Keine Pflege angegeben; es wird übliche angenommen.',
  forecast_earlier: '{count:0} frühere Ketten dieses Rades sind eingerechnet.',
  forecast_earlier_one: 'Eine frühere Kette dieses Rades ist eingerechnet.',
  forecast_set_aside:
    '{count:0} Messungen passen nicht zu den anderen und zählen hier fast nichts. Sie ansehen: berichtigen oder neu messen.',
  forecast_set_aside_one:
    'Eine Messung passt nicht zu den anderen und zählt hier fast nichts. Sie ansehen: berichtigen oder neu messen.',
  forecast_merged: 'Es gibt Messungen bei mehr als {most:0} Kilometerständen; benachbarte wurden zusammengefasst.',
  forecast_beyond: 'Die Skala endet bei {top:1} %; die Längung kann noch größer sein.',
  forecast_now:
    'Jetzt messen: die Wahrscheinlichkeit, dass die Kette über ihrer Grenze ist, beträgt schon {percent:0} %.',
  forecast_now_large:
    'Jetzt messen: die Wahrscheinlichkeit, dass die Kette über ihrer Grenze ist, beträgt schon mehr als 99 %.',
  forecast_last_aside:
    'Jetzt noch einmal messen: der letzte Messwert legt die Kette über ihre Grenze, und nichts seither widerspricht ihm.',
  forecast_check:
    'Innerhalb von {km:0} km wieder prüfen. Bis dahin steigt die Wahrscheinlichkeit, über der Grenze zu sein, auf {percent:0} %.',
  forecast_origin:
    'Offene Daten zum Kettenverschleiß wurden nicht gefunden. Ausgangspunkt ist üblicher Brauch, und wie gut das hier geht, ist nur aus Simulation bekannt.',
  aside_none:
    'Bei {km:0} km liegt die Kette nach allem anderen, was bekannt ist, zwischen {low:2} und {high:2} %. Diese Messung passt nicht, und kein üblicher Schreibfehler erklärt sie. Neu messen.',
  aside_ten_times:
    'Bei {km:0} km liegt die Kette nach allem anderen, was bekannt ist, zwischen {low:2} und {high:2} %. Diese Messung passt, wenn das Komma eine Stelle weiter links steht: {entered}, das sind {fits:2} %.',
  aside_tenth_part:
    'Bei {km:0} km liegt die Kette nach allem anderen, was bekannt ist, zwischen {low:2} und {high:2} %. Diese Messung passt, wenn das Komma eine Stelle weiter rechts steht: {entered}, das sind {fits:2} %.',
  aside_digits_swapped:
    'Bei {km:0} km liegt die Kette nach allem anderen, was bekannt ist, zwischen {low:2} und {high:2} %. Diese Messung passt mit zwei vertauschten Ziffern: {entered}, das sind {fits:2} %.',
  aside_units_mixed:
    'Bei {km:0} km liegt die Kette nach allem anderen, was bekannt ist, zwischen {low:2} und {high:2} %. Diese Messung passt, wenn Prozent statt mm eingegeben wurde: {entered} mm, das sind {fits:2} %.',
  aside_pitches_off:
    'Bei {km:0} km liegt die Kette nach allem anderen, was bekannt ist, zwischen {low:2} und {high:2} %. Diese Messung passt, wenn die Messlänge {entered} Glieder war, das sind {fits:2} %.',

  cost_rate: 'Die Kette verschleißt um {rate:3} % je 1000 km.',
  cost_from_care: 'Von dieser Kette gibt es keine Messung; dies ist, was mit ihrer Pflege üblich ist.',
  cost_from_readings: 'Der Verschleiß kommt aus einer Vorhersage mit Messungen: {count:0}.',
  cost_no_spread: 'Der Verschleiß ist eine einzige Zahl; das untere und obere Ende sind gleich den Kosten.',
  cost_spread:
    'Das untere und obere Ende sind die Kosten bei {low:3} und {high:3} % je 1000 km; neun von zehn liegen dazwischen.',
  cost_chains: 'Ein Satz Ritzel überlebt {chains:1} Ketten, wenn jede Kette bei {percent:2} % gewechselt wird.',
  cost_rings: 'Ein Kettenblatt überlebt {sets:1} Sätze Ritzel.',
  cost_new: 'Eine neue Kette misst {percent:2} % lang.',
  cost_together:
    'Eine Kette und Ritzel, die zusammen verschleißen, laufen doppelt so weit wie Ritzel, die neue Ketten bekommen, und keine Kette geht über 3 %.',
  cost_flat:
    'Auf die gewählte Grenze kommt es wenig an: von {lo:2} bis {hi:2} % liegen die Kosten bis auf 2 % am niedrigsten.',
  cost_origin:
    'Das sind Annahmen aus üblichem Brauch und Simulation, nicht von gemessenen Ritzeln. Arbeit und Schmierstoff sind nicht gezählt.',
  cost_not_safety:
    'Hier werden nur Kosten verglichen. Die Grenze deines Antriebs bleibt die Grenze, was immer am billigsten ist.',
  cost_past_limit:
    'Der billigste Weg lässt hier Ketten mit ihren Ritzeln weiterlaufen, womöglich über die Grenze. Eine Kette über ihrer Grenze kann unter Last springen oder reißen und dich stürzen lassen.',

  care_by_distance: '{km:0} km seit dem letzten Mal; fällig ab {from:0} km, spätestens bei {to:0} km.',
  care_due: '{km:0} km seit dem letzten Mal; fällig seit {from:0} km, spätestens bei {to:0} km.',
  care_overdue: '{km:0} km seit dem letzten Mal; fällig war es bis {to:0} km.',
  care_unknown: 'Niemand weiß, wann das zuletzt gemacht wurde; deshalb ist es fällig.',
  care_wet_wipe: 'Sie wurde nass gefahren: trocknen, sonst rostet sie und Wasser trägt den Sand nach innen.',
  care_wet_lubricate: 'Sie wurde nass gefahren: Wasser hat Schmierstoff ausgewaschen.',
  care_dirty: 'Die Kette ist schmutzig.',
  care_looks_clean:
    'Sie sieht sauber aus, das Reinigen kann warten; Sand in den Rollen sieht man nicht, also nicht ohne Ende.',
  care_stripped: 'Sie wurde nach dem letzten Schmieren gereinigt: was in den Rollen war, ist ausgewaschen.',
  care_sounds_dry: 'Sie quietscht oder rasselt: die Bolzen laufen trocken.',
  care_after_cleaning: 'Erst kommt das Reinigen und nimmt den Schmierstoff mit.',
  care_clean_first:
    'Eine schmutzige Kette wird vor dem Schmieren gereinigt: Schmierstoff auf Schmutz trägt den Sand in die Rollen und verschleißt die Kette schneller.',
  care_lubricate_at_once: 'Schmieren, sobald sie sauber und trocken ist, vor der nächsten Fahrt.',
  care_wipe_first: 'Erst abwischen, dann schmieren, damit der Schmutz von außen nicht hineingerät.',
  care_nothing_due: 'Jetzt ist nichts fällig.',
  care_how_wipe:
    'Einen trockenen Lappen ums untere Trum halten und die Kurbel von Hand rückwärts drehen, bis die Kette keinen Schmutz mehr hinterlässt.',
  care_how_clean:
    'Die Kette mit einem Reiniger für Ketten bürsten, Rollen und Laschen von beiden Seiten, spülen, abwischen und durchtrocknen lassen. Ritzel und Kettenblätter gleich mit reinigen.',
  care_how_clean_wax:
    'Die Kette abnehmen und in heißem Wasser spülen, Verbrühung beachten, bis Wachs und Sand heraus sind, dann durchtrocknen lassen. Öl oder Fett zuerst ganz entfernen: Wachs hält darauf nicht.',
  care_how_oil:
    'Ein Tropfen auf jede Rolle an der Innenseite des unteren Trums, die Kurbel langsam drehen, einige Minuten warten, dann außen trocken wischen.',
  care_how_liquid_wax:
    'Auf eine saubere, trockene, fettfreie Kette: ein Tropfen auf jede Rolle, die Kurbel drehen, dann stundenlang trocknen lassen, am besten über Nacht.',
  care_how_hot_wax:
    'Saubere, trockene, fettfreie Kette, abgenommen: in geschmolzenes Wachs hängen, bis keine Blasen mehr steigen, abtropfen und abkühlen lassen, dann jedes Glied gängig biegen.',
  care_how_factory_grease:
    'Werksfett lässt sich zu Hause nicht erneuern. Außen abwischen und von nun an Öl nehmen, oder vor dem Wechsel auf Wachs alles Fett entfernen.',
  care_caution_brakes:
    'Schmierstoff fern halten von Bremsscheibe, Belägen und Felge: eine Bremse, die davon abbekommen hat, hält nicht. Vor der Fahrt die Bremsen probieren.',
  care_caution_brakes_cleaning:
    'Reiniger und seinen Sprühnebel fern halten von Bremsscheibe, Belägen, Felge, Lagern und elektrischen Teilen.',
  care_caution_solvent:
    'Lösemittel brennen und ihre Dämpfe schaden: Handschuhe, frische Luft, keine Flamme, kein Benzin. Sie lösen das Fett aus den Rollen, deshalb gleich schmieren.',
  care_caution_acid:
    'Keinen Rostlöser, auch keine schwache Säure wie Essig: sie kann gehärtete Bolzen und Laschen spröde machen, und die brechen unter Last ohne Vorwarnung.',
  care_caution_hot:
    'Geschmolzenes Wachs verbrennt die Haut und fängt Feuer: Topf mit Thermostat oder Wasserbad, nie offene Flamme, nie unbeaufsichtigt, und kein Wasser auf brennendes Wachs.',

  ride_expect:
    'Diese Strecke kann um 1 bis 2 % daneben liegen: Zittern der Satellitenpositionen macht eine Fahrt länger, seltene Punkte machen sie kürzer, und Steigung zählt nicht.',
  ride_segments: 'Die Fahrt hat {count:0} Teile. Jeder wurde für sich gemessen; dazwischen zählt nichts.',
  ride_routes: 'Ausgelassene geplante Strecken: {count:0}. Ein Plan ist keine Fahrt.',
  ride_waypoints: 'Ausgelassene Wegpunkte: {count:0}. Das sind Orte, keine Fahrt.',
  ride_long_leg:
    'Zwei aufeinander folgende Punkte liegen {km:1} km auseinander, und die Gerade dazwischen zählt. Wurde sie nicht gefahren, die Strecke berichtigen.',
  ride_skipped: 'Ausgelassene Punkte: {count:0}. Die Fahrt wird gerade an ihnen vorbei gemessen.',
  ride_times: 'Punkte mit nicht lesbarer Zeit: {count:0}. Für die Strecke zählen sie.',
  ride_no_position: 'dem Punkt fehlt lat oder lon',
  ride_unreadable_position: 'lat oder lon ist keine einfache Dezimalzahl',
  ride_out_of_range: 'lat liegt nicht zwischen -90 und 90, oder lon nicht zwischen -180 und unter 180',
  ride_misplaced: 'der Punkt steht nicht in einem Abschnitt (trkseg) einer Aufzeichnung (trk)',
};
