system-speed-sensor = Drehzahlsensoren

# Drehung
sensor-speed = { $subject-name }: { NUMBER($value, maximumFractionDigits: 1) } min⁻¹.
tooth-rate = { $subject-name }: { NUMBER($value, maximumFractionDigits: 1) } Impulse je Sekunde; die Zähnezahl ist nicht bekannt, darum ist das keine Drehzahl.
tooth-pattern = { $subject-name }: Das Geberrad hat { $value } Positionen je Umdrehung, davon { $missing } ohne Zahn (Muster { $pattern }, über { $cycles } Wiederholungen).
tooth-pattern-other = { $subject-name }: Für das Geberrad sind { $stated } Positionen angegeben; seine Impulse zeigen { $value } je Umdrehung, davon { $missing } ohne Zahn (Muster { $pattern }).
pick-up-engine = { $subject-name }: Die Impulse sind keine Drehung. Während sich die Motordrehzahl ändert, bleiben es { NUMBER($order, maximumFractionDigits: 2) } je Motorumdrehung, und ihre Höhe wächst nicht mit ihrer Folge, wie es bei einer Spule sein muss.
pick-up-unclear = { $subject-name }: Die Impulse können vom Geberrad stammen oder vom laufenden Motor eingestreut sein; nichts in dieser Aufzeichnung trennt beides.
sensor-unreadable = { $subject-name }: { NUMBER($value, maximumFractionDigits: 1) } s lang sind Impulse da, die keine lesbare Zahnfolge ergeben.

# Geberrad
tooth-fault-none = { $subject-name }: Jeder Zahn des Geberrads war über { $turns } Umdrehungen an seinem Platz zu sehen.
tooth-fault-none-seen = { $subject-name }: Unter { $positions } Zähnen nacheinander fehlt keiner, keiner zählt doppelt und keiner steht falsch.
tooth-fault = { $subject-name }: Das Geberrad ist an { $value ->
    [one] einer Stelle
   *[other] { $value } Stellen
 } beschädigt, auf jeder von { $turns } Umdrehungen an derselben: fehlend { $missing }, abgebrochen { $broken }, doppelt { $doubled }, verschoben { $displaced }.
tooth-fault-plain = { $subject-name }: Das Geberrad ist an { $value ->
    [one] einer Stelle
   *[other] { $value } Stellen
 } beschädigt; das zeigt sich bei jeder Umdrehung.
tooth-fault-unstated = { $subject-name }: Am Geberrad { $missing ->
    [one] ist eine Stelle
   *[other] sind { $missing } Stellen
 } ohne Zahn, auf jeder von { $turns } Umdrehungen. Es kann so gebaut sein, oder es fehlen Zähne: Die Zahl der fehlenden Zähne ist nicht angegeben.
tooth-fault-unequal = { $subject-name }: Die Zähne des Geberrads folgen in ungleichen, bei jeder Umdrehung gleichen Abständen; keiner weicht so weit ab, dass er zu benennen wäre.
tooth-fault-not-tested = { $subject-name }: Die einzelnen Zähne waren in dieser Aufzeichnung nicht zu beurteilen.
ring-runout-amplitude = { $subject-name }: Das Signal wird über eine Umdrehung um { NUMBER($value, maximumFractionDigits: 1) } % größer und kleiner.
ring-runout-pitch = { $subject-name }: Die Zähne kommen über eine Umdrehung um { NUMBER($value, maximumFractionDigits: 2) } % einer Teilung früher und später.

# Höhe
sensor-amplitude = { $subject-name }: { NUMBER($value, maximumSignificantDigits: 3) } V bei 100 min⁻¹.
sensor-amplitude-low = { $subject-name }: nur { NUMBER($value, maximumSignificantDigits: 3) } V bei 100 min⁻¹, zu wenig, um bei langsamer Fahrt gesehen zu werden.
sensor-amplitude-beside = { $subject-name }: { NUMBER($value, maximumSignificantDigits: 3) } V bei 100 min⁻¹, nur { $share } % dessen, was der andere gibt ({ $other-name }).
sensor-amplitude-among = { $subject-name }: { NUMBER($value, maximumSignificantDigits: 3) } V bei 100 min⁻¹, nur { $share } % dessen, was der schwächste Sensor einer anderen Achse gibt ({ $other-name }).
sensor-amplitude-apart = { $subject-name }: { NUMBER($value, maximumSignificantDigits: 3) } V bei 100 min⁻¹, { $share } % dessen, was der andere gibt ({ $other-name }); nach der Zähnezahl drehen beide aber sehr verschieden schnell, die Geberräder sind also womöglich nicht gleich.
sensor-amplitude-clamped = { $subject-name }: Das Signal stößt an eine Grenze des Messgeräts oder des Steuergeräteeingangs; seine Höhe ist nicht bekannt.
sensor-level-low = { $subject-name }: Der untere Pegel liegt bei { NUMBER($value, maximumSignificantDigits: 3) } { $unit }.
sensor-level-high = { $subject-name }: Der obere Pegel liegt bei { NUMBER($value, maximumSignificantDigits: 3) } { $unit }.

