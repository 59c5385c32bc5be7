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

kind-signal-quality = Güte der Aufzeichnung
kind-scale-unknown = Stromzange ohne bekannten Maßstab
kind-condition-contradicted = Angabe, der die Aufzeichnung widerspricht
kind-code-not-tested = Fehlercode, den die Aufzeichnung nicht prüft
kind-code-contradicted = Fehlercode, dem die Aufzeichnung widerspricht
kind-code-supported = Fehlercode, den die Aufzeichnung stützt
kind-feed-resistance = Widerstand der Zuleitung
kind-inrush-current = Einschaltstrom

mark-signal-quality = Aufzeichnung unbrauchbar

subject-supply-voltage = Versorgungsspannung
subject-ground-voltage = Spannungsabfall der Masse
subject-engine-speed = Motordrehzahl
subject-other = anderer Kanal

reason-too-short = Die Aufzeichnung ist zu kurz, um eine Betätigung mit der Ruhe davor und danach zu zeigen.
reason-clipped = Der Strom läuft gegen das Ende des Messbereichs; seine wahre Höhe ist nicht bekannt.
reason-reversed = Die Stromzange war verkehrt herum angelegt.
reason-offset = Die Stromzange war vor der Aufzeichnung nicht auf null gestellt.
reason-undersampled = Ein Drehzahlsensor wurde zu langsam abgetastet; jede Drehzahl könnte falsch sein.
reason-edges = Das Signal eines Drehzahlsensors geht über den Bereich des Rekorders hinaus oder hat doppelte Flanken; auf seine Drehzahl ist kein Verlass.
reason-missing = Zu viele Werte der Aufzeichnung fehlen.

next-record-higher-rate = Mit mindestens zehn Abtastwerten je Zahn der Drehzahlsensoren noch einmal aufzeichnen.
next-record-longer = Mindestens zehn Sekunden aufzeichnen, von vor dem Versuch bis danach.
next-clamp-range = Stromzange und Rekorder auf einen größeren Bereich stellen (60 A oder mehr) und noch einmal aufzeichnen.
next-clamp-direction = Die Stromzange umdrehen, so dass Strom in das Aggregat positiv zeigt, und noch einmal aufzeichnen.
next-clamp-zero = Die Stromzange ohne Leitung darin und nahe am Kabel auf null stellen und noch einmal aufzeichnen.
next-record-range = Den Bereich des Rekorders für den Drehzahlsensor größer stellen und noch einmal aufzeichnen.
next-state-teeth = Die Zähnezahl jedes Geberrads in job.toml eintragen; eine ausgefüllte Datei liegt bei diesem Bericht.
next-state-teeth-plain = Die Angaben zu den Aufzeichnungen ergänzen.
next-clamp-scale = Die Ampere je Volt der Stromzange in job.toml eintragen; eine ausgefüllte Datei liegt bei diesem Bericht.
next-clamp-scale-plain = Die Angaben zu den Aufzeichnungen ergänzen.
next-state-selector = Die Stellung des Wählhebels während der Aufzeichnung in job.toml eintragen.
next-state-selector-plain = Die Angaben zu den Aufzeichnungen ergänzen.
next-state-engine = In job.toml eintragen, ob der Motor während der Aufzeichnung lief.
next-state-engine-plain = Die Angaben zu den Aufzeichnungen ergänzen.
next-check-sensor-wiring = Stecker und Leitung des Drehzahlsensors prüfen, dann dieselbe Aufzeichnung noch einmal machen.

caution-rolling = Das Fahrzeug kann ohne Vorwarnung rollen oder anfahren. Eine Kupplung kann von selbst schließen, und ein Getriebe in Neutralstellung, ohne Strom oder im ausgebauten Zustand hat keine Parksperre. Unterlegkeile setzen, Parkbremse anziehen, niemand vor oder hinter dem Fahrzeug.
    .word = WARNING
    .title = Fahrzeug kann rollen
    .source = { source-practice }
caution-running-engine = Abgas tötet in geschlossenen Räumen unbemerkt. Den Motor nur mit Absaugung oder im Freien laufen lassen und einen Kohlenmonoxid-Warner bereithalten.
    .word = DANGER
    .title = Abgas
    .source = { source-practice }
caution-rotating-parts = Lüfter, Riemen, Wellen und Kupplungen erfassen Hände, Haare, Ärmel und Leitungen. Tastköpfe nur bei ausgeschalteter Zündung und abgezogenem, entferntem Schlüssel anbringen oder versetzen: Ein Lüfter kann von selbst anlaufen. Leitungen fern von bewegten und heißen Teilen führen.
    .word = WARNING
    .title = Drehende Teile
    .source = { source-practice }
caution-actuator-movement = Steller können sich beim Aufwachen des Fahrzeugs, bei Zündung, beim Öffnen einer Tür und beim Lernen bewegen und Finger quetschen. Vor dem Griff in den Mechanismus ihre Versorgung trennen.
    .word = WARNING
    .title = Teile bewegen sich von selbst
    .source = { source-practice }
