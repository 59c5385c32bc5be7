kind-coil-resistance = Spulenwiderstand
kind-coil-inductance = Spuleninduktivität
kind-armature-move-time = Ankerbewegung
kind-armature-silent = Anker ohne Bewegung
kind-hold-current = Haltestrom
kind-chopper-rate = Taktfrequenz
kind-flyback-voltage = Abschaltspannung
kind-dwell-time = Einschaltdauer
kind-current-limit = Strombegrenzung
kind-driver-drop = Restspannung der Endstufe
kind-coil-no-current = Kein Strom
kind-coil-steady-current = Strom ohne Pause

coil-resistance = Der Spulenkreis hat { $value } Ohm; der Bezugswert ist { $reference } Ohm.
coil-resistance-alone = Der Spulenkreis hat { $value } Ohm; ein Vergleichswert ist nicht angegeben.
coil-resistance-unequal = Der Spulenkreis hat { $value } Ohm, der einzige andere { $reference } Ohm: einer der beiden weicht ab, und zwei allein sagen nicht, welcher.
coil-resistance-low = Der Spulenkreis hat nur { $value } Ohm; angegeben sind { $reference } Ohm.
coil-resistance-high = Der Spulenkreis hat { $value } Ohm; angegeben sind { $reference } Ohm.
coil-resistance-unclear = Der Spulenkreis hat { $value } Ohm; gegenüber den angegebenen { $reference } Ohm liegt das zu nah am Grenzwert für ein Urteil.
coil-resistance-unsettled = Der Strom erreicht innerhalb einer Betätigung seinen Endwert nicht; der Kreis hat höchstens { $most } Ohm.
coil-resistance-below-others = Der Spulenkreis hat nur { $value } Ohm; die anderen haben { $reference } Ohm.
coil-resistance-above-others = Der Spulenkreis hat { $value } Ohm; die anderen haben { $reference } Ohm.
coil-inductance = Bevor sich ihr Anker bewegt, hat die Spule { $value } mH.
coil-inductance-unequal = Die Spule hat { $value } mH, die einzige andere { $reference } mH: eine der beiden weicht ab, und zwei allein sagen nicht, welche.
coil-inductance-below-others = Bevor sich ihr Anker bewegt, hat die Spule nur { $value } mH; die anderen haben { $reference } mH.
armature-move-time = Der Anker schlägt { $value } ms nach dem Einschalten an (Mittel aus { $actuations } Betätigungen).
armature-late = Der Anker schlägt erst { $value } ms nach dem Einschalten an, die der anderen nach { $reference } ms.
armature-late-plain = { $subject-name }: Die Bewegung kommt später als bei den anderen.
armature-silent = Der Strom steigt ohne den Knick eines bewegten Ankers (Mittel aus { $actuations } Betätigungen).
armature-silent-beside-others = Der Strom steigt ohne den Knick, den die anderen Spulen zeigen.
armature-silent-beside-others-plain = { $subject-name }: Beim Einschalten bewegt sich nichts; bei den anderen ist die Bewegung zu sehen.
armature-unclear = Der Strom zeigt keinen Knick, wo andere Spulen einen zeigen; die Aufzeichnung ist aber zu grob, um ihn vermisst zu nennen.
armature-none = Eine Zündspule hat keinen Anker.
armature-late-weak = Der Anker schlägt erst { $value } ms nach dem Einschalten an, die der anderen nach { $reference } ms; diese Spule bekommt aber weniger Strom als sie.
armature-unequal = Der Anker schlägt { $value } ms nach dem Einschalten an, der der einzigen anderen Spule nach { $reference } ms: zwei allein sagen nicht, was üblich ist.
armature-silent-weak = Eine Bewegung des Ankers ist nicht zu sehen; diese Spule bekommt aber weniger Strom als die anderen.
hold-current = Nach einer Spitze von { $peak } A hält die Endstufe { $value } A.
current-without-pause = Ein Strom von im Mittel { $value } A fließt ohne Pause.
chopper-rate = Die Endstufe taktet den Strom mit { $value } Hz.
flyback-voltage = Beim Abschalten steigt die geschaltete Seite auf { $value } V.
dwell-time = Die Spule ist { $value } ms lang eingeschaltet ({ $actuations } Betätigungen).
current-limit = Die Endstufe begrenzt den Strom nach { $reached_ms } ms auf { $value } A.
driver-drop = Eingeschaltet liegt die geschaltete Seite bei { $value } V.
driver-drop-high = Eingeschaltet liegt die geschaltete Seite noch bei { $value } V.
no-current-driven = Die Endstufe zog die geschaltete Seite { $pulls }-mal an Masse, und es floss kein Strom.
no-current-not-driven = Es floss kein Strom, und die geschaltete Seite blieb bei { $level } V: Die Endstufe zog sie nie an Masse.
no-current-dead-feed = Es floss kein Strom, und die geschaltete Seite lag bei { $level } V: Die Versorgung kommt durch die Spule nicht an.
no-current-beside-others = Es floss kein Strom, während { $working } andere Spulen arbeiteten.
no-current-unwitnessed = Es floss kein Strom, und nichts zeigt, dass die Spule eingeschaltet wurde.
coil-always-on = Ein Strom von { $value } A fließt ohne Pause, und die geschaltete Seite bleibt bei { $level } V.