# Polung
sensor-polarity-usual = { $subject-name }: wie üblich gepolt, das Signal steigt durch die Lücke des Geberrads ({ $gaps } Lücken).
sensor-polarity-reversed = { $subject-name }: anscheinend verpolt, das Signal fällt durch die Lücke des Geberrads ({ $gaps } Lücken); üblich ist, dass es steigt.
cam-phase = Die Flanke der Nockenwelle kommt { NUMBER($value, maximumFractionDigits: 1) } Grad Kurbelwinkel nach der Lücke des Geberrads, über { $turns } Umdrehungen, mit einer Streuung von { NUMBER($scatter, maximumFractionDigits: 1) } Grad (alle Flanken: { $all }).
cam-phase-off = Die Flanke der Nockenwelle kommt { NUMBER($value, maximumFractionDigits: 1) } Grad Kurbelwinkel nach der Lücke des Geberrads und damit nicht dort, wo das Grenzwertblatt sie verlangt (alle Flanken: { $all }).
cam-phase-off-plain = Die Nockenwelle dreht sich nicht so im Takt der Kurbelwelle, wie sie soll.

# Aussetzer
sensor-dropout-none = { $subject-name }: Kein Impuls ging verloren, solange sich die Welle drehte.
sensor-dropout-once = { $subject-name }: setzt einmal aus ({ NUMBER($lost_s, maximumFractionDigits: 2) } s) und läuft im Takt weiter; einmal kann auch eine angestoßene Messspitze sein.
sensor-dropout-twice = { $subject-name }: setzt zweimal aus (zusammen { NUMBER($lost_s, maximumFractionDigits: 2) } s) und läuft im Takt weiter. Die Welle drehte sich weiter, das Signal nicht.
sensor-breaks-off = { $subject-name }: setzt { $value }-mal aus (zusammen { NUMBER($lost_s, maximumFractionDigits: 2) } s) und läuft im Takt weiter. Die Welle drehte sich weiter, das Signal nicht.
sensor-gone-silent = { $subject-name }: { NUMBER($value, maximumFractionDigits: 1) } s lang kein Impuls, während sich das andere Rad dreht ({ $witness-name }).
sensor-silent-several = { $subject-name }: { NUMBER($value, maximumFractionDigits: 1) } s lang kein Impuls, während sich { $witnesses } andere Räder drehen (darunter { $witness-name }).
sensor-silent-standing = { $subject-name }: { NUMBER($value, maximumFractionDigits: 1) } s lang kein Impuls, während es dort weitergeht: { $witness-name }. Ein weiteres Rad gibt auch keinen Impuls. Auf der Hebebühne stehen Räder ohne Antrieb still; das beweist keinen Fehler.
sensor-silent-driven = { $subject-name }: { NUMBER($value, maximumFractionDigits: 1) } s lang kein Impuls, während der Motor dreht ({ $witness-name }).
sensor-silent-at-times = { $subject-name }: bricht aus der Drehung heraus ab und schweigt { NUMBER($value, maximumFractionDigits: 1) } s lang, während es dort weitergeht: { $witness-name }.
sensor-no-pulse = { $subject-name }: kein Impuls, und nichts beweist, dass sich die Welle drehte oder dass der Kanal es gezeigt hätte. Eine ruhende Welle, ein toter Sensor und eine nicht angeschlossene Leitung sehen gleich aus.
sensor-no-pulse-alive = { $subject-name }: nimmt den Strom eines lebenden Sensors auf und gibt keinen Impuls; nichts beweist, dass sich die Welle drehte.

# Paar
speed-difference = Zwei Räder unterscheiden sich um { NUMBER($value, maximumFractionDigits: 2) } % ({ $subject-name } und { $other-name }); schneller dreht: { $faster-name }.

