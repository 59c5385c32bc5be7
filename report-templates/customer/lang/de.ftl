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
unit-rpm = min⁻¹

# reasons
reason-margin = Diese Ursache liegt klar vor jeder anderen.
reason-second-fault = Es gibt einen zweiten Fehler mit eigenen Belegen. Der technische Bericht nennt ihn.
reason-margin-too-small = Zwei Ursachen passen etwa gleich gut zur Aufzeichnung.
reason-weight-too-small = Die Belege reichen für Gewissheit nicht aus.
reason-required-missing = Um sicher zu sein, muss noch etwas aufgezeichnet werden.
reason-no-evidence = Die Aufzeichnung zeigt nichts, was die Ursachen unterscheidet.
reason-at-limit = Ein Wert liegt so nahe an der Grenze, dass er auf beiden Seiten liegen könnte.
reason-healthy = Alles Aufgezeichnete ist unauffällig.
reason-roles-unsure = Es ist nicht sicher, was jeder Kanal der Aufzeichnung gemessen hat.
reason-nothing-read = Keine Aufzeichnung war lesbar.
reason-repair-proven = Der Fehler vor der Reparatur ist in der Aufzeichnung danach verschwunden.
reason-repair-not-proven = Die Aufzeichnung nach der Reparatur zeigt den Fehler noch, oder sie zeigt nicht denselben Vorgang.
reason-repair-unread = Die Aufzeichnung nach der Reparatur ließ sich nicht lesen; nichts zeigt, ob der Fehler noch da ist.
next-mend-recording = Beheben, was die Dateiliste zur Aufzeichnung nach der Reparatur sagt, und den Auftrag wiederholen.
reason-check-did-not-run = Eine Prüfung, die daran etwas hätte ändern können, lief nicht.
reason-not-calibrated = Der Maßstab der Werte ist nicht bekannt. Ihre Form allein ist kein Beweis.
reason-healthy-in-part = Alles Geprüfte ist unauffällig. Nicht alles konnte geprüft werden.
reason-not-all-tested = Das Aufgezeichnete ist unauffällig. Es prüft aber nicht alles, was geprüft sein muss.
reason-suspect-not-tested = Etwas deutet auf ein Bauteil hin, das keine Aufzeichnung geprüft hat.
reason-unit-unknown = Das in job.toml genannte Aggregat ist nicht bekannt; es gibt keine Grenzwerte dafür.
reason-time-unknown = Die Zeiteinheit einer Aufzeichnung ist nicht bekannt; in ihr wurde nichts gemessen.
reason-no-system = Nichts in den Aufzeichnungen verrät, welches System untersucht werden soll.
reason-explained-elsewhere = Ein Fehler, der an anderer Stelle des Fahrzeugs gefunden wurde, erklärt es ebenso; er wird zuerst behoben.

# next
# Schritte, um die das Programm bei jedem System bittet.

next-run-checks-again = Den Auftrag noch einmal durchführen, damit die ausgefallenen Prüfungen laufen; der technische Bericht nennt sie.
next-run-checks-again-plain = Die ausgefallenen Prüfungen nachholen.
next-state-time-unit = Die Zeiteinheit der Aufzeichnung in job.toml schreiben (time_unit = "ms", "s" oder eine andere).
next-state-time-unit-plain = Die Angaben zu den Aufzeichnungen ergänzen.
next-state-systems = In job.toml schreiben, was untersucht werden soll ([vehicle] systems), oder was jeder Kanal gemessen hat.
next-state-systems-plain = Die Angaben zu den Aufzeichnungen ergänzen.
next-state-unit = Den Namen des Aggregats in job.toml berichtigen; die Meldung dazu nennt die bekannten.
next-state-unit-plain = Die Angaben zu den Aufzeichnungen ergänzen.

# why
# Warum eine Ursache nicht geprüft wurde.