cause-coil-open = Der Stromkreis der Spule ist unterbrochen
cause-coil-open-plain = Die Spule bekommt keinen Strom: Ihre Wicklung, ihr Stecker oder ihre Leitung ist unterbrochen.
cause-coil-open-ruled-out = Eine unterbrochene Spule
repair-coil-open-1 = Bei abgezogenem Stecker den Widerstand der Spule selbst messen.
repair-coil-open-2 = Die Spule ersetzen, wenn sie unterbrochen ist; sonst die Unterbrechung in Versorgung, Stecker oder Leitung zum Steuergerät suchen.
proof-coil-open = Dieselbe Aufzeichnung noch einmal: Bei jeder Betätigung fließt Strom.

cause-coil-shorted-turns = Die Spule hat Windungsschluss
cause-coil-shorted-turns-plain = Ein Teil der Wicklung ist überbrückt: Die Spule zieht zu viel Strom und zu wenig an.
cause-coil-shorted-turns-ruled-out = Ein Windungsschluss der Spule
repair-coil-shorted-turns-1 = Bei abgezogenem Stecker den Widerstand der Spule selbst messen und mit dem Wert des Herstellers bei ihrer Temperatur vergleichen.
repair-coil-shorted-turns-2 = Die Spule ersetzen und die Endstufe prüfen, die den höheren Strom getragen hat.
proof-coil-shorted-turns = Dieselbe Aufzeichnung noch einmal: Der Strom endet dort, wo der Widerstand des Herstellers ihn enden lässt.

cause-armature-sticking = Das bewegliche Teil eines Ventils oder Relais klemmt
cause-armature-sticking-plain = Es bewegt sich nicht oder zu spät, obwohl es seinen Strom bekommt.
cause-armature-sticking-ruled-out = Ein klemmendes Ventil oder Relais
repair-armature-sticking-1 = Das Bauteil mit seinem Nachbarn tauschen und noch einmal aufzeichnen: Der Fehler muss mitwandern.
repair-armature-sticking-2 = Das klemmende Bauteil reinigen oder ersetzen.
proof-armature-sticking = Dieselbe Aufzeichnung noch einmal: Alle Spulen zeigen den Knick zur selben Zeit.

cause-coil-wiring-resistance = Der Spulenkreis hat zu viel Widerstand
cause-coil-wiring-resistance-plain = Ein Stecker, eine Leitung oder ein Massepunkt auf dem Weg zur Spule hält einen Teil der Spannung zurück.
cause-coil-wiring-resistance-ruled-out = Zu viel Widerstand in der Leitung der Spule
repair-coil-wiring-resistance-1 = Bei fließendem Strom den Spannungsabfall an Versorgung, Stecker und geschalteter Leitung Stelle für Stelle messen.
repair-coil-wiring-resistance-2 = Die Stelle mit dem Abfall instand setzen; die Spule nur ersetzen, wenn sie selbst zu hoch misst.
proof-coil-wiring-resistance = Dieselbe Aufzeichnung noch einmal: Der Strom endet dort, wo der Widerstand des Herstellers ihn enden lässt.