kind-sensor-speed = Drehzahl am Sensor
kind-tooth-rate = Zahnfrequenz
kind-tooth-pattern = Muster des Geberrads
kind-no-rotation = Impulse, die keine Drehung sind
kind-sensor-unreadable = Nicht lesbare Impulse
kind-tooth-fault = Zähne des Geberrads
kind-ring-runout = Schlag des Geberrads
kind-sensor-amplitude = Höhe des Sensorsignals
kind-sensor-polarity = Polung des Sensors
kind-cam-phase = Phasenlage der Nockenwelle
kind-sensor-dropout = Aussetzer des Sensors
kind-sensor-silent = Sensor ohne Impuls
kind-speed-difference = Unterschied zweier Räder

mark-sensor-speed = dreht sich
mark-tooth-rate = dreht sich
mark-no-rotation = keine Drehung
mark-tooth-fault = Zahn
mark-ring-runout = Schlag
mark-sensor-amplitude = Höhe
mark-sensor-polarity = Polung
mark-sensor-dropout = setzt aus
mark-sensor-silent = kein Impuls

subject-wheel-speed-n = Sensor von Rad { $n }
subject-crank-sensor = Kurbelwellensensor
subject-cam-sensor = Nockenwellensensor
subject-speed-sensor-n = Drehzahlsensor { $n }

# Ursachen
cause-sensor-dead = Ein Drehzahlsensor gibt kein Signal
cause-sensor-dead-plain = Einer der Drehzahlsensoren gibt kein Signal, obwohl sich dreht, was er überwacht: Der Sensor, sein Stecker oder seine Leitung ist unterbrochen oder hat einen Kurzschluss.
cause-sensor-dead-ruled-out = Ein Drehzahlsensor ohne Signal
cause-sensor-intermittent = Ein Drehzahlsensor hat einen Wackelkontakt
cause-sensor-intermittent-plain = Das Signal eines Drehzahlsensors setzt immer wieder aus, während sich Rad oder Welle weiterdrehen: Ein Stecker, eine Leitung oder der Sensor selbst hat schlechten Kontakt.
cause-sensor-intermittent-ruled-out = Ein Drehzahlsensor mit Wackelkontakt
cause-tooth-ring-damaged = Das Geberrad eines Drehzahlsensors ist beschädigt
cause-tooth-ring-damaged-plain = Das Geberrad, das ein Drehzahlsensor abtastet, ist an einer Stelle beschädigt; das zeigt sich bei jeder Umdrehung. Der Sensor selbst tut, was er soll.
cause-tooth-ring-damaged-ruled-out = Ein beschädigtes Geberrad
cause-ring-runout-high = Das Geberrad eines Drehzahlsensors läuft nicht rund
cause-ring-runout-high-plain = Das Geberrad, das ein Drehzahlsensor abtastet, sitzt außermittig oder taumelt, sodass sich sein Signal über jede Umdrehung ändert.
cause-ring-runout-high-ruled-out = Ein unrund laufendes Geberrad
cause-air-gap-large = Ein Drehzahlsensor sitzt zu weit von seinem Geberrad
cause-air-gap-large-plain = Das Signal eines Drehzahlsensors ist für seine Drehzahl zu schwach: Der Abstand zwischen Sensor und Geberrad ist zu groß, oder der Sensor ist verbraucht. Bei langsamer Fahrt geht sein Signal verloren.
cause-air-gap-large-ruled-out = Ein zu großer Luftspalt an einem Drehzahlsensor
cause-sensor-polarity-reversed = Die beiden Adern eines Drehzahlsensors sind vertauscht
cause-sensor-polarity-reversed-plain = Die beiden Adern eines Drehzahlsensors sind anscheinend vertauscht, sodass das Steuergerät jeden Zahn etwas zu früh oder zu spät erkennt.
cause-sensor-polarity-reversed-ruled-out = Vertauschte Adern eines Drehzahlsensors
cause-pick-up = Was ein Drehzahlsensor zeigt, ist eine Einstreuung
cause-pick-up-plain = Die Leitung eines Drehzahlsensors fängt Störungen vom laufenden Motor auf und zeigt eine Drehzahl, obwohl sich dort nichts dreht: Schirmung, verdrillte Adern oder eine Masse sind nicht in Ordnung.
cause-pick-up-ruled-out = Eine Einstreuung auf der Leitung eines Drehzahlsensors