why-check-did-not-run = die Prüfung lief nicht
why-not-recorded = nicht aufgezeichnet
why-recording-not-fit = die Aufzeichnung eignet sich nicht dafür
why-not-readable = das Signal ließ sich nicht lesen
why-not-shown-in-any-recording = keine Aufzeichnung hätte es zeigen können

next-record-again = Dieselbe Aufzeichnung noch einmal machen und vorher jeden Tastkopf prüfen.
next-state-channels = In job.toml eintragen, was jeder Kanal gemessen hat; eine ausgefüllte Datei liegt bei diesem Bericht.
next-state-channels-plain = Die Angaben zu den Aufzeichnungen ergänzen.

# cautions
source-practice = übliche Praxis, ohne veröffentlichte Quelle

signal-word-danger = GEFAHR
signal-word-warning = WARNUNG
signal-word-caution = VORSICHT
signal-word-notice = HINWEIS
driver-ask = Fragen Sie die Werkstatt, bevor Sie fahren oder den Motor laufen lassen.
    .word = CAUTION
    .title = Vor der Fahrt
    .source = { source-practice }

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
report-review-covers = Die Prüfung umfasst Befund, Bilder und Preise dieser Fassung.
report-review-lost = { $name } hat am { $time } eine frühere Fassung geprüft. Seither hat sich der Bericht geändert; jene Prüfung gilt nicht mehr.
report-examined-by = Untersucht von
report-date = Datum
report-job = Auftrag
report-workshop = Werkstatt
report-vehicle = Fahrzeug
report-vin = FIN
report-owner = Halter
report-client = Auftraggeber
report-plate = Kennzeichen
report-odometer = Kilometerstand
report-complaint = Beanstandung
report-registration = Registrierung
report-no-shop = Name der Werkstatt
report-cut-short = (vollständig im technischen Bericht)
report-notes = Beanstandung im Wortlaut

state-established = Festgestellt
state-probable = Wahrscheinlich
state-open = Nicht entschieden
state-nothing-found = Kein Fehler gefunden
state-nothing-found-in-part = Kein Fehler im Geprüften
state-mended = Reparatur bestätigt
state-not-mended = Reparatur nicht bestätigt

report-answer = Was defekt ist
report-answer-finding = Ergebnis
line-begun = in Arbeit
report-answer-repair = Was die Reparatur bewirkt hat
report-answer-open = Die Aufzeichnungen zeigen noch nicht, was defekt ist
report-answer-open-plain = Mehr als eine Ursache ist noch möglich. Jetzt etwas zu öffnen oder zu tauschen, wäre reines Raten. Die Schritte unten bringen die Entscheidung.
report-answer-nothing = Die Aufzeichnungen zeigen keinen Fehler
report-answer-nothing-plain = Alles Gemessene arbeitete, wie es soll. Ein Fehler, der dabei nicht auftrat, ist nicht zu sehen.
report-answer-nothing-in-part = Kein Fehler in dem, was geprüft wurde
report-answer-nothing-in-part-plain = Was geprüft wurde, arbeitete, wie es soll. Nicht alles konnte geprüft werden. Die Schritte unten prüfen den Rest.
report-answer-mended = Die Reparatur hat gewirkt
report-answer-mended-plain = Was vor der Reparatur falsch war, ist jetzt, wie es sein soll.
report-answer-not-mended = Die Reparatur ist nicht bestätigt
report-answer-not-mended-plain = Die Aufzeichnung nach der Reparatur zeigt nicht, dass der Fehler verschwunden ist.
report-probable-plain = Das ist die wahrscheinliche Ursache, aber noch nicht sicher. Nichts sollte geöffnet oder getauscht werden, bevor die Schritte unten Gewissheit schaffen.
report-driver = Für den Fahrer
report-sure-established = Wie sicher: sehr. Die Aufzeichnungen passen zu dieser Ursache und zu keiner anderen, die geprüft wurde.
report-sure-probable = Wie sicher: wahrscheinlich, nicht gewiss.

