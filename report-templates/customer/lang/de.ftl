### Alle Sätze der Berichte auf Deutsch (Fluent-Syntax, projectfluent.org).
### Übersetzung von en.ftl: Schlüssel, Argumente und die Attribute `.word` bleiben, wie sie dort sind.

# findings

finding-generic = { $kind-name } ({ $subject-name }): { $value }{ $limit }.
finding-generic-plain = { $kind-name } ({ $subject-name }).
finding-generic-limit = , erwartet { $range }
finding-generic-range-between = { $low } bis { $high }
finding-generic-range-above = mindestens { $low }
finding-generic-range-below = höchstens { $high }

# Actuator current
actuation-clutch = Kupplungsbetätigung: { NUMBER($value, maximumFractionDigits: 1) } A in der Spitze, vorbei nach { NUMBER($duration_s, maximumFractionDigits: 2) } s.
actuation-small = Kleine Betätigung: { NUMBER($value, maximumFractionDigits: 1) } A in der Spitze, vorbei nach { NUMBER($duration_s, maximumFractionDigits: 2) } s, so groß wie die eines Schaltmotors.
actuation-unscaled = Betätigung, vorbei nach { NUMBER($duration_s, maximumFractionDigits: 2) } s (der Maßstab der Stromzange ist nicht bekannt, daher keine Ampere).
actuation-stall = Blockierter Versuch: Der Strom steigt auf { NUMBER($value, maximumFractionDigits: 1) } A und bleibt { NUMBER($hold_s, maximumFractionDigits: 2) } s nahe der Spitze; was er antreibt, bewegt sich nicht.
actuation-stall-unscaled = Blockierter Versuch: Der Strom bleibt { NUMBER($hold_s, maximumFractionDigits: 2) } s nahe der Spitze (der Maßstab der Stromzange ist nicht bekannt, daher keine Ampere).
actuation-absent = Das Steuergerät erwacht bei { NUMBER($woke_s, maximumFractionDigits: 1) } s und arbeitet, aber in den folgenden { NUMBER($listened_s, maximumFractionDigits: 0) } s nimmt kein Kupplungssteller seinen Strom auf.
actuation-absent-unwatched = Kein Kupplungssteller nimmt seinen Strom auf; der Beginn des Versuchs wurde nicht aufgezeichnet, das Steuergerät hat es also vielleicht gar nicht versucht.
actuation-absent-own-line = { $subject-name }: nichts zu sehen, während der andere Kupplungssteller arbeitet; vielleicht wollte das Steuergerät es so.
attempts = { $value ->
    [one] Ein Versuch endet in einer Blockade.
   *[other] { $value } Versuche enden in einer Blockade.
 }
gave-up = Nach der letzten Blockade, bei { NUMBER($end_s, maximumFractionDigits: 1) } s, versucht es das Steuergerät nicht mehr.

# Shaft motion
turning-at-rest = { $subject-name } dreht sich { NUMBER($steady_s, maximumFractionDigits: 1) } s lang gleichmäßig, bei laufendem Motor, Wählhebel in P oder N und ohne betätigte Kupplung: Ihre Kupplung trennt nicht.
turning-drives = { $subject-name } dreht sich; in einer Fahrstellung des Wählhebels darf sie das.
turning-vehicle-moves = { $subject-name } dreht sich, während das Fahrzeug fährt, wie es sein soll.
turning-engine-off = { $subject-name } dreht sich bei stehendem Motor: Sie wird von den Rädern gedreht, keine Kupplung kann sie antreiben.
turning-commanded = { $subject-name } dreht sich nach einer Kupplungsbetätigung, wie es sein soll.
turning-coasting = { $subject-name } dreht sich einen Augenblick lang, ohne ihre Drehzahl zu halten: Sie wird mitgenommen und läuft aus.
turning-slow = { $subject-name } dreht sich langsam; das kann der Widerstand von Öl und Lagern bewirken.
turning-conditions-unknown = { $subject-name } dreht sich, aber es ist nicht bekannt, ob der Motor lief und wo der Wählhebel stand: Drehen allein beweist nichts.
turning-command-unknown = { $subject-name } dreht sich bei Wählhebel in P oder N; ohne den Versorgungsstrom ist nicht zu sagen, ob eine Kupplung absichtlich betätigt war.
turning-output = { $subject-name } dreht sich: Das Fahrzeug bewegt sich.
shaft-speed = { $subject-name } dreht sich mit { NUMBER($value, maximumFractionDigits: 0) } 1/min (Median).
shaft-at-rest = { $subject-name } steht während der ganzen Aufzeichnung still.
shaft-at-rest-engine-off = { $subject-name } steht still; der Motor war aus, eine schleifende Kupplung hätte sie also nicht drehen können.
shaft-at-rest-engine-unknown = { $subject-name } steht still; es ist nicht bekannt, ob der Motor lief, eine schleifende Kupplung ist damit also nicht ausgeschlossen.
shaft-at-rest-vr = { $subject-name } gibt keine Impulse. Ein induktiver Sensor schweigt im Stillstand und auch bei sehr kleiner Drehzahl.
shaft-at-rest-creep = { $subject-name } dreht sich nicht; einzelne Zahnflanken zeigen, dass sie kriecht oder dass ein Zahn vor dem Sensor steht.
rotation-refused-undersampled = { $subject-name }: Die Impulse gelten nicht als Drehzahl: nur { $detail } Abtastwerte je Zahn, jede Drehzahl könnte falsch sein.
rotation-refused-dithering = { $subject-name }: Die Impulse gelten nicht als Drehung: Sie streuen von einem zum nächsten um { $detail } %, wie eine Zahnflanke, die vor dem Sensor zittert.
rotation-refused-small-swing = { $subject-name }: Die Impulse gelten nicht als Drehung: Sie schwingen nur um { $detail } V, zu wenig für das Signal des Sensors.
rotation-refused-spikes = { $subject-name }: Die Impulse gelten nicht als Drehung: Es sind Nadeln von { $detail } % der Periode, keine Zähne.
rotation-refused-too-regular = { $subject-name }: Die Impulse gelten nicht als Drehung: Ihr Takt schwankt nur um { $detail } %, gleichmäßiger als jeder Motor; eine elektrische Quelle ist wahrscheinlicher.
rotation-refused-copy = { $subject-name }: Die Impulse gelten nicht als Drehung: Sie sind ein kleines Abbild eines anderen Kanals ({ $detail }).

# Supply
supply-sag = Bei der stärksten Betätigung fällt die Versorgung um { NUMBER($value, maximumFractionDigits: 2) } V auf { NUMBER($extreme_v, maximumFractionDigits: 1) } V.
ground-drop = Bei der stärksten Betätigung steigt die Masse um { NUMBER($value, maximumFractionDigits: 2) } V.
feed-resistance = Widerstand des Strompfads ({ $subject-name }): { NUMBER($milliohm, maximumFractionDigits: 1) } Milliohm, aus dem Gang der Spannung mit dem Strom über { NUMBER($swing_a, maximumFractionDigits: 0) } A.
fuse-duty = In ihrer härtesten Sekunde führt die Zuleitung { NUMBER($rms_a, maximumFractionDigits: 0) } A effektiv, { NUMBER($value, maximumFractionDigits: 0) } % des Nennwerts der Sicherung.

