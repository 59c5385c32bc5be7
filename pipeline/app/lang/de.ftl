# Sätze des Programms selbst: Terminal, Protokoll, Übersicht, problems.txt. Die des Berichts liegen in report-templates.

# Das Ergebnis in einem Satz.
console-verdict-mended = behoben: { $cause }; die Aufzeichnung nach der Reparatur zeigt den Fehler nicht mehr
console-verdict-teardown = festgestellt: { $cause } ({ $weight }); für die Reparatur muss das Aggregat geöffnet werden
console-verdict-established = festgestellt: { $cause } ({ $weight })
console-verdict-probable = wahrscheinlich: { $cause } ({ $weight }); allein nicht sicher genug, um danach zu handeln
console-verdict-open = offen: Die Aufzeichnungen reichen für eine Entscheidung nicht aus
console-verdict-nothing-found = ohne Befund: Alles Aufgezeichnete ist, wie es sein soll
console-verdict-nothing-in-tested = im geprüften Umfang ohne Befund; geprüft wurde nicht alles
console-verdict-no-report = kein Bericht: Es liegt weder eine Aufzeichnung noch ein Diagnosetext vor

# Ein Auftrag im Terminal.
console-reading = { $job }: wird gelesen und gemessen
console-no-report = { $job }: kein Bericht: { $reason }
console-next = als Nächstes: { $step }
console-set-aside = nicht verwendet: { $message }
console-not-run = nicht gelaufen: { $check }: { $reason }
console-not-run-file = nicht gelaufen: { $check } an { $file }: { $reason }
console-note = Hinweis: { $message }
console-results = Bericht:            { $report }
    Arbeitspositionen:  { $labour }
    Messergebnisse:     { $case }
console-demo = Ein erfundener Auftrag liegt jetzt in { $folder } und wird gemessen.
console-signed = { $job }: Bericht { $report } ist unterschrieben: { $path }

# Was von einer Person gebraucht wird.
console-asks-answers = Antworten in job.toml, erneut zum Auftrag gelegt
console-asks-job-file = die Fehler in job.toml berichtigt, siehe problems.txt
console-asks-evidence = eine Aufzeichnung oder ein Diagnosetext: ohne sie gibt es keinen Bericht
console-asks-checks = { $count ->
    [one] der Auftrag noch einmal: eine Prüfung ist nicht gelaufen, siehe problems.txt
   *[other] der Auftrag noch einmal: { $count } Prüfungen sind nicht gelaufen, siehe problems.txt
 }
console-asks-set-aside = { $count ->
    [one] ein Blick auf die Datei, die nicht verwendet wurde, siehe problems.txt
   *[other] ein Blick auf { $count } Dateien, die nicht verwendet wurden, siehe problems.txt
 }
console-asks-signature = Prüfung und Unterschrift einer Person (baybrief sign)

# Arbeitspositionen.
console-line = { $number }. { $operation } { $description }: { $quantity } zu { $rate }, { $amount }
console-line-hours = { $hours } h
console-line-pieces = { $pieces } Stück
console-line-authorised = freigegeben von { $by } ({ $how }, { $at })
console-line-authorised-up-to = freigegeben von { $by } ({ $how }, { $at }) bis { $sum }
console-line-declined = abgelehnt von { $by } ({ $how }, { $at })
console-line-beyond-limit = angehalten: mit dieser Position { $needed }, freigegeben sind { $limit }
console-line-not-authorised = angehalten: ohne Freigabe ausgeführt
console-line-number-taken = angehalten: { $jobs } hat dieselbe Nummer
console-sum-net = { $sum } netto
console-sum-gross = { $sum } brutto
console-sum-tax = { $sum } Steuer ({ $rate } %)
console-event-offered = { $at } angeboten: { $lines }
console-event-offered-nothing = { $at } nichts mehr angeboten
console-event-offered-by = { $at } angeboten: { $lines }, von { $by }
console-event-authorised = { $at } freigegeben: { $lines } bis { $sum }, von { $by } ({ $how })
console-event-declined = { $at } abgelehnt: { $lines }, von { $by } ({ $how })
console-event-done = { $at } erledigt: { $lines }, von { $by }
console-event-reopened = { $at } Erledigung zurückgenommen: { $lines }, von { $by }
console-refused-unknown-line = { $name } ist keine Position dieses Auftrags; es gibt { $known }
console-refused-stages = Abschnitte werden einzeln freigegeben; nennen Sie mit --lines die, die der Kunde meint: { $stages }
console-refused-hours = { $operation }: nur wer die Diagnose gemacht hat, kennt ihre Stunden; geben Sie sie mit --hours an, zum Beispiel --hours 1.4
console-refused-not-authorised = { $operation } ist nicht freigegeben: Fragen Sie den Kunden und halten Sie die Antwort zuerst mit `authorise` fest
console-refused-beyond-limit = { $operation } ist angehalten: Mit dem, was daneben freigegeben ist, kommt es auf { $needed }, der Kunde hat bis { $limit } gesagt; fragen Sie und halten Sie die Antwort zuerst mit `authorise` fest
console-refused-moved = in diesem Augenblick hat jemand anders etwas zu diesem Auftrag festgehalten; sehen Sie sich die Positionen mit `status` an und geben Sie es noch einmal ein