report-how-sure-line = { $words } Belege: { $db } Deziban, { $margin } vor der nächsten Ursache.
report-how-sure-line-alone = { $words } Belege: { $db } Deziban, keine andere Ursache erklärt dieselben Befunde.
report-scale = Ein Deziban misst, wie viel die Belege wiegen: Je 10 machen die Befunde mit dieser Ursache zehnmal wahrscheinlicher als ohne sie. Wörter nach Kass und Raftery (1995): unter 3 zu 1 kaum der Rede wert, ab 3 zu 1 positiv, ab 20 zu 1 stark, ab 150 zu 1 sehr stark.
report-scale-alt = Gewicht der Belege in Deziban: { $list }.
report-weight = { $db ->
    [one] { $db } Deziban
   *[other] { $db } Deziban
 }
report-scale-item = { $cause } { $db }
report-band-none = Nichts Gemessenes spricht dafür oder dagegen
report-band-against = spricht dagegen
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
report-why = Woran das zu sehen ist
report-why-open = Warum es noch nicht entschieden ist
report-cleared-heading = Geprüft, unauffällig
report-cleared = Ausgeschlossen: { $list }.
report-untested = Noch offen: { $list }.

report-known = Was bekannt ist
report-unknown = Was nicht bekannt ist
report-unknown-causes = Noch möglich: { $list }.
report-not-because = { $cause } ({ $reason }).
report-not-tested = Nicht geprüft
report-also-examined = Außerdem untersucht
report-not-run = { $count ->
    [one] Eine Prüfung lief nicht. Was sie gezeigt hätte, ist nicht geprüft.
   *[other] { $count } Prüfungen liefen nicht. Was sie gezeigt hätten, ist nicht geprüft.
 }
report-record-limits = Grenzwerte
report-limits-of-unit = { $system }: Grenzwerte von { $limits }, dem genannten Aggregat.
report-limits-of-system = { $system }: kein Aggregat genannt, daher gelten die allgemeinen Grenzwerte des Systems.
report-do = Was zu tun ist
report-do-not-open = Noch nichts öffnen oder tauschen.
report-do-nothing = Es muss nichts geöffnet oder getauscht werden.
report-do-drive-again = Das Fahrzeug darf wieder gefahren werden, sobald die Werkstatt es auf der Straße erprobt hat.
report-next = Was als Nächstes aufzuzeichnen ist
report-next-more = { $count ->
    [one] Ein weiterer Schritt; siehe unten.
   *[other] { $count } weitere Schritte; siehe unten.
 }
report-clear-first = Zuerst dies beheben und neu aufzeichnen, denn es kann das Übrige erklären: { $cause }.
report-next-nothing = Kehrt die Störung wieder, dieselbe Aufzeichnung machen, während sie auftritt.
report-cost-next = Die nächste Aufzeichnung kostet { $rate } je Stunde, netto.
report-quantity = Menge
report-rate-net = Satz, netto
report-amount-net = Betrag, netto
line-held = angehalten
report-total = Summe { $state }


report-evidence = Die Bilder
report-evidence-whole = Ganze Aufzeichnung
report-evidence-speed = Drehzahlen
report-evidence-detail = Ausschnitt, { $from } s bis { $to } s
report-evidence-time = Zeit (s)
report-evidence-good = Gutbereich
report-evidence-good-curve = Gutbereich: Verlauf bei { $vehicles } gesunden Fahrzeugen, 5 bis 95 %
report-evidence-at-rest = steht
report-evidence-no-speed = keine Drehzahl { $phase }
report-evidence-alt = { $count ->
    [one] Ein Verlauf
   *[other] { $count } Verläufe übereinander,
 } aus { $file } über { $duration } s: { $rows }. { $marks }
report-evidence-alt-row = { $label } zwischen { $low } und { $high } { $unit }
report-evidence-alt-mark = Markiert von { $from } s bis { $to } s: { $label }.
report-evidence-caption-normal = Die Aufzeichnung ist unauffällig.
report-evidence-caption-compared = Links: vor der Reparatur. Rechts: danach, mit denselben Maßstäben.
report-photo-alt = Foto: { $caption }

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

