### Alle Sätze der Berichte auf Deutsch (Fluent-Syntax, projectfluent.org).
### Übersetzung von en.ftl: Schlüssel, Argumente und die Attribute `.word` bleiben, wie sie dort sind.
# findings
finding-generic = { $kind-name } ({ $subject-name }): { $value }{ $limit }.
finding-generic-plain = { $kind-name } ({ $subject-name }).
finding-generic-limit = , erwartet { $range }
finding-generic-range-between = { $low } bis { $high }
finding-generic-range-above = mindestens { $low }
finding-generic-range-below = höchstens { $high }

subject-whole = ganze Aufzeichnung

# units
unit-rpm = 1/min

# reasons
reason-margin = Die führende Erklärung liegt deutlich vor jeder anderen.
reason-second-fault = Ein zweiter Fehler mit eigenen Belegen wurde ebenfalls gefunden; er steht bei den Befunden.
reason-margin-too-small = Zwei Erklärungen passen etwa gleich gut zur Aufzeichnung.
reason-weight-too-small = Die Belege wiegen nicht schwer genug für eine Entscheidung.
reason-required-missing = Eine Beobachtung, die zur Gewissheit nötig ist, wurde nicht aufgezeichnet.
reason-no-evidence = Die Aufzeichnung zeigt nichts, was die Erklärungen unterscheidet.
reason-at-limit = Ein Messwert liegt so nahe an seiner Grenze, dass seine Unsicherheit offen lässt, auf welcher Seite.
reason-healthy = Alles, was aufgezeichnet wurde, ist, wie es sein soll.
reason-roles-unsure = Es ist nicht sicher, was die Kanäle der Aufzeichnung gemessen haben.
reason-nothing-read = Keine Aufzeichnung war lesbar.
reason-repair-proven = Die Aufzeichnung nach der Reparatur ist gesund, wo es die davor nicht war.
reason-repair-not-proven = Die Aufzeichnung nach der Reparatur zeigt den Fehler noch, oder sie zeigt nicht denselben Vorgang.
reason-repair-unread = Die Aufzeichnung nach der Reparatur ließ sich nicht lesen; nichts zeigt, ob der Fehler noch da ist.
next-mend-recording = Beheben, was die Dateiliste zur Aufzeichnung nach der Reparatur sagt, und den Auftrag wiederholen.
reason-check-did-not-run = Eine Prüfung, die dafür oder dagegen hätte sprechen können, lief nicht.
reason-not-calibrated = Der Befund beruht auf Zahlen, deren Maßstab nicht bekannt ist; ihre Form allein beweist ihn nicht.
reason-healthy-in-part = Alles, was geprüft wurde, ist in Ordnung. Nicht alles konnte geprüft werden.
reason-not-all-tested = Was aufgezeichnet wurde, ist in Ordnung; es prüft aber nicht alles, was geprüft sein muss, bevor das Aggregat als fehlerfrei gilt.
reason-suspect-not-tested = Ein Steuergerät meldet ein Bauteil, das keine Aufzeichnung geprüft hat.
reason-unit-unknown = Das Aggregat, das job.toml nennt, ist nicht bekannt; es gibt keine Grenzwerte für die Messungen.
reason-time-unknown = Die Zeiteinheit einer Aufzeichnung ist nicht bekannt; in ihr wurde nichts gemessen.
reason-no-system = Nichts Aufgezeichnetes verrät, welches System untersucht werden soll.
reason-explained-elsewhere = Ein Fehler, der an anderer Stelle des Fahrzeugs gefunden wurde, erklärt es ebenso; er wird zuerst behoben.

# next
# Schritte, um die das Programm bei jedem System bittet.