cause-driver-fault = Die Endstufe der Spule arbeitet nicht
cause-driver-fault-plain = Der Ausgang des Steuergeräts, der die Spule schalten soll, schaltet sie nicht, wie er muss.
cause-driver-fault-ruled-out = Eine defekte Endstufe
repair-driver-fault-1 = Versorgung und Masse des Steuergeräts prüfen und die Bedingungen, unter denen es diese Spule schaltet.
repair-driver-fault-2 = Die geschaltete Leitung über eine abgesicherte Prüflampe an Masse legen, wo der Hersteller es erlaubt: Arbeitet die Spule, sind Leitung und Spule in Ordnung.
repair-driver-fault-3 = Das Steuergerät erst instand setzen oder ersetzen, wenn Leitung und Spule nachgewiesen in Ordnung sind.
proof-driver-fault = Dieselbe Aufzeichnung noch einmal: Die geschaltete Seite kommt bei jeder Betätigung an Masse.

next-record-coil-current = Den Strom der Spule mit einer Zange passenden Messbereichs aufzeichnen, mindestens 20 Abtastwerte je Millisekunde, über mehrere Betätigungen.
next-record-coil-voltage = Die geschaltete Seite der Spule gegen Masse und die Versorgung gemeinsam mit dem Strom aufzeichnen.
next-record-coil-faster = Den Spulenstrom mit mindestens 50 Abtastwerten je Millisekunde und über mindestens zehn Betätigungen aufzeichnen.
next-record-coil-siblings = Die Ströme aller gleichartigen Spulen des Motors in einer Aufzeichnung aufnehmen.
next-measure-coil-resistance = Bei abgezogenem Stecker den Widerstand der Spule messen und ihre Temperatur notieren.
next-measure-coil-driver = Versorgung und Masse des Steuergeräts prüfen, und ob die Bedingungen zum Schalten dieser Spule erfüllt sind.
next-state-coil-ohm = Den Widerstand der Spule bei 20 Grad Celsius nach Herstellerangabe angeben (coil_ohm).

caution-fuel = Kraftstoff unter Druck sprüht und brennt. Vor dem Öffnen einer Leitung den Druck abbauen, Funken fernhalten, Augen und Haut schützen.
    .word = DANGER
    .title = Kraftstoff
    .source = { source-practice }
caution-ignition-voltage = Zündspannungen können töten. Eine laufende Zündanlage nie berühren und eine Zündspule nie ohne ihre Last betreiben.
    .word = DANGER
    .title = Zündspannung
    .source = { source-practice }
caution-hot-engine = Motor, Abgasanlage und Ventile verbrennen die Haut. Vor dem Hineingreifen abkühlen lassen.
    .word = CAUTION
    .title = Heißer Motor
    .source = { source-practice }

reason-armature-weak = Ein Anker schlägt spät oder gar nicht an, und seine Spule bekommt weniger Strom als die anderen.
reason-two-coils-unequal = Zwei Spulen unterscheiden sich, und nichts sagt, welche von ihnen ist, wie sie sein soll.
reason-resistance-unsettled = Der Strom erreichte innerhalb einer Betätigung seinen Endwert nicht, so dass der angegebene Widerstand nicht zu prüfen war.
reason-armature-unclear = Eine Spule zeigt keinen Knick, und die Aufzeichnung ist zu grob, um zu sagen, warum.
why-coil-not-driven = nichts zeigt, dass die Spule eingeschaltet wurde
why-coil-no-reference = kein Vergleichswert für den Widerstand
why-coil-too-coarse = für den Nachweis einer Bewegung zu grob aufgezeichnet

labour-measure-coil = Strom und Spannung einer Spule messen
labour-replace-coil = Spule, Ventil oder Einspritzventil ersetzen
labour-repair-coil-wiring = Leitung einer Spule instand setzen

system-coil = Spulen: Einspritzventile, Magnetventile, Relais, Zündung
subject-coil-current = Spulenstrom
subject-coil-current-n = Strom von Spule { $n }
subject-coil-voltage = geschaltete Seite der Spule
method-coil-currents = Alle Betätigungen einer Spule werden ab dem Einschalten gemittelt. Der Widerstand ist die Spannung an der Spule durch den Strom, bei dem sie sich einstellt; die Induktivität ist die Steigung von -ln(1 - iR/U) über der Zeit, bevor sich der Anker bewegt. Der Anker schlägt an, wo der Anstieg nach seinem Nachlassen wieder zunimmt (der Knick); ein Anstieg ohne Knick zählt nur, wo das Rauschen ihn gezeigt hätte. Gehaltener und begrenzter Strom werden vom eingestellten daran unterschieden, wie plötzlich der Anstieg endet.