# Reparaturen
repair-sensor-dead-1 = Zuerst prüfen, ob die Messleitung am Signal des Sensors saß; dann Stecker, Versorgung, Masse und beide Adern des Sensors bis zum Steuergerät.
repair-sensor-dead-2 = Sind sie in Ordnung, Sensor und Geberrad ansehen und den Sensor ersetzen.
proof-sensor-dead = Dieselbe Aufzeichnung noch einmal: Der Sensor gibt Impulse, wann immer der andere welche gibt.
repair-sensor-intermittent-1 = Während der Aufzeichnung Stecker und Kabelbaum von Hand bewegen und die Stelle finden, an der das Signal aussetzt.
repair-sensor-intermittent-2 = Stecker oder Leitung dort instand setzen; setzt das Signal am Sensor selbst aus, den Sensor ersetzen.
proof-sensor-intermittent = Dieselbe Aufzeichnung noch einmal, mit von Hand bewegtem Kabelbaum: Kein Impuls geht verloren.
repair-tooth-ring-damaged-1 = Das ganze Geberrad ansehen, eine Umdrehung lang: ein gebrochener, ausgebrochener oder verbogener Zahn, Rost, der den Ring anhebt, anhaftendes Metall. Zuerst reinigen.
repair-tooth-ring-damaged-2 = Hilft das Reinigen nicht, das Geberrad ersetzen oder das Lager oder die Welle, die es trägt.
proof-tooth-ring-damaged = Dieselbe Aufzeichnung noch einmal: jeder Zahn auf jeder Umdrehung an seinem Platz.
repair-ring-runout-high-1 = Den Schlag des Geberrads und das Lagerspiel mit der Messuhr gegen die Herstellerwerte prüfen.
repair-ring-runout-high-2 = Den Sitz reinigen und das Geberrad neu aufsetzen, oder Geberrad oder Lager ersetzen.
proof-ring-runout-high = Dieselbe Aufzeichnung noch einmal: Das Signal ist über die Umdrehung gleichmäßig.
repair-air-gap-large-1 = Den Abstand zwischen Sensor und Geberrad messen, wo man herankommt, und Sensor, Sitz und Geberrad von Rost und Metall reinigen.
repair-air-gap-large-2 = Den Widerstand der Spule mit dem der anderen Seite vergleichen; stimmt der Abstand, den Sensor ersetzen.
proof-air-gap-large = Dieselbe Aufzeichnung noch einmal: Beide Seiten geben bei gleicher Drehzahl gleich viel.
repair-sensor-polarity-reversed-1 = Die beiden Adern am Stecker des Sensors und am Steuergerät mit dem Stromlaufplan des Herstellers vergleichen, bevor etwas geändert wird: Manche Hersteller nutzen die andere Polung.
repair-sensor-polarity-reversed-2 = Sind sie vertauscht, sie dort richtigstellen, wo zuletzt repariert wurde.
proof-sensor-polarity-reversed = Dieselbe Aufzeichnung noch einmal: Das Signal steigt durch die Lücke.
repair-pick-up-1 = Schirm und verdrillte Adern des Sensors und ihren Weg an Generator, Zündung und Motoren vorbei prüfen; die Massen von Motor und Karosserie prüfen.
repair-pick-up-2 = Mit abgezogenem Sensor prüfen: Was auf der Leitung bleibt, kommt von anderswo. Schirm oder Masse instand setzen.
proof-pick-up = Dieselbe Aufzeichnung noch einmal bei laufendem Motor und ruhendem Rad: keine Impulse.

# Als Nächstes
next-record-second-witness = Diesen Sensor zusammen mit einem anderen aufzeichnen, der sich mit ihm drehen muss (alle Räder während der Fahrt, Kurbelwelle und Nockenwelle bei drehendem Motor).
next-record-sensor-turning = Den Sensor aufzeichnen, während sich sein Rad oder seine Welle dreht, aus dem Stand auf Drehzahl und zurück, mindestens zehn Sekunden lang.
next-record-sensor-again = Den Sensor noch einmal aufzeichnen, mit mindestens zehn Abtastwerten je Zahn und einem passenden Messbereich.
next-move-harness = Noch einmal eine Minute lang aufzeichnen und dabei Stecker und Kabelbaum von Hand bewegen.
next-look-at-ring = Das Geberrad durch die Bohrung des Sensors ansehen, eine ganze Umdrehung lang.
next-compare-other-wheel = Den Sensor der anderen Seite derselben Achse zusammen mit diesem bei gleicher Drehzahl aufzeichnen.
next-check-polarity = Die beiden Adern des Sensors mit dem Stromlaufplan des Herstellers vergleichen.
next-check-valve-timing = Die Steuerzeiten an den Marken des Herstellers prüfen: Kette oder Riemen, Spanner und die Geberräder auf ihren Wellen.
next-change-speed = Die Motordrehzahl zusammen mit dem Sensor aufzeichnen und sie um die Hälfte ändern, während Rad oder Welle ruht: Eine Einstreuung ändert sich mit, eine Drehung nicht.
next-state-missing-teeth = In job.toml schreiben, wie viele Zähne dem Geberrad ab Werk fehlen ([unit] missing_teeth, 0 für keinen).