# Befunde beim Öffnen.
console-outcome = { $found } ({ $system }); { $by }, { $at }, Bericht { $report }
console-outcome-confirmed = bestätigt
console-outcome-confirmed-cause = bestätigt: { $said }
console-outcome-other-cause = gefundene Ursache: { $cause }
console-outcome-other-cause-than = andere Ursache: { $cause }, nicht: { $said }
console-outcome-part-sound = das beanstandete Teil ist in Ordnung
console-outcome-part-sound-not = das beanstandete Teil ist in Ordnung, also nicht: { $said }
console-outcome-healthy = das Aggregat ist, wie es sein soll
console-outcome-not-opened = nicht geöffnet
console-outcome-mended = behoben
console-outcome-part = Teil: { $part }
console-outcome-photo = Foto: { $photo }
console-outcome-record-after = Es fehlt eine Aufzeichnung nach der Reparatur: Fügen Sie eine mit `phase = "after"` in job.toml hinzu, dann zählt der Auftrag zu den nachweislich guten.

# Alle Aufträge: Terminal und Übersicht.
console-jobs = { $count ->
    [one] 1 Auftrag
   *[other] { $count } Aufträge
 }
console-jobs-older = { $count ->
    [one] 1 älterer Auftrag ist hier nicht aufgeführt;
   *[other] { $count } ältere Aufträge sind hier nicht aufgeführt;
 }
console-jobs-list-all = zeigt alle.
console-jobs-none = Es gibt noch keinen Auftrag.
console-refused = Im Eingangsordner, gehört zu keinem Auftrag
console-group-asks = Es wird noch etwas benötigt
console-group-draft = Entwürfe, zu prüfen
console-group-work = Wartend und in Arbeit
console-group-signed = Unterschrieben
console-state-waiting = wartet
console-state-working = wird gemessen
console-state-failed = fehlgeschlagen, wird wiederholt
console-state-held = angehalten
console-state-signed = Bericht { $report } unterschrieben von { $by }, { $at }
console-state-no-report = kein Bericht
console-state-draft = Bericht { $report }, Entwurf
console-no-verdict = noch kein Urteil
console-asked-for = benötigt: { $what }
console-owed = Befund beim Öffnen steht noch aus, siehe `outcome JOB`
console-owed-weaker = in der Aufzeichnung nach der Reparatur unauffällig, eine schwächere Bestätigung
console-report = { $job }: Bericht { $report }, { $sentence }
console-age-now = gerade eben
console-age-minutes = { $count ->
    [one] 1 Minute
   *[other] { $count } Minuten
 }
console-age-hours = { $count ->
    [one] 1 Stunde
   *[other] { $count } Stunden
 }
console-age-days = { $count ->
    [one] 1 Tag
   *[other] { $count } Tage
 }

# Nur die Übersicht.
console-page-asking = { $count ->
    [one] 1 wartet auf eine Antwort
   *[other] { $count } warten auf eine Antwort
 }
console-page-skip = Zu den Aufträgen springen
console-page-title = Aufträge
console-page-as-of = Stand:
console-page-reload = Diese Seite wird nach jeder Änderung neu geschrieben; laden Sie sie neu, um den neuesten Stand zu sehen.
console-page-groups = Arten von Aufträgen
console-page-job = Auftrag
console-page-state = Stand
console-page-verdict = Urteil
console-page-newest = Neueste Datei
console-page-asked = Benötigt
console-page-results = Ergebnisdateien
console-page-nothing = nichts
console-page-none-yet = noch keine
console-page-of-job = von { $job }
console-page-report = Bericht { $report }
console-page-replaced = ersetzt
console-page-law = Ein Entwurf ist kein Befund, bevor ihn eine Person geprüft und unterschrieben hat. Gesetzlich vorgeschriebene Formulare haben Vorrang.