next-run-checks-again = Den Auftrag noch einmal durchführen, damit die ausgefallenen Prüfungen laufen; der Technikerbericht nennt sie.
next-state-time-unit = Die Zeiteinheit der Aufzeichnung in job.toml schreiben (time_unit = "ms", "s" oder eine andere).
next-state-systems = In job.toml schreiben, was untersucht werden soll ([vehicle] systems), oder was jeder Kanal gemessen hat.
next-state-unit = Den Namen des Aggregats in job.toml berichtigen; die Meldung dazu nennt die bekannten.

# why
# Warum eine Ursache nicht geprüft wurde.

why-check-did-not-run = die Prüfung lief nicht
why-not-recorded = nicht aufgezeichnet
why-recording-not-fit = die Aufzeichnung eignet sich nicht dafür
why-not-readable = das Signal ließ sich nicht lesen
why-not-shown-in-any-recording = keine Aufzeichnung hätte es zeigen können

next-record-again = Dieselbe Aufzeichnung noch einmal machen und vorher jeden Tastkopf prüfen.
next-state-channels = In job.toml eintragen, was jeder Kanal gemessen hat; eine ausgefüllte Datei liegt bei diesem Bericht.

# cautions
source-practice = übliche Praxis, ohne veröffentlichte Quelle

signal-word-danger = GEFAHR
signal-word-warning = WARNUNG
signal-word-caution = VORSICHT
signal-word-notice = HINWEIS

# sheets
sheet-judgement = Ermessen

# report
report-title = Diagnosebericht
report-title-job = Diagnosebericht, Auftrag { $job }
report-title-technician = Technischer Bericht
report-title-technician-job = Technischer Bericht, Auftrag { $job }
report-day = { $day }. { $month ->
    [1] Januar
    [2] Februar
    [3] März
    [4] April
    [5] Mai
    [6] Juni
    [7] Juli
    [8] August
    [9] September
    [10] Oktober
    [11] November
   *[12] Dezember
 } { $year }
report-page = Seite { $page } von { $pages }
report-draft = ENTWURF: noch von niemandem geprüft
report-draft-short = ENTWURF
report-reviewed = Geprüft von { $name } am { $time }
report-examined-by = Untersucht von
report-date = Datum
report-job = Auftrag
report-customer = Kunde
report-workshop = Werkstatt
report-vehicle = Fahrzeug
report-vin = Fahrzeugnummer
report-plate = Kennzeichen
report-odometer = Kilometerstand
report-complaint = Beanstandung
report-registration = Registrierung
report-no-shop = Name der Werkstatt
report-cut-short = (weiter im Protokoll)
report-notes = Beanstandung im Wortlaut

state-established = Festgestellt
state-probable = Wahrscheinlich
state-open = Nicht entschieden
state-nothing-found = Kein Fehler gefunden
state-nothing-found-in-part = Kein Fehler im Geprüften
state-mended = Reparatur belegt
state-not-mended = Reparatur nicht belegt

report-answer = Was defekt ist
report-answer-repair = Was die Reparatur bewirkt hat
report-answer-open = Die Aufzeichnungen entscheiden nicht, was defekt ist
report-answer-open-plain = Mehr als eine Erklärung ist noch möglich. Das Getriebe auf diese Belege hin zu öffnen, wäre geraten; die Schritte unten werden es entscheiden.
report-answer-nothing = Die Aufzeichnungen zeigen keinen Fehler
report-answer-nothing-plain = Alles, was sich messen ließ, arbeitete während der Aufzeichnung, wie es soll. Ein Fehler, der dabei nicht auftrat, ist nicht zu sehen.
report-answer-nothing-in-part = Kein Fehler in dem, was geprüft wurde
report-answer-nothing-in-part-plain = Was geprüft wurde, arbeitete während der Aufzeichnung, wie es soll. Nicht alles konnte geprüft werden; die Schritte unten prüfen den Rest.
report-answer-mended = Die Reparatur hat gewirkt
report-answer-mended-plain = Was in der Aufzeichnung vor der Reparatur falsch war, ist in der Aufzeichnung danach, wie es sein soll.
report-answer-not-mended = Die Reparatur ist nicht belegt
report-answer-not-mended-plain = Die Aufzeichnung nach der Reparatur zeigt nicht, dass jeder davor gesehene Fehler verschwunden ist.
report-probable-plain = Das ist die wahrscheinlichste Erklärung, aber sie ist nicht sicher genug, um das Getriebe darauf hin zu öffnen. Die Schritte unten schaffen Gewissheit.