# Gear train
gear-ratio = { $subject-name } dreht sich { NUMBER($value, maximumFractionDigits: 3) } Mal je Umdrehung der Ausgangswelle.
gear-ratio-named = { $subject-name } dreht sich { NUMBER($value, maximumFractionDigits: 3) } Mal je Umdrehung der Ausgangswelle: Gang { $gear }.
shift = Gangwechsel in { NUMBER($duration_s, maximumFractionDigits: 2) } s.
slip = Bei gehaltenem Gang dreht der Motor { NUMBER($value, maximumFractionDigits: 0) } 1/min ({ NUMBER($percent, maximumFractionDigits: 0) } %) schneller als die Welle, die ihre Kupplung mit ihm verbinden soll ({ $subject-name }).
slip-none = Bei gehaltenem Gang drehen Motor und Welle gleich schnell ({ $subject-name }, auf { NUMBER($value, maximumFractionDigits: 0) } 1/min).
double-engagement = Der Abtrieb wird innerhalb von { NUMBER($duration_s, maximumFractionDigits: 2) } s um { NUMBER($value, maximumFractionDigits: 0) } % langsamer, vom Schließen der einen Kupplung bis zum Öffnen der anderen: Beide übertragen zugleich.

# Sensor health
sensor-dead = Der Sensor zeigt nichts, während der Motor das Fahrzeug über diese Welle antreibt ({ $subject-name }).
sensor-silent = Der Sensor zeigt überhaupt nichts, während das Fahrzeug fährt und schaltet, was abwechselnd über beide Wellen geht ({ $subject-name }).
sensor-dropouts = Der Sensor ({ $subject-name }) setzt { $value }-mal aus (zusammen { NUMBER($lost_s, maximumFractionDigits: 1) } s) und fährt mit gleicher Drehzahl fort: Die Welle drehte weiter, das Signal nicht.

# Signal quality
quality-too-short = Die Aufzeichnung ist nur { NUMBER($value, maximumFractionDigits: 2) } s lang.
quality-missing = { $subject-name }: { NUMBER($value, maximumFractionDigits: 0) } % der Werte fehlen.
quality-clipped = { $subject-name }: läuft gegen das Ende des Messbereichs, die Spitzen sind abgeschnitten.
quality-reversed = { $subject-name }: zeigt nach unten, die Stromzange war verkehrt herum angelegt.
quality-offset = { $subject-name }: ruht bei { NUMBER($value, maximumFractionDigits: 1) } A; die Stromzange war nicht auf null gestellt, oder etwas anderes nimmt Strom auf.
quality-undersampled = { $subject-name }: zu langsam abgetastet, { NUMBER($value, maximumFractionDigits: 1) } Werte je Zahn.
quality-could-alias = { $subject-name }: zu langsam abgetastet, um eine falsche Drehzahl auszuschließen; bei Leerlaufdrehzahl hätte ein Zahn { NUMBER($value, maximumFractionDigits: 1) } Werte.
quality-doubled-edges = { $subject-name }: Das Signal hat { $value } doppelte Flanken. Sie wurden ausgelassen; der Drehzahl ist erst nach einem Blick auf das Signal zu trauen.
quality-folded = { $subject-name }: Das Signal geht über den Bereich des Rekorders hinaus und kommt am anderen Ende wieder heraus ({ $value } Werte, als Überlauf gewertet): mit größerem Bereich aufzeichnen, bevor man der Form traut.
quality-teeth-unknown = { $subject-name }: Die Zähnezahl ist nicht bekannt, die Impulse ergeben daher keine Drehzahl.
scale-unknown = { $subject-name }: Der Maßstab der Stromzange ist nicht bekannt, die Werte sind daher keine Ampere.
engine-contradicted = Was über den Motor geschrieben wurde, passt nicht zur Aufzeichnung.

# Codes
code-supported = Der Fehlercode { $code } passt zu dem, was gemessen wurde.
code-contradicted = Der Fehlercode { $code } wird als vorhanden gemeldet; was er behauptet, wurde aber gemessen und ist in Ordnung.
code-not-tested = Der Fehlercode { $code } wurde von der Aufzeichnung weder bestätigt noch widerlegt.
code-history = Der Fehlercode { $code } ist ein alter Eintrag; er sagt nichts über die heutigen Messungen.
code-not-known = Was der Fehlercode { $code } behauptet, kann an dieser Aufzeichnung nicht geprüft werden.

# Kinds of observation
kind-actuation = Stellbewegung
kind-actuation-stall = Steller gegen Anschlag getrieben
kind-actuation-absent = Ausgebliebene Stellbewegung
kind-attempts = Anzahl der Lernversuche
kind-gave-up = Lernen vom Steuergerät abgebrochen
kind-shaft-turning = Welle dreht sich
kind-shaft-at-rest = Welle in Ruhe
kind-shaft-turning-at-rest = Welle dreht sich, wo sie stehen muss
kind-shaft-speed = Drehzahl der Welle
kind-gear-ratio = Übersetzung
kind-slip = Kupplungsschlupf
kind-shift = Gangwechsel
kind-supply-sag = Versorgungsspannung unter Last
kind-feed-resistance = Widerstand der Zuleitung
kind-fuse-duty = Belastung der Sicherung
kind-sensor-fault = Signal des Drehzahlsensors
kind-signal-quality = Güte der Aufzeichnung
kind-ground-drop = Massespannung unter Last
kind-rotation-refused = Impulse, die keine Drehung sind
kind-double-engagement = Zwei Gänge zugleich
kind-scale-unknown = Stromzange ohne bekannten Maßstab
kind-condition-contradicted = Angabe, der die Aufzeichnung widerspricht
kind-code-not-tested = Fehlercode, den die Aufzeichnung nicht prüft
kind-code-contradicted = Fehlercode, dem die Aufzeichnung widerspricht
kind-code-supported = Fehlercode, den die Aufzeichnung stützt

# Marks in a picture
mark-actuation = Betätigung
mark-actuation-stall = gegen Anschlag getrieben
mark-actuation-absent = kein Strom
mark-gave-up = Lernen abgebrochen
mark-shaft-turning = dreht sich
mark-shaft-at-rest = in Ruhe
mark-shaft-turning-at-rest = dreht sich, muss stehen
mark-shaft-speed = dreht sich
mark-slip = rutscht
mark-shift = Gangwechsel
mark-supply-sag = Spannung bricht ein
mark-sensor-fault = Sensorsignal gestört
mark-ground-drop = Masse steigt
mark-rotation-refused = keine Drehung
mark-double-engagement = zwei Gänge zugleich
mark-signal-quality = Aufzeichnung unbrauchbar

# Subjects
subject-supply-current = Versorgungsstrom des Getriebes
subject-supply-voltage = Versorgungsspannung des Getriebes
subject-ground-voltage = Spannungsabfall der Masse
subject-input-shaft-1 = Eingangswelle 1
subject-input-shaft-2 = Eingangswelle 2
subject-output-shaft = Ausgangswelle
subject-engine-speed = Motordrehzahl
subject-actuator-current-1 = Strom des Stellers von Kupplung 1
subject-actuator-current-2 = Strom des Stellers von Kupplung 2
subject-gear-motor-current-1 = Strom des Schaltmotors 1
subject-gear-motor-current-2 = Strom des Schaltmotors 2
subject-selector = Wählhebelstellung
subject-other = anderer Kanal
subject-whole = ganze Aufzeichnung