report-cautions-note = Signalwörter nach ISO 3864-2 und ANSI Z535.4: GEFAHR führt zum Tod oder zu schweren Verletzungen, wenn sie nicht vermieden wird, WARNUNG kann dazu führen, VORSICHT kann zu leichten oder mittleren Verletzungen führen. HINWEIS, nur in ANSI Z535.4, betrifft Sachschäden.
report-source-shop = aus dem eigenen Blatt der Werkstatt
report-cautions = Sicherheitshinweise für die Ausführenden
report-repair = Die Reparatur Schritt für Schritt
report-steps = Die Arbeit der Reihe nach
report-decide = Sie entscheiden über jeden Schritt einzeln, auf der letzten Seite.
report-stage-diagnosis = Diagnose
report-stage-first-step = Erster Schritt, nichts wird geöffnet
report-stage-teardown = Aggregat öffnen und wieder schließen
report-stage-repair = Reparatur und Nachweis
report-proof = Nachweis

report-estimate = Preise
report-estimate-note = Nur Arbeitslohn. Teile und Material nennt die Werkstatt gesondert.
report-estimate-no-tax = Alle Preise sind netto: Die Werkstatt hat keine Steuer angegeben.
report-work = Arbeit
report-line-state = Stand
line-offered = angeboten
line-declined = abgelehnt
line-authorised = freigegeben
line-done = erledigt
line-billed = erledigt und berechnet
report-estimate-example = Die Stunden stammen aus dem eingebauten Beispielkatalog, der erfunden ist: Sie sind keine Arbeitszeitvorgabe.
report-total-net = Netto
report-total-tax = Steuer
report-total-tax-rate = Steuer { $rate } %
report-total-gross = Mit Steuer
report-sum-net = { $sum } netto
report-sum-gross = { $sum } mit Steuer
report-agreed = Was vereinbart und getan wurde
report-agreed-authorised = Freigegeben von { $by } am { $time }, { $how }, bis { $limit }.
report-agreed-authorised-unlimited = Freigegeben von { $by } am { $time }, { $how }.
report-agreed-declined = Abgelehnt von { $by } am { $time }, { $how }.
report-agreed-done = Erledigt von { $by }, eingetragen am { $time }.
report-agreed-done-plain = Erledigt.
report-agreed-note = Anmerkung: { $note }
consent-signed = schriftlich
consent-telephone = telefonisch
consent-message = per Nachricht
consent-screen = am Bildschirm
report-hold-beyond-limit = Angehalten: Damit kommt die Arbeit auf { $needed }, freigegeben sind { $limit }.
report-hold-not-authorised = Angehalten: erledigt, aber nicht freigegeben.
report-hold-number-taken = Angehalten: Ein anderer Auftrag hat dieselbe Nummer ({ $jobs }).
report-declined-open = Das Aggregat ist geöffnet. Es wird so wieder geschlossen oder bleibt offen, bis Sie entscheiden.
report-authorise = Freigabe