# problems.txt.
console-problems-head = Im Eingangsordner wurde nichts verschoben, geändert oder gelöscht.
console-problems-aside = Diese Dateien wurden nicht verwendet; der Bericht ist ohne sie entstanden:
console-problems-not-run = Diese Prüfungen sind nicht gelaufen:
console-problems-odd = Das ist an gelesenen Dateien aufgefallen:
console-problems-alone = Zu den jetzigen Dateien des Auftrags gibt es keinen Bericht; es wird erneut versucht. Der Grund:
console-problems-on = { $check } an { $file }

# Protokoll eines Dienstes.
console-log-watching = überwacht
console-log-stopped = beendet
console-log-crashed = der letzte Lauf endete durch einen eigenen Fehler; seine Aufträge werden einzeln wiederholt
console-log-finishing = die laufenden Aufträge werden abgeschlossen
console-log-begun = begonnen
console-log-held = angehalten: { $reason }
console-log-no-report = kein Bericht: { $reason }
console-log-again = einige Prüfungen sind nicht gelaufen; der Auftrag wird später wiederholt
console-log-rows-wait = Arbeitspositionen sind noch nicht übergeben: { $reason }
console-log-page = die Übersicht kann nicht geschrieben werden: { $reason }

# Wie eine Datei gelesen wird (inspect).
console-inspect-recording = { $file }: Aufzeichnung, { $how }
console-inspect-why = Grund: { $format } ({ $percent } %): { $reason }
console-inspect-maybe = möglich wäre auch { $format } ({ $percent } %): { $reason }
console-inspect-samples = { $count } Messwerte von { $start } s bis { $end } s, { $rate } je Sekunde, { $spaced }
console-inspect-even = in gleichen Abständen
console-inspect-uneven = in ungleichen Abständen
console-inspect-started = begonnen { $at }
console-inspect-first = Anfang
console-inspect-last = Ende
console-inspect-channel = Kanal { $name } [{ $unit }]: { $least } bis { $most }, Median { $median }
console-inspect-no-unit = ohne Einheit
console-inspect-missing = { $count } fehlen
console-inspect-over-range = { $count } außerhalb des Messbereichs
console-inspect-guess = vermutlich { $role } ({ $percent } %): { $reason }
console-inspect-guess-unsafe = vermutlich { $role } ({ $percent } %, zu unsicher zum Messen: geben Sie es in job.toml an): { $reason }
console-inspect-not-clear = was er misst, ist aus Name, Einheit und Form nicht zu erkennen
console-inspect-vin = Zeile { $line }: Fahrzeug-Identifizierungsnummer { $vin }
console-inspect-date = Datum { $day }
console-inspect-odometer = Kilometerstand { $km } km
console-inspect-line = Zeile { $line }: { $what }
console-inspect-track = Zeile { $line }: { $name } über der Zeit, { $count } Werte von { $start } s bis { $end } s: { $least } bis { $most } { $unit }
console-inspect-no-codes = keine Fehlercodes
console-inspect-no-module = Steuergerät nicht genannt
console-inspect-recordings = { $count ->
    [one] 1 Aufzeichnung beschrieben
   *[other] { $count } Aufzeichnungen beschrieben
 }
console-inspect-operations = { $count ->
    [one] 1 Arbeit mit Preis
   *[other] { $count } Arbeiten mit Preis
 }
console-inspect-channels = { $count ->
    [one] 1 Kanal
   *[other] { $count } Kanäle
 }