# units

unit-rpm = 1/min

# causes

cause-clutch-1-drag = Kupplung 1 trennt nicht
cause-clutch-1-drag-plain = Kupplung 1 treibt ihre Welle im Getriebe weiter an, obwohl sie offen sein sollte. Das Getriebe kann nicht lernen, wo die Kupplung zu greifen beginnt, und es kann das Fahrzeug ziehen, wenn es das nicht soll.
cause-clutch-1-drag-ruled-out = Eine schleifende Kupplung 1

cause-clutch-2-drag = Kupplung 2 trennt nicht
cause-clutch-2-drag-plain = Kupplung 2 treibt ihre Welle im Getriebe weiter an, obwohl sie offen sein sollte. Das Getriebe kann nicht lernen, wo die Kupplung zu greifen beginnt, und es kann das Fahrzeug ziehen, wenn es das nicht soll.
cause-clutch-2-drag-ruled-out = Eine schleifende Kupplung 2

cause-clutch-1-slip = Kupplung 1 rutscht
cause-clutch-1-slip-plain = Kupplung 1 hält das Drehmoment des Motors nicht: Der Motor dreht schneller als die Welle, die die Kupplung mit ihm verbinden soll.
cause-clutch-1-slip-ruled-out = Eine rutschende Kupplung 1

cause-clutch-2-slip = Kupplung 2 rutscht
cause-clutch-2-slip-plain = Kupplung 2 hält das Drehmoment des Motors nicht: Der Motor dreht schneller als die Welle, die die Kupplung mit ihm verbinden soll.
cause-clutch-2-slip-ruled-out = Eine rutschende Kupplung 2

cause-clutch-actuator-jam = Ein Kupplungssteller klemmt
cause-clutch-actuator-jam-plain = Einer der beiden Motoren, die die Kupplungen betätigen, wird stark angetrieben und kann seine Kupplung nicht bewegen.
cause-clutch-actuator-jam-ruled-out = Ein klemmender Kupplungssteller

cause-clutch-actuator-1-jam = Der Steller von Kupplung 1 klemmt
cause-clutch-actuator-1-jam-plain = Der Motor, der Kupplung 1 betätigt, wird stark angetrieben und kann sich nicht bewegen: Sein Strom steigt und bleibt hoch.
cause-clutch-actuator-1-jam-ruled-out = Ein klemmender Steller von Kupplung 1

cause-clutch-actuator-2-jam = Der Steller von Kupplung 2 klemmt
cause-clutch-actuator-2-jam-plain = Der Motor, der Kupplung 2 betätigt, wird stark angetrieben und kann sich nicht bewegen: Sein Strom steigt und bleibt hoch.
cause-clutch-actuator-2-jam-ruled-out = Ein klemmender Steller von Kupplung 2

cause-gear-actuator-jam = Ein Gangsteller klemmt
cause-gear-actuator-jam-plain = Ein Motor, der die Gänge schaltet, wird stark angetrieben und kann sich nicht bewegen: Sein Strom steigt und bleibt hoch.
cause-gear-actuator-jam-ruled-out = Ein klemmender Gangsteller

cause-actuation-jam = Ein Mechanismus im Getriebe klemmt
cause-actuation-jam-plain = Das Getriebe treibt einen seiner Motoren stark an, und das Teil kann sich nicht bewegen. An der gemeinsamen Zuleitung gemessen verrät der Strom nicht, welcher Motor es ist.
cause-actuation-jam-ruled-out = Ein klemmender Mechanismus

cause-actuator-open-circuit = Ein Steller ist nicht angeschlossen
cause-actuator-open-circuit-plain = Das Steuergerät versucht, einen Steller zu bewegen, und es fließt kein Strom: Leitung, Stecker oder Motor sind unterbrochen.
cause-actuator-open-circuit-ruled-out = Ein nicht angeschlossener Steller

cause-supply-weak = Die Stromversorgung des Getriebes ist schwach
cause-supply-weak-plain = Die Spannung am Getriebe fällt zu weit, wenn es Strom aufnimmt; seine Motoren bekommen nicht die Leistung, die sie brauchen. Das Getriebe selbst kann in Ordnung sein.
cause-supply-weak-ruled-out = Eine schwache Stromversorgung

cause-shaft-sensor-1-fault = Der Drehzahlsensor von Eingangswelle 1 ist defekt
cause-shaft-sensor-1-fault-plain = Das Signal des Drehzahlsensors kann weder von einer drehenden noch von einer ruhenden Welle stammen: Sensor, Stecker oder Leitung sind schuld.
cause-shaft-sensor-1-fault-ruled-out = Ein defekter Drehzahlsensor von Eingangswelle 1

cause-shaft-sensor-2-fault = Der Drehzahlsensor von Eingangswelle 2 ist defekt
cause-shaft-sensor-2-fault-plain = Das Signal des Drehzahlsensors kann weder von einer drehenden noch von einer ruhenden Welle stammen: Sensor, Stecker oder Leitung sind schuld.
cause-shaft-sensor-2-fault-ruled-out = Ein defekter Drehzahlsensor von Eingangswelle 2

cause-double-engagement = Zwei Gänge sind zugleich eingelegt
cause-double-engagement-plain = Beide Wellen des Getriebes sind zugleich mit den Rädern verbunden, was nie sein darf.
cause-double-engagement-ruled-out = Zwei Gänge zugleich

cause-relearn-not-completed = Der Lernvorgang wurde nicht abgeschlossen
cause-relearn-not-completed-plain = Die Teile bewegen sich, wie sie sollen, aber das Steuergerät hat den Lernvorgang vor seinem Ende beendet. Nichts in der Aufzeichnung spricht dafür, das Getriebe zu öffnen.
cause-relearn-not-completed-ruled-out = Ein Lernvorgang, der nur nicht zu Ende kam

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
reason-too-short = Die Aufzeichnung ist zu kurz, um eine Betätigung mit der Ruhe davor und danach zu zeigen.
reason-clipped = Der Strom läuft gegen das Ende des Messbereichs; seine wahre Höhe ist nicht bekannt.
reason-reversed = Die Stromzange war verkehrt herum angelegt.
reason-offset = Die Stromzange war vor der Aufzeichnung nicht auf null gestellt.
reason-undersampled = Ein Drehzahlsensor wurde zu langsam abgetastet; jede Drehzahl könnte falsch sein.
reason-edges = Das Signal eines Drehzahlsensors geht über den Bereich des Rekorders hinaus oder hat doppelte Flanken; auf seine Drehzahl ist kein Verlass.
reason-teeth-unknown = Das Fahrzeug bewegt sich, aber die Zähnezahl eines Geberrads ist nicht bekannt; die Drehzahlen sind nicht vergleichbar.
reason-scale-unknown = Der Maßstab der Stromzange ist nicht bekannt; die Betätigungen sind nach ihrer Größe nicht zu beurteilen.
reason-missing = Zu viele Werte der Aufzeichnung fehlen.
reason-engine-contradicted = Was über den Motor geschrieben wurde, passt nicht zur Aufzeichnung.
reason-conditions-unknown = Eine Welle dreht sich, aber Motor und Wählhebel sind nicht bekannt; Drehen allein beweist nichts.
reason-command-unknown = Eine Welle dreht sich, aber der Versorgungsstrom, der eine Kupplungsbetätigung zeigen würde, wurde nicht aufgezeichnet.