report-how-sure = Wie sicher
report-how-sure-line = { $words } Belege: { $db } Deziban, { $margin } vor der nächsten Erklärung.
report-how-sure-line-alone = { $words } Belege: { $db } Deziban, nichts anderes erklärt dieselben Befunde.
report-scale = Ein Deziban misst, wie viel die Belege wiegen: Je 10 machen die Befunde unter dieser Erklärung zehnmal wahrscheinlicher als ohne sie. Wörter nach Kass und Raftery (1995): unter 3 zu 1 kaum der Rede wert, ab 3 zu 1 positiv, ab 20 zu 1 stark, ab 150 zu 1 sehr stark.
report-scale-alt = Gewicht der Belege in Deziban: { $list }.
report-weight = { $db ->
    [one] { $db } Deziban
   *[other] { $db } Deziban
 }
report-scale-item = { $cause } { $db }
report-band-mention = kaum
report-band-positive = positiv
report-band-strong = stark
report-band-very-strong = sehr stark
report-word-against = Keine
report-word-mention = Geringe
report-word-positive = Positive
report-word-strong = Starke
report-word-very-strong = Sehr starke
report-decibans = Deziban
report-why = Warum
report-why-open = Warum es nicht entschieden ist

report-known = Was bekannt ist
report-unknown = Was nicht bekannt ist
report-unknown-causes = Noch möglich: { $list }.
report-not = Was es nicht ist
report-not-because = { $cause } ({ $reason }).
report-not-more = { $count ->
    [one] Eine weitere Erklärung wurde ausgeschlossen; siehe unten.
   *[other] { $count } weitere Erklärungen wurden ausgeschlossen; siehe unten.
 }
report-not-tested = Was nicht geprüft wurde
report-not-tested-more = { $count ->
    [one] Eine weitere Ursache wurde nicht geprüft; siehe den Technikerbericht.
   *[other] { $count } weitere Ursachen wurden nicht geprüft; siehe den Technikerbericht.
 }
report-also-examined = Außerdem untersucht
report-not-run = { $count ->
    [one] Eine Prüfung lief nicht; was sie gezeigt hätte, gilt als nicht geprüft.
   *[other] { $count } Prüfungen liefen nicht; was sie gezeigt hätten, gilt als nicht geprüft.
 }
report-record-limits = Grenzwerte
report-limits-of-unit = { $system }: Grenzwerte von { $limits }, dem genannten Aggregat.
report-limits-of-system = { $system }: kein Aggregat genannt, daher gelten die allgemeinen Grenzwerte des Systems.
report-do = Was zu tun ist
report-do-teardown = Das Getriebe nach Freigabe öffnen und instand setzen (siehe { $section }).
report-do-proof = Die Reparatur belegen. { $proof }
report-do-not-open = Das Getriebe auf diese Belege hin nicht öffnen.
report-do-nothing = Auf diese Belege hin ist nichts zu öffnen oder zu ersetzen.
report-next = Was als Nächstes aufzuzeichnen ist
report-next-more = { $count ->
    [one] Ein weiterer Schritt; siehe unten.
   *[other] { $count } weitere Schritte; siehe unten.
 }
report-next-nothing = Kehrt die Beanstandung wieder, dieselbe Aufzeichnung machen, während sie auftritt.
report-cost = Was es kostet
report-cost-authorised = Freigegeben
report-cost-estimate = Voranschlag für die Reparatur
report-cost-next = Die nächste Aufzeichnung, nach Zeit
report-cost-next-rate = { $rate } je Stunde
report-cost-done = Diagnose und erledigte Arbeit