# Warum
why-no-pulse = der Sensor gab keinen Impuls, und nichts zeigt, dass sich seine Welle drehte
why-too-little-turning = seine Welle drehte sich zu kurz
why-too-few-turns = zu wenige Umdrehungen oder zu wenige Abtastwerte je Zahn, um einzelne Zähne zu beurteilen
why-no-coil = die Höhe des Signals sagt bei dieser Art Sensor nichts über den Abstand, oder Maßstab oder Zähnezahl sind nicht bekannt
why-no-gap = nur eine Spule vor einem Geberrad mit Lücke zeigt ihre Polung

# Gründe
reason-sensor-not-seen = Ein Sensor gibt keinen Impuls, und nichts in der Aufzeichnung beweist, dass sich seine Welle drehte.
reason-wheels-may-stand = Mehrere Räder geben keinen Impuls, während sich andere drehen. Auf der Hebebühne stehen Räder ohne Antrieb still.
reason-sensor-unreadable = Die Impulse eines Sensors sind als Zahnfolge nicht lesbar.
reason-may-be-pick-up = Die Impulse eines Sensors können vom laufenden Motor eingestreut sein.
reason-cam-phase-off = Die Nockenwelle steht anders zur Kurbelwelle, als das Grenzwertblatt sagt.
reason-gap-unstated = Einem Geberrad fehlen Zähne an einer Stelle, an der es so gebaut sein kann.
reason-pitches-unequal = Die Zähne eines Geberrads folgen in ungleichen Abständen, und die Aufzeichnung sagt nicht, welcher von ihnen abweicht.
reason-broke-off-once = Ein Sensor setzte einmal aus; das kann die Messspitze gewesen sein.
reason-near-the-limit = Ein Messwert liegt so nah an seinem Grenzwert, dass er weder gut noch schlecht ist.
reason-wheels-apart = Ein Sensor gibt weniger als der andere seiner Achse, doch beide Räder drehen sehr verschieden schnell: Die Zähnezahl stimmt womöglich nicht für beide.

caution-brake-dust = Bremsstaub schadet der Lunge und kann Asbest enthalten. Nie mit Druckluft abblasen; feucht abwischen oder mit HEPA-Filter absaugen.
    .word = WARNING
    .title = Bremsstaub
    .source = 29 CFR 1910.1001 Anhang F, Arbeitsweisen an Kupplung und Bremse
driver-speed-unknown = Blockierschutz der Bremsen und Stabilitätsregelung können ausfallen oder im falschen Moment eingreifen. Gehört der Sensor zu Motor oder Getriebe, kann der Antrieb ausfallen. Langsam, mit Abstand und nur zur Werkstatt fahren.
    .word = WARNING
    .title = Vorsichtig fahren
    .source = { source-practice }

# Arbeit
labour-check-sensor-wiring = Stecker und Leitung eines Drehzahlsensors prüfen
labour-replace-speed-sensor = Drehzahlsensor ersetzen
labour-replace-tooth-ring = Geberrad ersetzen