# next

next-record-own-actuator-current = Den Strom jedes Kupplungsstellers an seiner eigenen Leitung messen und denselben Vorgang noch einmal aufzeichnen.
next-record-supply-current = Den Strom durch die Sicherung des Getriebes während des ganzen Lernvorgangs aufzeichnen.
next-record-both-shafts = Die Drehzahlsensoren beider Eingangswellen zusammen mit dem Versorgungsstrom aufzeichnen.
next-record-engine-running-park = Beide Eingangswellen mindestens 30 Sekunden lang bei laufendem Motor und Wählhebel in P aufzeichnen und beides in job.toml eintragen.
next-record-whole-relearn = Den Lernvorgang von vor seinem Beginn bis nach seinem Ende aufzeichnen.
next-record-supply-voltage = Die Spannung am Stecker des Getriebes zwischen Versorgung und Masse aufzeichnen, während es seinen höchsten Strom aufnimmt.
next-record-ground-voltage = Den Spannungsabfall von der Masse des Getriebes zum Minuspol der Batterie aufzeichnen, während es seinen höchsten Strom aufnimmt.
next-record-engine-speed = Den Motordrehzahlsensor zusammen mit beiden Eingangswellen aufzeichnen.
next-record-output-shaft = Den Drehzahlsensor der Ausgangswelle zusammen mit beiden Eingangswellen aufzeichnen.
next-record-higher-rate = Mit mindestens zehn Abtastwerten je Zahn der Drehzahlsensoren noch einmal aufzeichnen.
next-record-again = Dieselbe Aufzeichnung noch einmal machen und vorher jeden Tastkopf prüfen.
next-record-longer = Mindestens zehn Sekunden aufzeichnen, von vor dem Versuch bis danach.
next-repeat-cold-and-warm = Dieselbe Aufzeichnung kalt und warm machen.
next-measure-actuator-resistance = Bei ausgeschalteter Zündung und getrenntem Stecker den Widerstand der Wicklung jedes Kupplungsstellers und seiner Leitung messen.
next-clamp-range = Stromzange und Rekorder auf einen größeren Bereich stellen (60 A oder mehr) und noch einmal aufzeichnen.
next-clamp-direction = Die Stromzange umdrehen, so dass Strom in das Getriebe positiv zeigt, und noch einmal aufzeichnen.
next-clamp-zero = Die Stromzange ohne Leitung darin und nahe am Kabel auf null stellen und noch einmal aufzeichnen.
next-record-range = Den Bereich des Rekorders für den Drehzahlsensor größer stellen und noch einmal aufzeichnen.
next-state-teeth = Die Zähnezahl jedes Geberrads in job.toml eintragen; eine ausgefüllte Datei liegt bei diesem Bericht.
next-clamp-scale = Die Ampere je Volt der Stromzange in job.toml eintragen; eine ausgefüllte Datei liegt bei diesem Bericht.
next-state-selector = Die Stellung des Wählhebels während der Aufzeichnung in job.toml eintragen.
next-state-engine = In job.toml eintragen, ob der Motor während der Aufzeichnung lief.
next-state-channels = In job.toml eintragen, was jeder Kanal gemessen hat; eine ausgefüllte Datei liegt bei diesem Bericht.
next-check-sensor-wiring = Stecker und Leitung des Drehzahlsensors prüfen, dann dieselbe Aufzeichnung noch einmal machen.

# cautions

source-practice = übliche Praxis, ohne veröffentlichte Quelle

signal-word-danger = GEFAHR
signal-word-warning = WARNUNG
signal-word-caution = VORSICHT
signal-word-notice = HINWEIS

caution-rolling = Das Fahrzeug kann ohne Vorwarnung losrollen: Eine Kupplung kann von selbst schließen, und ein Getriebe in Neutralstellung oder im ausgebauten Zustand hat keine Parksperre. Unterlegkeile setzen, Feststellbremse anziehen, angetriebene Räder nur auf Stützböcken anheben.
    .word = WARNING
    .title = Wegrollen des Fahrzeugs
    .source = { source-practice }
caution-running-engine = Abgas tötet in geschlossenen Räumen. Den Motor nur mit Abgasabsaugung oder im Freien laufen lassen.
    .word = DANGER
    .title = Abgas
    .source = Grenzwerte für Kohlenmonoxid von OSHA (50 ppm) und NIOSH (35 ppm, Spitze 200 ppm), aus dem Gedächtnis
caution-rotating-parts = Lüfter, Riemen, Wellen und Kupplungen erfassen Hände, Haare und Kabel. Messleitungen nur bei stehendem Motor anlegen oder versetzen und jede Leitung von bewegten Teilen fernhalten.
    .word = WARNING
    .title = Drehende Teile
    .source = { source-practice }
caution-actuator-movement = Steller können sich beim Erwachen des Fahrzeugs, beim Einschalten der Zündung und beim Lernen von selbst bewegen. Vor dem Griff in den Mechanismus ihre Versorgung trennen.
    .word = WARNING
    .title = Teile bewegen sich von selbst
    .source = { source-practice }
caution-spring-force = Kupplungs- und Stellerfedern behalten ihre Kraft auch im ausgebauten Zustand. Nur mit Werkzeug und Verfahren des Herstellers entspannen und einbauen.
    .word = WARNING
    .title = Federkraft
    .source = { source-practice }
caution-lifting = Ein Getriebe ist schwer und nicht ausgewogen. Das Fahrzeug auf Stützböcke stellen und das Getriebe auf einem dafür zugelassenen Heber festzurren.
    .word = WARNING
    .title = Schwere Last
    .source = { source-practice }
caution-jumper-lead = Eine Überbrückungsleitung ohne Sicherung kann Kabel und Hände verbrennen. Nicht höher absichern als den Stromkreis, den sie speist, nie eine Sicherung überbrücken, nie den Ausgang eines Steuergeräts speisen.
    .word = WARNING
    .title = Überbrückungsleitungen
    .source = { source-practice }
caution-high-voltage = Orangefarbene Kabel führen eine tödliche Spannung. Nur geschulte und befugte Personen dürfen ein solches Fahrzeug freischalten und daran arbeiten.
    .word = DANGER
    .title = Hochspannung
    .source = ISO 6469-3, Spannungsklasse B (über 60 V Gleich- oder 30 V Wechselspannung), aus dem Gedächtnis
caution-high-voltage-unknown = Niemand hat angegeben, ob dieses Fahrzeug ein Hochvoltsystem hat. Zuerst nach orangefarbenen Kabeln sehen: Sie führen eine tödliche Spannung, und nur geschulte und befugte Personen dürfen ein solches Fahrzeug freischalten und daran arbeiten.
    .word = DANGER
    .title = Hochspannung in Hybridfahrzeugen
    .source = ISO 6469-3, Spannungsklasse B (über 60 V Gleich- oder 30 V Wechselspannung), aus dem Gedächtnis