report-with-tax = mit Steuer

report-evidence = Die Belege
report-evidence-whole = Ganze Aufzeichnung
report-evidence-detail = Ausschnitt, { $from } s bis { $to } s
report-evidence-time = Zeit (s)
report-evidence-good = bekannt gut
report-evidence-at-rest = steht
report-evidence-alt = { $count ->
    [one] Ein Verlauf
   *[other] { $count } Verläufe übereinander,
 } aus { $file } über { $duration } s: { $rows }. { $marks }
report-evidence-alt-row = { $label } zwischen { $low } und { $high } { $unit }
report-evidence-alt-mark = Markiert von { $from } s bis { $to } s: { $label }.
report-evidence-caption-normal = { $file }: nichts Ungewöhnliches in der Aufzeichnung.

report-before-after = Vorher und nachher
report-before = Vorher
report-after = Nachher
report-outcome = Ergebnis
report-not-seen = nicht mehr zu sehen
report-observation = Beobachtung
outcome-mended = Behoben
outcome-unchanged = Wie zuvor
outcome-worse = Schlechter
outcome-not-comparable = Nicht vergleichbar

report-ruled-out = Was ausgeschlossen wurde, und wodurch
report-against = Dagegen: { $finding }
report-considered = Erwogen, weder belegt noch ausgeschlossen
report-codes = Fehlercodes und was sie hier bedeuten
report-codes-note = Ein Fehlercode sagt, was ein Steuergerät nicht konnte. Er sagt nicht, welches Teil defekt ist.
report-code = Code
report-code-module = Steuergerät
report-code-status = Status
report-code-here = Hier
report-code-unjudged = Von den Aufzeichnungen weder gestützt noch widerlegt.
code-status-active = gerade vorhanden
code-status-pending = vorläufig
code-status-confirmed = bestätigt
code-status-permanent = dauerhaft
code-status-history = früher, jetzt nicht
code-status-not-tested = seit dem Löschen nicht geprüft
code-status-none = nicht angegeben

report-cautions-note = Signalwörter nach ANSI Z535.4 und ISO 3864-2: GEFAHR führt zum Tod oder zu schweren Verletzungen, wenn sie nicht gemieden wird, WARNUNG kann dazu führen, VORSICHT kann zu leichten oder mittleren Verletzungen führen, HINWEIS betrifft Sachen.
report-source-shop = aus dem eigenen Blatt der Werkstatt
report-cautions = Sicherheit für die, die die Arbeit tun
report-repair = Die Reparatur, und wie sie belegt wird
report-steps = Schritte
report-proof = Beleg

report-estimate = Kosten
report-estimate-note = Nur Arbeit; Teile und Material nennt die Werkstatt.
report-work = Arbeit
report-hours = Stunden
report-rate = Satz
report-amount = Betrag
report-line-state = Stand
line-offered = angeboten
line-declined = abgelehnt
line-authorised = freigegeben
line-done = erledigt
line-billed = erledigt und berechnet
report-estimate-example = Die Stunden stammen aus dem eingebauten Beispielverzeichnis, das erfunden ist: Sie sind keine Arbeitszeitvorgabe.
report-total-net = Netto
report-total-tax = Steuer
report-total-authorised = Summe freigegeben
report-total-estimate = Summe Voranschlag
report-total-done = Summe erledigt

