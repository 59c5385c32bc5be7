# Sätze des Programms selbst: Terminal, Protokoll, Übersicht, problems.txt. Die des Berichts liegen in report-templates.

# Das Ergebnis in einem Satz.
console-verdict-mended = war: { $cause }; die Aufzeichnung nach der Reparatur belegt, dass der Fehler behoben ist
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
console-no-verdict = noch kein Ergebnis
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
console-page-verdict = Ergebnis
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