# Ursachenblatt
sheet-silent-beside-one = das andere Rad dreht sich, und dieser Sensor gibt keinen Impuls
sheet-silent-beside-several = was sich mit seiner Welle drehen muss, dreht sich, und dieser Sensor gibt keinen Impuls
sheet-gives-pulses = der Sensor gibt Impulse, während sich seine Welle dreht
sheet-breaks-off-often = die Impulse setzen mehrmals aus und laufen im Takt weiter: Die Welle drehte sich weiter
sheet-breaks-off-twice = die Impulse setzen zweimal aus und laufen im Takt weiter: Die Welle drehte sich weiter
sheet-silent-at-times = die Impulse brechen aus der Drehung heraus ab, während sich weiterdreht, was sich mit der Welle dreht
sheet-never-breaks-off = kein Impuls ging verloren, solange sich die Welle drehte
sheet-tooth-at-one-place = ein Zahn fehlt, ist gebrochen, doppelt oder verschoben, auf jeder Umdrehung an derselben Stelle
sheet-teeth-whole = jeder Zahn war auf jeder Umdrehung zu sehen
sheet-varies-once-a-turn = das Signal wird einmal je Umdrehung größer und kleiner, oder seine Zähne kommen früher und später, im Takt des Rads
sheet-even-over-the-turn = das Signal ist über die Umdrehung gleichmäßig
sheet-weaker-than-its-twin = bei gleicher Drehzahl gibt er weniger als die Hälfte des Sensors der anderen Seite
sheet-weak-alone = seine Spannung ist für seine Drehzahl zu klein
sheet-weak-among-others = bei gleicher Drehzahl gibt er weniger als zwei Fünftel jedes anderen Sensors seiner Art
sheet-strong-enough = seine Spannung ist für seine Drehzahl groß genug
sheet-crosses-downwards = das Signal fällt durch die Lücke des Geberrads; üblich ist, dass es steigt
sheet-crosses-upwards = das Signal steigt durch die Lücke des Geberrads, wie es üblich ist
sheet-follows-the-engine = die Impulse folgen dem Motor, während sich dessen Drehzahl ändert, und ihre Höhe folgt nicht ihrer Frequenz, wie es bei einer Spule sein muss
sheet-is-rotation = die Impulse sind die einer Welle, die sich dreht

# Verfahren
method-sensor-rotation = Die Drehzahl ist die Zahnfrequenz über eine Umdrehung, geteilt durch die Positionen, als Median über jeden Abschnitt, in dem sie sich um höchstens 4 % ändert. Impulse einer Spule gelten als Einstreuung, wenn sie über eine Änderung der Motordrehzahl in einem Verhältnis zum Motor bleiben und ihre Höhe mit weniger als der Potenz 0,4 der Frequenz wächst.
method-tooth-ring = Jede Stelle des Geberrads wird über die Umdrehungen gemittelt. Ein Zahn gilt als fehlend, wenn er in weniger als der Hälfte gesehen wird, als gebrochen unter 0,6 der Höhe seiner Nachbarn oder wenn in der Lücke ein Rest seiner Welle steht, als verschoben ab einer Viertelteilung. Der Schlag ist die erste Harmonische über die Umdrehung.
method-sensor-amplitude = Die Höhe einer Spule ist die halbe Spitze-Spitze-Spannung, geteilt durch die Zahnfrequenz und auf 100 min⁻¹ bezogen. Die Pegel eines schaltenden Sensors sind die häufigsten Werte seines Histogramms (IEEE Std 181).
method-sensor-polarity = Über einer Lücke liegt das Signal einer Spule in seiner Mitte; gezählt wird über alle Lücken, ob es von unten oder von oben kommt.
method-cam-phase = Zwischen den Zähnen des Geberrads der Kurbelwelle wird der Winkel interpoliert; die Flanken der Nockenwelle werden über alle Umdrehungen von Lücke zu Lücke gesammelt, und ihr Median zählt.
method-sensor-interruptions = Ein Aussetzer geht im Takt weiter, oder nach weniger als einer Sekunde mit gleicher Drehzahl. Schweigen zählt, wenn ein anderer Sensor, der sich mitdrehen muss, eine Sekunde lang über 30 min⁻¹ liegt und ein gesunder Sensor dabei zu sehen gewesen wäre.
method-sensor-pair = Die Drehzahlen beider Räder werden auf einem gemeinsamen Zeitraster Punkt für Punkt verglichen; der Wert ist der Median.

# Quellen der Grenzwerte.
sheet-source-speed-coil = bei 100 min⁻¹; ein integrierter Auswertebaustein für Spulen spricht ab 45 mV an (Datenblatt LM1815, TI SNOSBU8F), und ein Rad muss ab Schritttempo erkannt werden; Ermessen
sheet-source-speed-beside = gängige Praxis, ohne Quelle: Spulen einer Achse geben auf ein Drittel gleich viel ab; die Hälfte entspricht einem um ein Zehntel der Teilung größeren Luftspalt
sheet-source-speed-among = gängige Praxis, ohne Quelle: Spulen vor Ringen mit gleich vielen Zähnen geben von Achse zu Achse höchstens das Doppelte oder die Hälfte ab
sheet-source-speed-field = das Feld fällt mit exp(-2 pi x / Teilung) ab: 25 % entsprechen einem Schlag von 4 % der Teilung nach jeder Seite; gängige Praxis, ohne Quelle
sheet-source-speed-runout = gängige Praxis, ohne Quelle: ein Ring, der um 2 % seines Halbmessers außermittig sitzt