report-authorise-teardown = Freigabe zum Öffnen des Getriebes
report-authorise-repair = Freigabe der Reparatur
report-auth-why = Was geöffnet wird, und warum
report-auth-what = Was getan wird
report-auth-price-opening = Preis des Öffnens
report-auth-price-closing = Preis des Zusammenbaus
report-auth-price-both = Öffnen und Zusammenbau, mit Steuer
report-auth-price-total = Ganzer Voranschlag
report-auth-destroyed = Teile, die das Öffnen verbraucht
report-auth-undo = Lässt es sich rückgängig machen
report-auth-undo-text = Das Getriebe lässt sich wieder zusammenbauen, aber nicht immer in seinen früheren Zustand: Ein defektes Teil arbeitet vielleicht nicht wieder, wenn es einmal bewegt wurde.
report-auth-time = Längste Zeit bis zum Zusammenbau
report-auth-storage = Verwahrung des geöffneten Fahrzeugs
report-auth-limit-percent = { $amount } (Voranschlag und { $percent } %)
report-auth-how = Wie freigegeben wird
report-auth-how-signed = hier unterschrieben
report-auth-how-telephone = telefonisch
report-auth-how-message = per E-Mail oder Nachricht
report-auth-legal-source = Von der Werkstatt gestellt. Quelle: { $source }; Stand { $day }.
report-auth-decline = Wenn Sie ablehnen
report-auth-decline-text = Das Getriebe bleibt geschlossen und das Fahrzeug, wie es ist. Der Fehler bleibt; die Befunde dieses Berichts können Sie anderswohin mitnehmen.
report-auth-decline-repair-text = Das Fahrzeug bleibt, wie es ist, und der Fehler bleibt; die Befunde dieses Berichts können Sie anderswohin mitnehmen.
report-auth-limit = Nicht überschreiten, ohne zu fragen
report-auth-parts = Ersetzte Teile
report-auth-parts-return = an mich zurück
report-auth-parts-keep = dürfen entsorgt werden
report-auth-yes = Ich gebe diese Arbeit frei
report-auth-no = Ich lehne diese Arbeit ab
report-auth-customer = Name des Kunden
report-auth-signature = Unterschrift
report-auth-date = Datum und Uhrzeit
report-auth-shop = Für die Werkstatt
report-auth-legal = Bedingungen der Werkstatt
report-auth-deferral = Dieser Bericht ist ein technischer Beleg. Die Formulare für Kostenvoranschlag und Freigabe, die das örtliche Recht verlangt, und die Arbeit zugelassener Personen, wo sie vorgeschrieben ist, gehen vor. Ein nicht unterschriebener Bericht gibt nichts frei.

report-record = Das Protokoll
report-record-files = Dateien
report-record-file = Datei
report-record-use = Verwendung
report-record-hash = SHA-256
report-file-read = gelesen
report-file-set-aside = beiseitegelegt
report-record-conditions = Bedingungen jeder Aufzeichnung
report-record-engine = Motor
report-record-selector = Wählhebel
report-record-phase = Zeitpunkt
report-record-rate = Rate
report-record-duration = Dauer
report-record-not-stated = nicht angegeben
report-stated-by = { $value } ({ $source })
phase-before = vor der Reparatur
phase-after = nach der Reparatur
engine-running = Motor läuft
engine-off = Motor aus
engine-cranking = Motor wird angelassen
selector-in = Wählhebel in { $letter }
report-record-channels = Kanäle und Kalibrierung
report-record-channel = Kanal
report-record-role = Gewertet als
report-record-how = Woher bekannt
report-record-calibration = Kalibrierung
role-by-unknown = nicht bekannt
role-by-job-file = job.toml
role-by-guess = geraten, Sicherheit { $percent } %: { $reason }
report-calibrated = Aufzeichnung × { $scale } + { $offset } ergibt { $unit }
report-calibrated-scale = Aufzeichnung × { $scale } ergibt { $unit }
report-not-calibrated = nicht kalibriert
report-record-findings = Befunde, Grenzwerte und ihre Quellen
report-record-finding = Befund
report-record-value = Wert
report-record-limit = Grenzwert
report-record-source = Quelle
grade-normal = normal
grade-abnormal = auffällig
grade-unusable = unbrauchbar
grade-unreadable = nicht lesbar
grade-not-tested = nicht geprüft
report-record-sources = Quellen der Grenzwerte
report-record-english = Meldungen des Programms und die Quellen der Grenzwerte sind auf Englisch.
report-record-findings-left = { $count ->
    [one] Ein weiterer Befund steht in case.json.
   *[other] { $count } weitere Befunde stehen in case.json.
 }