caution-jumper-lead = Eine Überbrückungsleitung ohne Sicherung kann Kabel und Hände verbrennen. Nicht höher absichern als den Stromkreis, den sie speist, nie eine Sicherung überbrücken, nie den Ausgang eines Steuergeräts speisen.
    .word = WARNING
    .title = Überbrückungsleitungen
    .source = { source-practice }
caution-high-voltage = Das Hochvolt-System dieses Fahrzeugs kann töten. Seine Leitungen sind orange; ein 48-Volt-System ist nicht so gekennzeichnet und kann verbrennen und Lichtbögen ziehen. Nur Personen mit der örtlich vorgeschriebenen Befähigung dürfen es freischalten, gegen Wiedereinschalten sichern, die Wartezeit des Herstellers einhalten und die Spannungsfreiheit feststellen. Vorher nichts öffnen, trennen oder messen.
    .word = DANGER
    .title = Hochvolt-System
    .source = ISO 6469-3 (orange Leitungen) und nationale Vorschriften für Elektroarbeiten, beide nicht eingesehen; { source-practice } für die Schritte
caution-high-voltage-unknown = Niemand hat angegeben, ob dieses Fahrzeug ein Hybrid- oder Elektrofahrzeug ist. Zuerst klären: Typschild, Papiere, orange Leitungen. Ein 48-Volt-System ist nicht orange gekennzeichnet. Hat es ein solches System, dürfen nur Personen mit der örtlich vorgeschriebenen Befähigung es freischalten, die Wartezeit des Herstellers einhalten und die Spannungsfreiheit feststellen.
    .word = DANGER
    .title = Hybrid oder elektrisch?
    .source = ISO 6469-3 (orange Leitungen) und nationale Vorschriften für Elektroarbeiten, beide nicht eingesehen; { source-practice } für die Schritte
caution-airbag = Airbags und Gurtstraffer können auslösen. Vor Arbeiten in ihrer Nähe die Batterie abklemmen und die Wartezeit des Herstellers einhalten; einen Zündkreis nie mit einem Ohmmeter messen.
    .word = WARNING
    .title = Airbags
    .source = { source-practice }
caution-battery = Batterien geben explosives Gas ab, enthalten Säure und liefern sehr hohe Ströme. Keine Flamme, kein Funke; Augen schützen; Ringe und Uhren ablegen; zuerst die Masse abklemmen. Vor dem Abklemmen das Fahrzeug einschlafen lassen, danach die Wartezeit der Airbags einhalten. Eine Lithiumbatterie nur mit einem dafür gebauten Ladegerät laden.
    .word = WARNING
    .title = Batterie
    .source = { source-practice }
caution-scope-ground = Die Masseleitung eines Messgeräts an einem Punkt, der nicht Masse ist, schließt die Batterie kurz: Sie verbrennt und das Gerät mit ihr. Isolierte oder Differenzeingänge verwenden oder vorher prüfen, ob der Punkt an Masse liegt.
    .word = WARNING
    .title = Masse des Messgeräts
    .source = { source-practice }
caution-road-test = Wer fährt, darf keine Geräte ablesen. Eine zweite Person mitnehmen, die Ausrüstung sichern und die Verkehrsregeln einhalten.
    .word = WARNING
    .title = Probefahrt
    .source = { source-practice }
caution-self-start = Der Motor eines Hybrids oder eines Fahrzeugs mit Start-Stopp-Automatik kann von selbst anlaufen, auch bei offener Haube. Vor dem Griff in den Motorraum die Zündung ausschalten und den Schlüssel entfernen.
    .word = WARNING
    .title = Motor kann von selbst anlaufen
    .source = { source-practice }
caution-under-vehicle = Ein Fahrzeug, das nur auf dem Wagenheber steht, ist lebensgefährlich. Nur auf einer Hebebühne mit eingerasteten Sperren oder auf zugelassenen Stützböcken auf festem Boden darunter arbeiten, nie bei laufendem Motor mit eingelegtem Gang.
    .word = WARNING
    .title = Unter dem Fahrzeug
    .source = { source-practice }
caution-protection = Schutzbrille und passende Handschuhe tragen, an einem laufenden Motor auch Gehörschutz. Einen Feuerlöscher bereithalten.
    .word = CAUTION
    .title = Augen, Hände, Gehör
    .source = { source-practice }
driver-rough-engine = Wenn der Motor schüttelt oder seine Warnleuchte blinkt, nicht fahren. Unverbrannter Kraftstoff überhitzt die Abgasanlage und kann sie in Brand setzen.
    .word = WARNING
    .title = Unrunder Motor
    .source = { source-practice }

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
    [charged] die Versorgung wird geladen, wie von einem Generator oder einem Ladegerät
    [resting] die Versorgung ruht nur
    [ripple] die Versorgung trägt die Welligkeit eines Generators
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
kind-condition-engine = Motor während der Aufzeichnung
kind-condition-selector = Wählhebel während der Aufzeichnung
kind-condition-commanded = Kupplungsbetätigungen auf Befehl