caution-airbag = Airbags und Gurtstraffer können auslösen. Vor Arbeiten in ihrer Nähe die Batterie abklemmen und die vom Hersteller genannte Zeit warten; nie einen Zündkreis mit einem Ohmmeter messen.
    .word = WARNING
    .title = Airbags
    .source = Verfahren der Hersteller für Rückhaltesysteme, aus dem Gedächtnis
caution-hot-parts = Eine Kupplung, die gerutscht ist, und der Auspuff verbrennen noch lange danach die Haut. Abkühlen lassen.
    .word = CAUTION
    .title = Heiße Teile
    .source = { source-practice }
caution-clutch-dust = Kupplungsstaub schadet der Lunge und kann Asbest enthalten. Eine Umhausung mit HEPA-Sauger oder das Nassverfahren mit geringem Druck verwenden; nie trocken abbürsten oder mit Druckluft ausblasen.
    .word = WARNING
    .title = Kupplungsstaub
    .source = 29 CFR 1910.1001 Anhang F, Arbeitsweisen für Kupplungs- und Bremsenarbeiten
caution-battery = Batterien geben explosives Gas ab, enthalten Säure und liefern sehr hohe Ströme. Keine Flamme, kein Funke; die Masseseite zuerst abklemmen; die Augen schützen.
    .word = WARNING
    .title = Batterie
    .source = { source-practice }
caution-scope-ground = Die Masseleitung eines Messgeräts kann eine Versorgung kurzschließen. Isolierte oder Differenzeingänge verwenden oder vorher prüfen, ob der Punkt an Masse liegt.
    .word = CAUTION
    .title = Masse des Messgeräts
    .source = { source-practice }
caution-road-test = Wer fährt, darf keine Geräte ablesen. Für die Aufzeichnung eine zweite Person mitnehmen.
    .word = WARNING
    .title = Probefahrt
    .source = { source-practice }

# sheets

sheet-judgement = Ermessen
sheet-weak-code-source = eine schwache öffentliche Quelle für den Fehlercode; Ermessen
sheet-open-cannot-turn = eine offene Kupplung kann ihre Welle nicht sekundenlang gleichmäßig drehen
sheet-drag-would-turn = eine schleifende Kupplung hätte ihre Welle bei laufendem Motor gedreht
sheet-did-not-turn = die Welle wurde aufgezeichnet und drehte sich nicht, wo sie es nicht darf
sheet-controller-fails = das Steuergerät versuchte, die Kupplung zu bewegen, und konnte es nicht, wie bei einer Kupplung, die nicht öffnet
sheet-other-shaft-rests = unter denselben Bedingungen steht die andere Welle: Motor und Wählhebel sind, wie angegeben
sheet-sensor-may-lie = ein defekter Sensor kann zeigen, was nicht da ist
sheet-module-stuck = das Steuergerät meldet diese Kupplung als nicht öffnend
sheet-slips = bei gehaltenem Gang dreht der Motor schneller als die Welle, die die geschlossene Kupplung antreibt
sheet-turn-alike = bei gehaltenem Gang drehen Motor und Welle gleich schnell
sheet-module-slip = das Steuergerät meldet Schlupf dieser Kupplung
sheet-own-stall = dieser Steller nimmt seinen Blockierstrom auf und bewegt sich nicht
sheet-own-moved = dieser Steller bewegte sich ohne Blockade
sheet-drag-behind = seine Kupplung schleift: Der Mechanismus hinter dem Steller kann es sein, der sich nicht bewegt
sheet-gear-stall = ein Schaltmotor nimmt seinen Blockierstrom auf und bewegt sich nicht
sheet-gear-no-stall = die Schaltmotoren wurden aufgezeichnet und blockierten nicht
sheet-gear-stalled = ein Schaltmotor blockierte
sheet-module-gear = das Steuergerät meldet die Gangbetätigung
sheet-feed-stall = die Zuleitung zeigt den Blockierstrom eines Mechanismus, der sich nicht bewegen kann; eine Zange an der Zuleitung sagt nicht, welcher es ist
sheet-something-stalls = etwas an der Zuleitung nimmt seinen Blockierstrom auf und bewegt sich nicht
sheet-feed-no-stall = die Zuleitung wurde aufgezeichnet, und kein Steller blockierte
sheet-moved-freely = die Steller bewegten sich sichtbar frei
sheet-drew-nothing = das Steuergerät erwachte und arbeitete, und die Kupplungssteller nahmen nichts auf
sheet-drew-nothing-start = kein Kupplungssteller nahm Strom auf, der Beginn des Versuchs wurde aber nicht aufgezeichnet
sheet-one-draws-nothing = ein Kupplungssteller nimmt auf seiner eigenen Leitung nichts auf, während der andere arbeitet
sheet-drew-current = ein Kupplungssteller nahm seinen Strom auf
sheet-into-stall = es fließt Strom in eine Blockade
sheet-module-open = das Steuergerät hat den Stromkreis als unterbrochen gemessen
sheet-supply-loses = unter den Stellern verliert die Versorgung mehr, als ihre Leitungen sollten
sheet-supply-held = unter den Stellern hielt die Versorgung
sheet-ground-rises = unter den Stellern steigt die Masse mehr, als ihre Leitungen sollten
sheet-slope = die Steigung der Spannung über dem Strom ist der Widerstand der Zuleitung, und er ist zu hoch
sheet-module-supply = das Steuergerät meldet seine Versorgung
sheet-sensor-breaks = der Sensor schweigt oder setzt aus, während sich seine Welle drehen muss
sheet-sensor-whole = der Sensor wurde aufgezeichnet, und seine Zahnfolge hat keine Lücken
sheet-module-sensor = das Steuergerät meldet diesen Sensor
sheet-slows-hard = der Abtrieb wird vom Schließen der einen Kupplung bis zum Öffnen der anderen stark langsamer
sheet-never-slowed = die Fahrt wurde aufgezeichnet, und der Abtrieb wurde nie so langsamer
sheet-module-two-gears = das Steuergerät meldet mehr als einen eingelegten Gang
sheet-shaft-stands = eine Eingangswelle steht: Nichts wird mitgenommen
sheet-not-learned = das Steuergerät sagt, dass die Kupplungsstellung nicht gelernt wurde
sheet-fault-stops = ein Fehler wurde gemessen, der das Lernen verhindert
sheet-drag-explains = eine schleifende Kupplung erklärt den Versuch
sheet-drag-explains-stall = eine schleifende Kupplung erklärt den Versuch, der blockiert