report-record-weights = Gewichte der Belege
report-record-weight = Gewicht
report-record-reason = Grund
report-record-weights-note = In Deziban. Gewichte mit der Quelle Ermessen sind Schätzungen von Fachleuten ohne Datengrundlage und werden klein gehalten.
report-record-not-run = Prüfungen, die nicht liefen
report-record-check = Prüfung
report-record-plugins = Prüfungen, die liefen
report-record-version = Version
report-record-problems = Auffälligkeiten der Dateien
report-record-place = Stelle
report-record-text = Zeichen, die nicht druckbar waren
report-record-text-note = Diese Texte enthalten Zeichen, die die Schrift des Berichts nicht hat; jedes ist als □ gedruckt.

# The technician's report.
report-tech-explanations = Jede Erklärung, und was für und gegen sie spricht
report-tech-for = Dafür
report-tech-against = Dagegen
report-tech-is-verdict = das Urteil
report-tech-ruled-out = ausgeschlossen
report-tech-explained-away = was dafür spricht, zählt für eine genauere Erklärung
report-tech-missing = nötig und nicht gesehen: { $list }
report-tech-blocked = aufgehalten durch: { $list }
report-tech-not-recorded = nicht aufgezeichnet: { $list }
report-tech-not-seen = beruht auf dem, was nicht zu sehen war
report-tech-would-change = Würde zu
report-tech-if-seen = Wenn zu sehen wäre:
report-tech-would-rule-out = die Erklärung wäre ausgeschlossen
report-tech-would-weaken = es bliebe offen
report-tech-would-make-probable = sie würde wahrscheinlich
report-tech-would-establish = sie hätte das Gewicht einer gesicherten Ursache
report-tech-effect = Wirkung
report-tech-measurements = Jede Messung
report-tech-uncertainty = Werte mit ihrer Standardunsicherheit (k = 1, JCGM 100), die auf ihre zweite Stelle gerundet ist.
report-tech-subject = Von
report-tech-time = Zeit (s)
report-tech-whole-job = Der ganze Auftrag
report-tech-methods = Wie gemessen wurde
report-tech-method-unknown = Diesem Bericht nicht bekannt; den Hersteller dieser Prüfung fragen.

# order
# Beanstandung, Ursache und Abhilfe: die drei Teile eines Werkstattauftrags, für das Abrechnungssystem.
order-heading-complaint = Beanstandung
order-heading-cause = Ursache
order-heading-correction = Abhilfe
order-complaint = Angabe des Kunden: { $text }
order-complaint-unstated = Die Beanstandung des Kunden wurde nicht aufgeschrieben.
order-complaint-codes = Fehlercodes: { $codes }.
order-cause-established = { $cause }: durch Messung erwiesen.
order-cause-probable = { $cause }: wahrscheinlich, nicht sicher genug, um danach zu handeln.
order-cause-open = Ursache noch nicht festgestellt.
order-cause-nothing = In den Aufzeichnungen kein Fehler gefunden.
order-cause-next = Als Nächstes aufzuzeichnen: { $next }
order-correction-authorised = Freigegeben: { $work }.
order-correction-done = Erledigt: { $work }.
order-correction-offered = Angeboten: { $work }.
order-correction-declined = Abgelehnt: { $work }.
order-correction-none = Keine Arbeit ausgeführt oder freigegeben.
order-correction-proven = Die Aufzeichnung nach der Reparatur zeigt den Fehler behoben.
order-correction-not-proven = Die Aufzeichnung nach der Reparatur beweist nicht, dass der Fehler behoben ist.
order-draft = ENTWURF für das Abrechnungssystem, aus der Diagnose erstellt. Keine ausgestellte Rechnung.