# Analysemodule (plugins).
console-plugin-library = {"  "}Bibliothek { $path }
console-plugin-foreign = {"  "}fremd: nicht mit baybrief geliefert; ihre Gewichte sind begrenzt
console-plugin-quarantined = {"  "}unter Quarantäne: bei { $count } Aufzeichnungen in Folge abgestürzt oder nicht fertig geworden; `baybrief plugins --unquarantine { $path }`
console-plugin-assets = {"  "}Dateien  { $names }
console-plugin-needs = {"    "}braucht { $roles }
console-plugin-uses = {"    "}nutzt   { $roles }
console-plugin-inputs = {"    "}liest   { $names }
console-plugin-kinds = {"    "}findet  { $names }
console-plugin-series = {"    "}berechnet { $names }
console-plugin-nothing = nichts
console-plugin-or = { $first } oder { $second }
console-plugin-all-of = { $first } und { $second }
console-plugin-any-of = { $first }, { $second }
console-plugin-refused = abgelehnt: { $path }: { $reason }
console-plugin-sandbox = Abschottung: { $what }
console-plugin-none = Kein Modul gefunden. Legen Sie die Bibliotheken in einen Ordner `plugins` neben dem Programm, oder nennen Sie ihren Ordner in der Umgebungsvariablen BAYBRIEF_PLUGINS oder in shop.toml ([plugins] folders).
console-plugin-pinned = festgelegt { $hash }  { $path }
console-plugin-before = {"  "}zuvor { $hash }
console-plugin-nothing-pinned = Nichts wurde festgelegt: Es gibt keine Bibliothek in einem Ordner `plugins` neben dem Programm, in der Umgebungsvariablen BAYBRIEF_PLUGINS oder in shop.toml ([plugins] folders). Selbst Gebautes ändert sich bei jedem Bau.
console-plugin-released = { $path }: Die Abstürze sind vergessen; sie läuft wieder.
console-plugin-not-quarantined = { $path }: steht nicht unter Quarantäne; es ist kein Absturz vermerkt.

# Versiegelte Archive (seal, verify).
console-sealed = { $job }: Bericht { $report } mit { $count } Dateien ist versiegelt: { $path }
console-sealed-holds = signiert mit dem Schlüssel { $key }. Das Archiv enthält Namen, Adressen und Preise wie der Bericht: Geben Sie es niemandem, der sie nicht sehen darf.
console-sealed-file = { $file }: Auftrag { $job }, Bericht { $report }, versiegelt { $at } mit Version { $version }
console-sealed-intact = {"  "}alle { $count } Dateien sind so, wie sie versiegelt wurden
console-sealed-changed = {"  "}NICHT so, wie es versiegelt wurde
console-sealed-expected = {"  "}versiegelt mit dem erwarteten Schlüssel { $key }
console-sealed-other = {"  "}versiegelt mit einem ANDEREN Schlüssel: { $key }, erwartet { $expected }
console-sealed-unknown = {"  "}versiegelt mit dem Schlüssel { $key }; wem er gehört, ist hier nicht bekannt: Vergleichen Sie ihn mit dem, den die Werkstatt bekannt gemacht hat (--key FINGERABDRUCK, oder --shop für den eigenen)
console-again-not = {"  "}nicht noch einmal gerechnet: Geändertes beweist nichts
console-again-version = {"  "}noch einmal gerechnet mit Version { $now }, versiegelt mit { $then }: Unterschiede können am Programm liegen
console-again-other-library = {"  "}die Bibliothek { $name } ist eine andere als die damalige
console-again-new-library = {"  "}die Bibliothek { $name } lief damals nicht
console-again-same = {"  "}noch einmal gerechnet: case.json ist Byte für Byte gleich
console-again-differs = {"  "}noch einmal gerechnet: case.json ist ANDERS: { $difference }
console-again-line = Zeile { $line }: damals { $then }, jetzt { $now }
console-again-shorter = das eine endet vor dem anderen
console-key-made = Für diese Werkstatt wurde ein Schlüssel erzeugt: { $path }. Bewahren Sie eine Kopie sicher auf, geben Sie ihn niemandem, und machen Sie seinen Fingerabdruck bekannt: { $key }
console-signed-with = signiert mit dem Schlüssel { $key }

# Werte anderer Werkstätten (export, import).
console-values = { $count ->
    [one] 1 Wert
   *[other] { $count } Werte
 }
console-recordings = { $count ->
    [one] 1 Aufzeichnung
   *[other] { $count } Aufzeichnungen
 }
console-vehicles = { $count ->
    [one] 1 Fahrzeug
   *[other] { $count } Fahrzeuge
 }
console-exported = {"  "}{ $unit }, { $limit }: { $recordings }, { $vehicles }, { $from } bis { $to }
console-imported = { $name }: { $values }, signiert mit dem Schlüssel { $key }. Fragen Sie dort nach, ob das ihr Schlüssel ist.
console-imported-next = `learn limits` zeigt, was sie vorschlagen; jedes Fahrzeug einer anderen Werkstatt zählt halb, und keines verengt einen Grenzwert.