# Shafts, wheels and wires
rotation-refused-too-quick = { $subject-name }: Die Impulse gelten nicht als Drehung: Die Drehzahl würde sich in einer Sekunde um { $detail } 1/min ändern, schneller, als es die Trägheit der Welle zulässt.
rotation-refused-current = { $subject-name }: Die Impulse gelten nicht als Drehung: Sie gehen im Takt mit einem anderen Kanal ({ $detail-name }), wie es elektrische Einstreuung tut.
wrong-gear = { $subject-name } dreht sich { NUMBER($value, maximumFractionDigits: 3) } Mal je Umdrehung der Ausgangswelle, ein Verhältnis, das keiner ihrer Gänge hat (am nächsten: Gang { $nearest }): ein anderer Radsatz oder Achsantrieb, eine falsche Zähnezahl oder vertauschte Sensoren.
sensor-contact = Der Sensor ({ $subject-name }) verliert { $value }-mal den Kontakt (zusammen { NUMBER($lost_s, maximumFractionDigits: 1) } s) und fährt mit gleicher Drehzahl fort: Ein Stecker, eine Leitung oder eine Verbindung öffnet sich.
sensor-missing-teeth = Das Geberrad ({ $subject-name }) hat { $value ->
    [one] eine Lücke
   *[other] { $value } Lücken
 }, wo Zähne hingehören, an derselben Stelle auf jeder von { $turns } Umdrehungen.
sensor-doubled-teeth = { $value ->
    [one] Ein Zahn zählt
   *[other] { $value } Zähne zählen
 } doppelt ({ $subject-name }), an derselben Stelle auf jeder von { $turns } Umdrehungen: eine Kerbe, ein Ausbruch oder Metall am Rad.