report-auth-why = Was geöffnet wird, und warum
report-auth-destroyed = Teile, die beim Öffnen verbraucht werden
report-auth-undo = Lässt es sich rückgängig machen?
report-auth-undo-text = Das Aggregat lässt sich wieder schließen, aber nicht immer wie zuvor: Ein defektes Teil arbeitet vielleicht nicht mehr, wenn es einmal bewegt wurde.
report-auth-time = Längste Zeit bis zum Zusammenbau
report-auth-storage = Verwahrung des geöffneten Fahrzeugs
report-auth-limit-percent = { $amount } (Kostenvoranschlag und { $percent } %)
report-auth-how = Wie freigegeben wird
report-auth-how-signed = hier unterschrieben
report-auth-how-telephone = telefonisch
report-auth-how-message = per E-Mail oder Nachricht
report-auth-legal-source = Von der Werkstatt gestellt. Quelle: { $source }; Stand { $day }.
report-auth-decline = Wenn Sie ablehnen
report-auth-decline-text = Das Fahrzeug bleibt, wie es ist, und der Fehler besteht weiter. Mit den Befunden dieses Berichts können Sie sich anderswohin wenden.
report-auth-limit = Höchstens
report-auth-parts = Ersetzte Teile
report-auth-parts-return = an mich zurück
report-auth-parts-keep = dürfen entsorgt werden
report-auth-yes = Ich gebe das frei
report-auth-no = Ich lehne das ab
report-auth-customer = Name des Halters
report-auth-signature = Unterschrift
report-auth-date = Datum und Uhrzeit
report-auth-shop = Für die Werkstatt
report-auth-legal = Bedingungen der Werkstatt
report-auth-deferral = Dieser Bericht ist ein technischer Beleg. Die Formulare für Kostenvoranschlag und Freigabe, die das örtliche Recht verlangt, gehen vor, ebenso die Arbeit zugelassener Personen, wo sie vorgeschrieben ist. Ein nicht unterschriebener Bericht gibt nichts frei.

report-record = Das Protokoll
report-record-files = Dateien
report-record-file = Datei
report-record-use = Verwendung
report-record-hash = SHA-256
report-file-read = gelesen
report-file-set-aside = nicht verwendet
report-record-conditions = Bedingungen jeder Aufzeichnung
report-record-engine = Motor
report-record-selector = Wählhebel
report-record-phase = Zeitpunkt
report-record-rate = Abtastrate
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
role-by-guess = erkannt mit einer Sicherheit von { $percent } %: { $reason }
report-calibrated = Aufzeichnung × { $scale } + { $offset } ergibt { $unit }
report-calibrated-scale = Aufzeichnung × { $scale } ergibt { $unit }
report-not-calibrated = nicht kalibriert
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
report-record-reason = Grund
report-record-weights-note = In Deziban. Gewichte mit der Quelle Ermessen sind Schätzungen von Fachleuten ohne Datengrundlage und werden klein gehalten.
report-record-not-run = Prüfungen, die nicht liefen
report-record-check = Prüfung
report-record-plugins = Prüfungen, die liefen
report-record-version = Version
report-record-problems = Besonderheiten der Dateien
report-record-place = Stelle
report-record-text = Zeichen, die nicht druckbar waren
report-record-text-note = Diese Texte enthalten Zeichen, die die Schrift des Berichts nicht hat; jedes ist als □ gedruckt.

# The technician's report.
report-tech-explanations = Jede Ursache, und was für und gegen sie spricht
report-tech-for = Dafür
report-tech-against = Dagegen
report-tech-is-verdict = das Urteil
report-tech-ruled-out = ausgeschlossen
report-tech-explained-away = was dafür spricht, zählt für eine genauere Ursache
report-tech-missing = nötig und nicht gesehen: { $list }
report-tech-blocked = zurückgehalten durch: { $list }
report-tech-not-recorded = nicht aufgezeichnet: { $list }
report-tech-not-seen = beruht auf dem, was nicht zu sehen war
report-tech-would-change = Ergäbe
report-tech-if-seen = Wenn zu sehen wäre:
report-tech-would-rule-out = die Ursache wäre ausgeschlossen
report-tech-group = { $count }-mal, alle im Bereich { $range }
report-tech-would-weaken = sie bliebe offen
report-tech-would-make-probable = sie würde wahrscheinlich
report-tech-would-establish = sie hätte das Gewicht einer festgestellten Ursache
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
order-correction-proven = Die Aufzeichnung nach der Reparatur zeigt, dass der Fehler behoben ist.
order-correction-not-proven = Die Aufzeichnung nach der Reparatur zeigt nicht, dass der Fehler behoben ist.
order-draft = ENTWURF für das Abrechnungssystem, aus der Diagnose erstellt. Keine ausgestellte Rechnung.