# Ursachenblätter

sheet-coil-driven-without-current = die Endstufe legt die Spule an Masse, und es fließt kein Strom
sheet-coil-no-voltage-through = die Versorgung kommt durch die Spule nicht an der geschalteten Seite an
sheet-coil-one-without-current = eine Spule führt keinen Strom, während andere arbeiten: die Spule, ihre Leitung oder ihre Endstufe
sheet-coil-driver-idle = die Versorgung kommt durch die Spule an der geschalteten Seite an
sheet-coil-current-flows = bei jeder Betätigung fließt Strom
sheet-coil-below-stated = die Wicklung hat weniger Widerstand, als sie bei irgendeiner Temperatur haben kann
sheet-coil-below-others = eine Spule hat weniger Widerstand als die anderen desselben Motors
sheet-coil-steeper = der Strom einer Spule steigt steiler als der der anderen
sheet-coil-winding-right = die Wicklung hat den Widerstand, den sie haben soll
sheet-coil-silent-beside-others = der Strom einer Spule steigt ohne den Knick, den die anderen zeigen
sheet-coil-notch-source = Ermessen; Datenblatt LM1949 für den Knick
sheet-coil-silent = der Strom steigt ohne Knick, obwohl die Aufzeichnung ihn gezeigt hätte
sheet-coil-late = ein Anker schlägt später an als die anderen desselben Motors
sheet-coil-none-there = eine Zündspule hat keinen Anker
sheet-coil-moves = der Anker bewegt sich bei jeder Betätigung
sheet-coil-winding-weak = eine Spule mit falschem Widerstand zieht zu schwach, um ihren Anker zu bewegen
sheet-coil-above-stated = der Kreis hat mehr Widerstand, als Spule und Leitung bei irgendeiner Temperatur haben können
sheet-coil-above-others = der Kreis einer Spule hat mehr Widerstand als die der anderen
sheet-coil-drop-at-driver = die geschaltete Seite kommt nicht bis an Masse: die Endstufe oder die Leitung dazwischen
sheet-coil-circuit-right = der Kreis hat den Widerstand, den er haben soll
sheet-coil-never-pulls-down = die geschaltete Seite bleibt an der Versorgung, obwohl die Spule arbeiten müsste
sheet-coil-never-lets-go = Strom fließt ohne Pause, und die geschaltete Seite bleibt an Masse
sheet-coil-pulls-badly = die Endstufe lässt die geschaltete Seite weit über Masse
sheet-coil-switches = die Endstufe schaltet die Spule ein und aus
sheet-coil-pulls-down = die Endstufe legt die Spule an Masse
sheet-coil-supply = bei zu niedriger Spannung steigt der Strom einer Spule langsam und ihr Anker bewegt sich spät
sheet-coil-driver-weak = eine Endstufe, die schlecht durchschaltet, lässt zu wenig Strom, um den Anker zu bewegen

# Quellen der Grenzwerte.
sheet-source-coil-copper = Kupfer, 0,393 % je Kelvin (IEC 60028): -20 bis 105 Grad Celsius gegen 20; zur oberen Grenze kommt ein halbes Ohm für Leitung und Treiber (gängige Praxis)
sheet-source-coil-among = gängige Praxis, ohne Quelle: Spulen eines Motors bei gleicher Temperatur; Handbücher lassen eine Streuung von 3 Ohm bei 14 zu (Chevrolet 3,1 L 2004)
sheet-source-coil-inductance = gängige Praxis, ohne Quelle: Spulen eines Motors
sheet-source-coil-armatures = gängige Praxis, ohne Quelle: Anker der Spulen eines Motors
sheet-source-coil-driver = gängige Praxis, ohne Quelle: ein Transistor lässt 0,1 bis 0,3 V stehen, ein Darlington bis 1,2 V
sheet-source-coil-least = Überlegung: eine Betätigung dauert Millisekunden; ob genug aufgezeichnet sind, beurteilen die Messungen selbst