# Was die eigenen Aufträge lehren (learn).
console-learn-none = Noch kein Auftrag ist nachweislich gut. Halten Sie den Befund mit `outcome JOB --found healthy` oder `--mended` fest; ein Auftrag zählt, wenn seine job.toml das Aggregat oder Marke und Modell nennt.
console-learn-origin = {"  "}von der Werkstatt { $name }, Schlüssel { $key }
console-learn-in-force = in Kraft: { $name }, Version { $version }, übernommen von { $by }, { $day }
console-learn-counted = {"  "}{ $limit }: { $recordings }, { $vehicles }; Median { $median }, kleinster bis größter Wert { $low } bis { $high } { $unit }
console-learn-carried = {"    "}95 % solcher Fahrzeuge, Vertrauensniveau { $confidence }
console-learn-proposal = {"    "}nur ein Vorschlag: Vertrauensniveau { $confidence } für 95 % solcher Fahrzeuge, nötig sind { $needed }
console-learn-odd = {"    "}auffällig: { $jobs } ({ $low } bis { $high } { $unit }) bleibt außen vor; wer weiß, dass es gut ist: --include { $first }
console-learn-bound = {"    "}{ $side } { $before } -> { $value } { $unit }: { $change }
console-learn-low = unten
console-learn-high = oben{" "}
console-learn-learned = { $replaced } { $learned } (gelernt)
console-learn-same = wie bisher
console-learn-wider = weiter; { $vehicles } außerhalb des Grenzwerts
console-learn-narrower = enger
console-learn-adoptable = kann übernommen werden
console-learn-waits = wartet auf das Wort einer Person ({ $reasons })
console-learn-foreign = Werte einer anderen Werkstatt verengen nie einen Grenzwert
console-learn-more-bad = mehr Aggregate als bisher würden für schlecht erklärt
console-learn-few = nur { $count } von insgesamt { $vehicles } außerhalb des Grenzwerts: So viele können zu Unrecht gut genannt sein
console-learn-judged = { $count ->
    [one] 1 Fahrzeug gilt nur nach diesem Grenzwert als gut
   *[other] { $count } Fahrzeuge gelten nur nach diesem Grenzwert als gut
 }
console-learn-curve = {"  "}Kurve von { $kind } ({ $subject }): { $vehicles }, 5 bis 95 %
console-learn-put = Die Worker sehen es noch nicht: Legen Sie den Ordner { $folder } in den Bucket, unter shops/WERKSTATT/ neben shop.toml; ab dem nächsten Auftrag gilt es.
console-learn-adopted = {"  "}übernommen als Version { $version }: { $path }
console-learn-nothing-adopted = Nichts wurde übernommen: `learn limits` sagt, was vorgeschlagen ist, wie viele Fahrzeuge nötig sind und was auf das Wort einer Person wartet (--value NAME).
console-learn-reverted = { $name }: Version { $version } gilt wieder
console-learn-reverted-all = { $name }: Es gelten wieder die Grenzwerte von vor dem Lernen
console-interval = { $low } bis { $high }
console-part-of = { $part } von { $all }
console-weights-none = Noch kein Befund sagt etwas über eine Ursache: Die Gewichte sind Ermessen.
console-weights-head = In Deziban; ab { $least } Befunden je Zeile wird neben dem geschätzten ein gezähltes Gewicht vorgeschlagen.
console-weights-row = Ursache/Zeile
console-weights-judged = geschätzt
console-weights-with = mit
console-weights-without = ohne
console-weights-counted = gezählt, 95 %
console-weights-proposed = vorgeschlagen
console-weights-more = noch { $count }
console-weights-in-force = { $count ->
    [one] in Kraft: 1 gezähltes Gewicht, Version { $version }, übernommen von { $by }, { $day }
   *[other] in Kraft: { $count } gezählte Gewichte, Version { $version }, übernommen von { $by }, { $day }
 }
console-weights-few = { $count ->
    [one] --value { $name }: bisher 1 Befund; nötig sind { $least }, mit der Ursache und ohne sie
   *[other] --value { $name }: bisher { $count } Befunde; nötig sind { $least }, mit der Ursache und ohne sie
 }
console-weights-reverted = { $count ->
    [one] 1 gezähltes Gewicht gilt wieder
   *[other] { $count } gezählte Gewichte gelten wieder
 }