method-signal-quality = Jeder Kanal mit einer Aufgabe wird auf das geprüft, was einen Schluss verdirbt: zu kurz, abgeschnitten, Stromzange verkehrt oder nicht auf null, zu langsam abgetastet oder im Leerlauf mehrdeutig, fehlende Werte, Maßstab oder Zähnezahl unbekannt, Angaben widerlegt.
method-conditions = Motor und Wählhebel kommen aus den Angaben, verglichen mit jedem Zeichen in der Aufzeichnung: Drehzahlsensor des Motors, Zug des Anlassers, Laden, Welligkeit des Generators. Kupplungsbetätigungen auf Befehl werden aus dem Versorgungsstrom gelesen. Die Zeichen wiegen in Deziban, von gleichen Chancen aus; unter 20 zu 1 gilt der Zustand als unbekannt.
method-codes = Was jeder Fehlercode behauptet, wird mit den gemessenen Befunden verglichen. Widersprochen wird nur, wenn sein Status sagt, dass die Prüfung in diesem oder im letzten Fahrzyklus fehlschlug; ein alter Eintrag sagt nichts dafür oder dagegen.

# Maßstäbe, die kein solches Aggregat haben kann

implausible-scale = { $subject-name }: { NUMBER($value, maximumSignificantDigits: 3) } { $unit }. Das kann kein solches Aggregat zeigen, der Maßstab des Tastkopfs ist zweifelhaft.
kind-implausible-scale = Zweifelhafter Maßstab
reason-implausible-scale = Ein kalibrierter Wert ist so, wie ihn kein solches Aggregat zeigen kann; der Maßstab eines Tastkopfs ist zweifelhaft.
next-check-scale = Den Faktor des Tastkopfs mit seiner Aufschrift und der Einstellung des Rekorders vergleichen, in job.toml berichtigen und den Auftrag wiederholen.
next-clear-supply-first = Zuerst Batterie, Ladung und ihre Leitungen in Ordnung bringen, dann diese Aufzeichnung wiederholen.
next-clear-ripple-first = Zuerst den Generator in Ordnung bringen, dann diese Aufzeichnung wiederholen.
next-check-scale-plain = Den Maßstab der Stromzange prüfen und neu aufzeichnen.
method-plausibility = Mediane und höchste Pulse der kalibrierten Kanäle werden mit dem verglichen, was ein solches Aggregat überhaupt zeigen kann; jenseits davon wird der Maßstab des Tastkopfs bezweifelt.
implausible-time = { $subject-name }: Der höchste Strom hält { NUMBER($value, maximumFractionDigits: 0) } s an, länger als jedes Steuergerät ihn lässt; die Einheit der Zeit in der Aufzeichnung ist zweifelhaft.
reason-implausible-time = Ein Motor zieht seinen Blockierstrom länger, als jedes Steuergerät ihn lässt; die Einheit der Zeit in der Aufzeichnung ist zweifelhaft.

# Work
labour-diagnosis = Messung und Diagnose
labour-proof = Messung wiederholen, um die Reparatur nachzuweisen

# Quellen der Grenzwerte.
sheet-source-practice = gängige Praxis, ohne Quelle
sheet-source-clamp = gängige Praxis, ohne Quelle: übliche Gleichstromzangen, Standardunsicherheit der Ablesung
sheet-source-idle = gängige Praxis, ohne Quelle: warmer Leerlauf von Pkw-Motoren, mit Kaltstart
sheet-source-least = Ermessen: eine Betätigung mit der Ruhe davor und danach
sheet-source-small-pulses = Ermessen: kleinere Impulse stammen vom Steuergerät selbst
sheet-source-clamp-zero = Ermessen: der Nullpunkt einer abgeglichenen Zange wandert weniger
sheet-source-stall-hold = gängige Praxis, ohne Quelle: eine gesunde Betätigung ist in 0,1 bis 0,3 s vorbei
sheet-source-stall-share = Ermessen: ein blockierter Motor hält seinen Strom, ein laufender verliert das meiste davon an seine Gegenspannung
sheet-source-creep = Ermessen: langsamer ist Kriechen
sheet-source-creep-rate = Ermessen: langsamer ist Kriechen, wo die Zähnezahl nicht bekannt ist
sheet-source-hall = gängige Praxis, ohne Quelle: Hallsensoren mit drei Leitungen schalten zwischen Masse und einem Pull-up auf 5 oder 12 V
sheet-source-acceleration = Überlegung: 250 N m an einer Welle mit Scheibe von 0,02 kg m²
sheet-source-loop-low = gängige Praxis, ohne Quelle: Zweidrahtsensoren mit Stromschnittstelle liefern 7 mA ± 20 % im unteren Pegel
sheet-source-loop-high = gängige Praxis, ohne Quelle: Zweidrahtsensoren mit Stromschnittstelle liefern 14 mA ± 20 % im oberen Pegel