tooth-wheel-gap = Das Geberrad ({ $subject-name }) hat { $positions } Stellen, davon { $value } ohne Zahn. Viele Räder sind so gebaut; ist dieses es nicht, fehlen Zähne.
crosstalk = Die Leitung ({ $subject-name }) führt { NUMBER($share_percent, maximumFractionDigits: 0) } % des Signals einer anderen ({ $from-name }): elektrische Einstreuung, keine Drehung.
condition-engine-running = Der Motor läuft von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (Sicherheit { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-not-running = Der Motor läuft nicht von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (Sicherheit { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-cranking = Der Motor wird von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s angelassen: { condition-clue } (Sicherheit { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-unknown = Ob der Motor von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s läuft, ist nicht sicher genug: { condition-clue } (Sicherheit { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-no-drive = Der Wählhebel steht in { $selector }: Kein Gang soll treiben (Sicherheit { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-drive = Der Wählhebel steht in { $selector }, einer Fahrstellung (Sicherheit { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-drive-likely = Niemand hat gesagt, wo der Wählhebel stand; das Fahrzeug bewegt sich, eine Fahrstellung ist also wahrscheinlich (Sicherheit { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-unknown = Niemand hat gesagt, wo der Wählhebel stand, und nichts in der Aufzeichnung verrät es.
condition-commanded = { $value ->
    [0] In dieser Aufzeichnung wird keine Kupplung auf Befehl betätigt.
    [one] Eine Kupplungsbetätigung auf Befehl ist zu sehen; { NUMBER($total_s, maximumFractionDigits: 1) } s lang darf sich ihretwegen eine Welle drehen.
   *[other] { $value } Kupplungsbetätigungen auf Befehl sind zu sehen; zusammen { NUMBER($total_s, maximumFractionDigits: 1) } s lang darf sich ihretwegen eine Welle drehen.
 }
condition-commanded-unknown = Der Versorgungsstrom wurde nicht aufgezeichnet: Ob eine Kupplung auf Befehl betätigt wurde, ist nicht bekannt.
condition-clue = { $basis ->
    [stated] wie angegeben
    [engine-speed-turns] sein eigener Drehzahlsensor dreht
    [engine-speed-cranks] sein eigener Drehzahlsensor dreht mit Anlasserdrehzahl
    [engine-speed-stands] sein eigener Drehzahlsensor steht
    [starter] der Anlasser zieht die Versorgung herunter
    [starter-later] der Anlasser wird erst später betätigt
    [charged-after-start] nach dem Start wird die Versorgung geladen
    [not-charged-after-start] nach dem Start wird die Versorgung nicht geladen
    [charged] die Versorgung wird geladen, wie von einer Lichtmaschine oder einem Ladegerät
    [resting] die Versorgung ruht nur
    [ripple] die Versorgung trägt die Welligkeit einer Lichtmaschine
   *[other] nichts verrät es
 }{ $agree ->
    [0] {""}
    [one] ; ein weiteres Zeichen stimmt überein
   *[other] ; { $agree } weitere Zeichen stimmen überein
 }{ $against ->
    [0] {""}
    [one] ; eines spricht dagegen
   *[other] ; { $against } sprechen dagegen
 }
kind-wrong-gear = Verhältnis, das kein Gang hat
kind-crosstalk = Einstreuung zwischen Leitungen
kind-tooth-wheel = Geberrad
kind-condition-engine = Motor während der Aufzeichnung
kind-condition-selector = Wählhebel während der Aufzeichnung
kind-condition-commanded = Kupplungsbetätigungen auf Befehl
next-look-at-wheel = Das Geberrad durch die Bohrung des Sensors ansehen, eine ganze Umdrehung lang: ein gebrochener oder gekerbter Zahn, Metall, das daran haftet.
sheet-wheel-every-turn = ein Zahn fehlt oder zählt doppelt, an derselben Stelle auf jeder Umdrehung: das Rad, oder was daran haftet

# methods

method-actuator-current = Eine Betätigung beginnt und endet bei 15 % ihrer Spitze über dem Ruhestrom. Eine Blockade bleibt mindestens 0,4 s lang innerhalb von 70 % ihrer Spitze. Die Ladung ist das Integral des Stroms über dem Ruhestrom. Die Unsicherheit vereint Genauigkeit der Stromzange und Rauschen.
method-shaft-motion = Die Drehzahl ist der Median über die Zahnperioden, durch die Zähnezahl; ihre Unsicherheit vereint Abtastung und Streuung. Drehen gilt nur als auffällig bei laufendem Motor, Wählhebel in P oder N, ohne Kupplungsbetätigung im Versorgungsstrom, mit 2 s lang gleichmäßiger Drehzahl und einer echten Zahnfolge. Nicht als Drehung gelten: zu langsam abgetastet, zitternde Flanke, kleiner Hub, Nadeln, die Regelmäßigkeit eines Takts, das Abbild eines anderen Kanals.
method-supply = Der Widerstand ist die Steigung der Spannung über dem Strom nach kleinsten Quadraten über alle Ereignisse, jedes gegen seine eigene Umgebung; seine Unsicherheit vereint den Standardfehler der Ausgleichung und die Genauigkeit der Stromzange. Über die Auslösezeit einer Sicherung wird nichts behauptet.
method-gear-train = Die Übersetzung ist Eingangs- durch Ausgangsdrehzahl bei gehaltenem Gang. Schlupf ist Motor- weniger Wellendrehzahl bei gehaltenem Gang; das Anfahren bleibt außer Betracht. Ein Gangwechsel dauert von der ersten Abweichung des Motors um 2 % vom gehaltenen Verhältnis bis zur ersten Annäherung auf 5 % an die andere Welle; keine Norm legt diese Zeit fest.
method-sensor-health = Eine Lücke hat mindestens vier Perioden mit gleicher Drehzahl davor und danach. Ein Sensor gilt als tot, wenn der Motor ein Verhältnis zum Abtrieb hält, das die andere Welle nicht erklärt, oder wenn er während einer Fahrt mit Gangwechsel schweigt.
method-signal-quality = Jeder Kanal mit einer Aufgabe wird auf das geprüft, was einen Schluss verdirbt: zu kurz, abgeschnitten, Stromzange verkehrt oder nicht auf null, zu langsam abgetastet oder im Leerlauf mehrdeutig, fehlende Werte, Maßstab oder Zähnezahl unbekannt, Angaben widerlegt.
method-conditions = Motor und Wählhebel kommen aus den Angaben, verglichen mit jedem Zeichen in der Aufzeichnung: Drehzahlsensor des Motors, Zug des Anlassers, Laden, Welligkeit der Lichtmaschine. Kupplungsbetätigungen auf Befehl werden aus dem Versorgungsstrom gelesen. Die Zeichen wiegen in Deziban, von gleichen Chancen aus; unter 20 zu 1 gilt der Zustand als unbekannt.
method-codes = Was jeder Fehlercode behauptet, wird mit den gemessenen Befunden verglichen. Widersprochen wird nur, wenn sein Status sagt, dass die Prüfung in diesem oder im letzten Fahrzyklus fehlschlug; ein alter Eintrag sagt nichts dafür oder dagegen.

# repairs

repair-clutch-1-drag-1 = Das Getriebe vom Motor trennen, ausbauen und das Kupplungsgehäuse öffnen.
repair-clutch-1-drag-2 = Kupplung 1, ihr Ausrücklager, ihren Hebel und den Weg des Stellers prüfen; Verschleiß und Leichtgängigkeit an den Grenzwerten des Herstellers messen.
repair-clutch-1-drag-3 = Ersetzen, was außerhalb der Grenzwerte liegt, und die Kupplung nach dem Verfahren des Herstellers einstellen.
repair-clutch-1-drag-4 = Das Getriebe einbauen und den Lernvorgang durchführen.
proof-clutch-1-drag = Dieselbe Aufzeichnung noch einmal: Motor läuft, Wählhebel in P, beide Eingangswellen in Ruhe und der Lernvorgang abgeschlossen.
opens-clutch-1-drag = Das Getriebe wird ausgebaut und sein Kupplungsgehäuse geöffnet, weil Kupplung 1 von außen weder zu sehen noch zu messen ist.
destroyed-clutch-1-drag = Dichtringe, Dichtungen, Einmalschrauben und Sicherungsringe des Kupplungsgehäuses und der Getriebebefestigung.

repair-clutch-2-drag-1 = Das Getriebe vom Motor trennen, ausbauen und das Kupplungsgehäuse öffnen.
repair-clutch-2-drag-2 = Kupplung 2, ihr Ausrücklager, ihren Hebel und den Weg des Stellers prüfen; Verschleiß und Leichtgängigkeit an den Grenzwerten des Herstellers messen.
repair-clutch-2-drag-3 = Ersetzen, was außerhalb der Grenzwerte liegt, und die Kupplung nach dem Verfahren des Herstellers einstellen.
repair-clutch-2-drag-4 = Das Getriebe einbauen und den Lernvorgang durchführen.
proof-clutch-2-drag = Dieselbe Aufzeichnung noch einmal: Motor läuft, Wählhebel in P, beide Eingangswellen in Ruhe und der Lernvorgang abgeschlossen.
opens-clutch-2-drag = Das Getriebe wird ausgebaut und sein Kupplungsgehäuse geöffnet, weil Kupplung 2 von außen weder zu sehen noch zu messen ist.
destroyed-clutch-2-drag = Dichtringe, Dichtungen, Einmalschrauben und Sicherungsringe des Kupplungsgehäuses und der Getriebebefestigung.

repair-clutch-1-slip-1 = Die gelernten Werte der Kupplung prüfen und den Lernvorgang wiederholen, bevor etwas geöffnet wird.
repair-clutch-1-slip-2 = Bleibt der Schlupf, das Getriebe ausbauen, das Kupplungsgehäuse öffnen und Kupplung 1 auf Verschleiß, Öl und Hitzeschäden prüfen.
repair-clutch-1-slip-3 = Ersetzen, was außerhalb der Grenzwerte liegt, einbauen und den Lernvorgang durchführen.
proof-clutch-1-slip = Dieselbe Fahrt noch einmal aufgezeichnet: Bei geschlossener Kupplung drehen Welle und Motor gleich schnell.
opens-clutch-1-slip = Das Getriebe wird ausgebaut und sein Kupplungsgehäuse geöffnet, weil Kupplung 1 von außen weder zu sehen noch zu messen ist.
destroyed-clutch-1-slip = Dichtringe, Dichtungen, Einmalschrauben und Sicherungsringe des Kupplungsgehäuses und der Getriebebefestigung.

repair-clutch-2-slip-1 = Die gelernten Werte der Kupplung prüfen und den Lernvorgang wiederholen, bevor etwas geöffnet wird.
repair-clutch-2-slip-2 = Bleibt der Schlupf, das Getriebe ausbauen, das Kupplungsgehäuse öffnen und Kupplung 2 auf Verschleiß, Öl und Hitzeschäden prüfen.
repair-clutch-2-slip-3 = Ersetzen, was außerhalb der Grenzwerte liegt, einbauen und den Lernvorgang durchführen.
proof-clutch-2-slip = Dieselbe Fahrt noch einmal aufgezeichnet: Bei geschlossener Kupplung drehen Welle und Motor gleich schnell.
opens-clutch-2-slip = Das Getriebe wird ausgebaut und sein Kupplungsgehäuse geöffnet, weil Kupplung 2 von außen weder zu sehen noch zu messen ist.
destroyed-clutch-2-slip = Dichtringe, Dichtungen, Einmalschrauben und Sicherungsringe des Kupplungsgehäuses und der Getriebebefestigung.

repair-clutch-actuator-jam-1 = Den eigenen Strom jedes Kupplungsstellers aufzeichnen, um zu finden, welcher der beiden klemmt.
repair-clutch-actuator-jam-2 = Diesen Steller von außen abbauen und den Kupplungshebel mit dem Werkzeug des Herstellers von Hand bewegen: Ein schwergängiger Hebel ist ein Fehler der Kupplung, ein leichtgängiger einer des Stellers.
repair-clutch-actuator-jam-3 = Das klemmende Teil ersetzen und den Lernvorgang durchführen.
proof-clutch-actuator-jam = Dieselbe Aufzeichnung noch einmal: Jede Betätigung ist kurz, ihr Strom fällt wieder, und der Lernvorgang wird abgeschlossen.

repair-clutch-actuator-1-jam-1 = Den Steller von Kupplung 1 von außen abbauen und den Kupplungshebel mit dem Werkzeug des Herstellers von Hand bewegen: Ein schwergängiger Hebel ist ein Fehler der Kupplung, ein leichtgängiger einer des Stellers.
repair-clutch-actuator-1-jam-2 = Das klemmende Teil ersetzen und den Lernvorgang durchführen.
proof-clutch-actuator-1-jam = Dieselbe Aufzeichnung noch einmal: Jede Betätigung von Steller 1 ist kurz, ihr Strom fällt wieder, und der Lernvorgang wird abgeschlossen.
opens-clutch-actuator-1-jam = Das Getriebe wird ausgebaut und sein Kupplungsgehäuse geöffnet, weil der klemmende Hebel oder das Lager von Kupplung 1 innen liegt.
destroyed-clutch-actuator-1-jam = Dichtringe, Dichtungen, Einmalschrauben und Sicherungsringe des Kupplungsgehäuses und der Getriebebefestigung.

repair-clutch-actuator-2-jam-1 = Den Steller von Kupplung 2 von außen abbauen und den Kupplungshebel mit dem Werkzeug des Herstellers von Hand bewegen: Ein schwergängiger Hebel ist ein Fehler der Kupplung, ein leichtgängiger einer des Stellers.
repair-clutch-actuator-2-jam-2 = Das klemmende Teil ersetzen und den Lernvorgang durchführen.
proof-clutch-actuator-2-jam = Dieselbe Aufzeichnung noch einmal: Jede Betätigung von Steller 2 ist kurz, ihr Strom fällt wieder, und der Lernvorgang wird abgeschlossen.
opens-clutch-actuator-2-jam = Das Getriebe wird ausgebaut und sein Kupplungsgehäuse geöffnet, weil der klemmende Hebel oder das Lager von Kupplung 2 innen liegt.
destroyed-clutch-actuator-2-jam = Dichtringe, Dichtungen, Einmalschrauben und Sicherungsringe des Kupplungsgehäuses und der Getriebebefestigung.

repair-gear-actuator-jam-1 = Den Gangsteller von außen abbauen, soweit der Hersteller es vorsieht, und den Schaltmechanismus auf freien Weg prüfen.
repair-gear-actuator-jam-2 = Das klemmende Teil ersetzen und den Lernvorgang durchführen.
proof-gear-actuator-jam = Dieselbe Aufzeichnung noch einmal: Jeder Gang wird in einer kurzen Betätigung eingelegt, und der Lernvorgang wird abgeschlossen.
opens-gear-actuator-jam = Das Getriebegehäuse wird geöffnet, weil der Schaltmechanismus innen liegt.
destroyed-gear-actuator-jam = Getriebeöl, Gehäusedichtmittel, Dichtungen und Einmalschrauben.

repair-actuation-jam-1 = Zuerst den klemmenden Mechanismus finden: den eigenen Strom jedes Motors während desselben Vorgangs aufzeichnen.
repair-actuation-jam-2 = Es ist nichts zu öffnen, bevor diese Aufzeichnung den Mechanismus nennt.
proof-actuation-jam = Dieselbe Aufzeichnung noch einmal: Jede Betätigung ist kurz, ihr Strom fällt wieder, und der Lernvorgang wird abgeschlossen.

repair-actuator-open-circuit-1 = Bei getrennten Steckern den Stromkreis des Stellers vom Steuergerät bis zum Motor messen: Durchgang, Kontaktdruck, Korrosion.
repair-actuator-open-circuit-2 = Leitung oder Stecker instand setzen oder den Steller ersetzen, wenn seine eigene Wicklung unterbrochen ist.
repair-actuator-open-circuit-3 = Den Lernvorgang durchführen.
proof-actuator-open-circuit = Dieselbe Aufzeichnung noch einmal: Bei jeder Betätigung fließt Strom, und der Lernvorgang wird abgeschlossen.

repair-supply-weak-1 = Die Batterie laden und prüfen.
repair-supply-weak-2 = Den Spannungsabfall von Zuleitung und Masse des Getriebes unter Last Verbindung für Verbindung messen und die Verbindung instand setzen, an der er auftritt.
repair-supply-weak-3 = Den Lernvorgang wiederholen, bevor das Getriebe beurteilt wird.
proof-supply-weak = Dieselbe Aufzeichnung noch einmal: Die Spannung am Getriebe hält bei seinem höchsten Strom.

repair-shaft-sensor-1-fault-1 = Stecker, Leitung, Versorgung und Luftspalt des Sensors prüfen.
repair-shaft-sensor-1-fault-2 = Sind sie in Ordnung, den Sensor ersetzen und den Lernvorgang durchführen.
proof-shaft-sensor-1-fault = Dieselbe Aufzeichnung noch einmal: ein sauberes, gleichmäßiges Zahnsignal von Sensor 1.

repair-shaft-sensor-2-fault-1 = Stecker, Leitung, Versorgung und Luftspalt des Sensors prüfen.
repair-shaft-sensor-2-fault-2 = Sind sie in Ordnung, den Sensor ersetzen und den Lernvorgang durchführen.
proof-shaft-sensor-2-fault = Dieselbe Aufzeichnung noch einmal: ein sauberes, gleichmäßiges Zahnsignal von Sensor 2.

repair-double-engagement-1 = Das Fahrzeug nicht fahren.
repair-double-engagement-2 = Schaltmechanismus und Steller prüfen; feststellen, welcher Gang eingelegt bleibt.
repair-double-engagement-3 = Das defekte Teil ersetzen und den Lernvorgang durchführen.
proof-double-engagement = Dieselbe Aufzeichnung noch einmal: In Neutralstellung drehen sich die beiden Eingangswellen frei voneinander.
opens-double-engagement = Das Getriebegehäuse wird geöffnet, weil die Schaltgabeln innen liegen.
destroyed-double-engagement = Getriebeöl, Gehäusedichtmittel, Dichtungen und Einmalschrauben.

repair-relearn-not-completed-1 = Die Bedingungen des Lernvorgangs nach Hersteller herstellen: Batterie, Temperatur, Wählhebel, Türen, Bremse.
repair-relearn-not-completed-2 = Den Vorgang wiederholen und von Anfang bis Ende aufzeichnen.
proof-relearn-not-completed = Eine Aufzeichnung des Lernvorgangs, der von selbst endet, ohne abgebrochenen Versuch.

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
state-mended = Reparatur belegt
state-not-mended = Reparatur nicht belegt

report-answer = Was defekt ist
report-answer-repair = Was die Reparatur bewirkt hat
report-answer-open = Die Aufzeichnungen entscheiden nicht, was defekt ist
report-answer-open-plain = Mehr als eine Erklärung ist noch möglich. Das Getriebe auf diese Belege hin zu öffnen, wäre geraten; die Schritte unten werden es entscheiden.
report-answer-nothing = Die Aufzeichnungen zeigen keinen Fehler
report-answer-nothing-plain = Alles, was sich messen ließ, arbeitete während der Aufzeichnung, wie es soll. Ein Fehler, der dabei nicht auftrat, ist nicht zu sehen.
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
report-evidence-good-peak = bekannt gute Spitze
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
line-billable = erledigt
line-estimate = Voranschlag
report-estimate-example = Die Stunden stammen aus dem eingebauten Beispielverzeichnis, das erfunden ist: Sie sind keine Arbeitszeitvorgabe.
report-total-net = Netto
report-total-tax = Steuer
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
order-correction-authorised = Ausgeführt oder freigegeben: { $work }.
order-correction-offered = Angeboten, nicht freigegeben: { $work }.
order-correction-none = Keine Arbeit ausgeführt oder freigegeben.
order-correction-proven = Die Aufzeichnung nach der Reparatur zeigt den Fehler behoben.
order-correction-not-proven = Die Aufzeichnung nach der Reparatur beweist nicht, dass der Fehler behoben ist.
order-draft = ENTWURF für das Abrechnungssystem, aus der Diagnose erstellt. Keine ausgestellte Rechnung.