console-record-head = Urteile und was gefunden wurde, nach denen, die nachgesehen haben. Intervalle zu 95 % (Wilson 1927). Nur Aufträge mit Befund zählen: Geöffnet wird öfter, was beanstandet war.
console-record-system = System
console-record-said = Urteil
console-record-number = Anzahl
console-record-confirmed = bestätigt
console-record-refuted = widerlegt
console-record-mended = behoben*
console-record-unknown = unbekannt
console-record-share = bestätigt von den nachgesehenen
console-record-note = * Ohne das Wort einer Person, aber in der Aufzeichnung nach der Reparatur unauffällig: eine schwächere Bestätigung.
console-record-drift = { $system }, festgestellte Urteile der Reihe nach (EWMA, Lambda 0,1, 3 Standardabweichungen): im Mittel { $centre } bestätigt, jetzt { $now }, Grenze { $limit } ({ $count } Urteile): { $signals ->
    [0] kein Zeichen einer Drift
    [one] DRIFT: Der Mittelwert fiel einmal unter seine Grenze; sehen Sie sich das letzte widerlegte Urteil an
   *[other] DRIFT: Der Mittelwert fiel { $signals } Mal unter seine Grenze; sehen Sie sich die letzten widerlegten Urteile an
 }
console-record-confused = Gesagt, aber anders befunden:

# Die Seite (serve).
console-page-at = Die Seite liegt unter { $address }. Öffnen Sie sie innerhalb einer Minute mit { $file }

# PIN der Seite (pin).
console-pin-removed = { $name } hat keine PIN mehr und unterschreibt auf der Seite nichts.
console-pin-set = Die PIN von { $name } ist gesetzt; ihr Prüfwert liegt in { $path }.
console-pin-digits = Eine PIN hat { $least } bis { $most } Ziffern.
console-pin-again = Noch einmal

# Die ausgefüllte job.toml.
console-draft-head = Ausgefüllt, soweit bekannt. Beantworten Sie die Fragen, nehmen Sie das # vor jeder Antwort weg, und
console-draft-folder = legen Sie diese Datei in den Ordner { $folder } des Auftrags; dann geht es von selbst weiter.
console-draft-files = legen Sie diese Datei neben die anderen des Auftrags, benannt wie diese bis zum ersten _ und dann _job.toml.
console-draft-first = Zuerst gefragt, weil das Urteil darauf wartet:
console-draft-wrong = Falsch in Ihrer Datei und hier weggelassen:
console-draft-guessed = vermutet: { $reason }
console-draft-more = { $names } und { $count } weitere
console-draft-number = Auftragsnummer der Werkstatt
console-draft-day = der Tag
console-draft-technician = wer das Fahrzeug untersucht hat
console-draft-hours = Stunden der Diagnose, die abgerechnet werden
console-draft-name = Name
console-draft-address = Anschrift
console-draft-phone = Telefon
console-draft-one-of = eines von { $names }
console-draft-systems = was untersucht werden soll: { $names }
console-draft-vin = Fahrzeug-Identifizierungsnummer, 17 Zeichen
console-draft-make = Hersteller
console-draft-model = Modell
console-draft-year = Modelljahr
console-draft-odometer = Kilometerstand
console-draft-high-voltage = true bei einem Hochvolt-System, wie in Hybriden
console-draft-concern = was der Kunde beanstandet
console-draft-time-unit = s, ms, us, min oder h: Was zählt die Zeitspalte?
console-draft-selector = P, R, N, D, S oder M: Wo stand der Wählhebel?
console-draft-engine = running (läuft), off (aus) oder cranking (wird angelassen)?
console-draft-phase = before (vor) oder after (nach) der Reparatur?
console-draft-role = was misst dieser Kanal? Eines von { $names }
console-draft-clamp = einer Stromzange, wie darauf steht
console-draft-sensor = hall, vr (Spule) oder current-loop (Zweidraht)
console-draft-teeth = Zahnteilungen je Umdrehung
console-draft-ask-selector = wo stand der Wählhebel? (selector)
console-draft-ask-engine = lief der Motor? (engine)
console-draft-ask-teeth = wie viele Zähne haben die Räder dieser Sensoren (teeth)
console-draft-ask-scale = welchen Faktor haben diese Kanäle (amps_per_volt, scale oder unit)
console-draft-ask-time-unit = was zählt die Zeitspalte? (time_unit)
console-draft-ask-unit = welches Aggregat ist es? ([vehicle] unit)
console-draft-ask-systems = was soll untersucht werden? ([vehicle] systems)
console-draft-ask-role = was messen diese Kanäle (role)
