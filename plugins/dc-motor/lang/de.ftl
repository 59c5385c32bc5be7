# Start and run
motor-inrush = Beim Einschalten zieht der Motor in der Spitze { NUMBER($value, maximumFractionDigits: 1) } A.
motor-runs = Im gleichmäßigen Lauf zieht der Motor { NUMBER($value, maximumFractionDigits: 2) } A{ $share_percent ->
    [0] {""}
   *[other] , { NUMBER($share_percent, maximumFractionDigits: 0) } % seines Stillstandsstroms
 }.
motor-runs-raised = Im gleichmäßigen Lauf zieht der Motor { NUMBER($value, maximumFractionDigits: 2) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % seines Stillstandsstroms: mehr als üblich.
motor-runs-hard = Im Lauf zieht der Motor { NUMBER($value, maximumFractionDigits: 1) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % seines Stillstandsstroms: Er wird stark gebremst.
motor-runs-beyond-sheet = Im Lauf zieht der Motor { NUMBER($value, maximumFractionDigits: 2) } A; das Grenzwertblatt nennt für ihn andere Werte.
motor-runs-alone = Im gleichmäßigen Lauf zieht der Motor { NUMBER($value, maximumFractionDigits: 2) } A.
motor-draws-nothing = Mit { NUMBER($volts, maximumFractionDigits: 1) } V an seinen Klemmen zieht der Motor keinen Strom.
motor-draws-nothing-flat = Mit { NUMBER($volts, maximumFractionDigits: 1) } V am Motor zeigt der Stromkanal gar nichts, nicht einmal Rauschen: Vielleicht war er nicht angeschlossen.
motor-resistance-start = Wicklung und Bürsten haben { NUMBER($value, maximumFractionDigits: 0) } Milliohm: Der Anlauf beginnt bei { NUMBER($current_a, maximumFractionDigits: 1) } A.
motor-resistance-stall = Im Stillstand hat der Motor { NUMBER($value, maximumFractionDigits: 0) } Milliohm.
motor-start = Der Motor läuft mit einer Zeitkonstante von { NUMBER($value, maximumFractionDigits: 3) } s hoch; im Lauf beträgt seine Gegenspannung { NUMBER($back_emf_percent, maximumFractionDigits: 0) } % der Spannung.
motor-stall = Für { NUMBER($value, maximumFractionDigits: 2) } s zieht der Motor { NUMBER($current_a, maximumFractionDigits: 1) } A und dreht sich nicht.
motor-stall-plain = Der Motor war eingeschaltet und drehte sich nicht.
motor-stall-current-only = Für { NUMBER($value, maximumFractionDigits: 2) } s zieht der Motor { NUMBER($current_a, maximumFractionDigits: 1) } A und zeigt kein Anzeichen einer Drehung; seine Spannung wurde nicht aufgezeichnet.
motor-stall-later = Der Motor drehte sich zuerst; dann zieht er { NUMBER($value, maximumFractionDigits: 2) } s lang { NUMBER($current_a, maximumFractionDigits: 1) } A und steht: Er traf auf ein Hindernis oder auf das Ende dessen, was er bewegt.
motor-stall-later-plain = Der Motor drehte sich und blieb dann stehen, obwohl er eingeschaltet war.
motor-stall-unclear = Für { NUMBER($value, maximumFractionDigits: 2) } s zieht der Motor { NUMBER($current_a, maximumFractionDigits: 1) } A; aus dieser Aufzeichnung geht nicht hervor, ob er drehte.

# Speed and commutation
motor-speed = Der Motor dreht mit { NUMBER($value, maximumFractionDigits: 0) } min⁻¹, nach der Welligkeit seiner { $bars } Lamellen.
motor-speed-low = Der Motor dreht mit nur { NUMBER($value, maximumFractionDigits: 0) } min⁻¹, nach der Welligkeit seiner { $bars } Lamellen.
commutation-rate = Die Kommutierung hinterlässt eine Welligkeit von { NUMBER($value, maximumFractionDigits: 0) } Hz; mit der Lamellenzahl in job.toml ist das eine Drehzahl.
commutation-gap = Der Strom bricht { $value ->
    [one] einmal
   *[other] { $value }-mal
 } je Umdrehung um { NUMBER($depth_percent, maximumFractionDigits: 0) } % ein, über { $turns } Umdrehungen: Eine Lamelle, ihre Wicklung oder eine Bürste trägt nicht.
commutation-gap-plain = An derselben Stelle jeder Umdrehung setzt der Strom des Motors aus.
commutation-gap-none = Über { NUMBER($turns, maximumFractionDigits: 0) } Umdrehungen hinterlässt keine Lamelle eine Lücke von mehr als { $depth_percent } % im Strom.
commutation-gap-not-tested = Die Welligkeit der Kommutierung ist nicht deutlich genug, um eine Lücke zu sehen.
commutation-gap-unclear = Der Strom bricht { NUMBER($hz, maximumFractionDigits: 0) }-mal je Sekunde ein; ob der Motor oder eine getaktete Versorgung das verursacht, sagt die Aufzeichnung nicht.
commutation-uneven = Der Strom schwankt um { NUMBER($swing_percent, maximumFractionDigits: 0) } % mit { NUMBER($hz, maximumFractionDigits: 0) } Hz, einmal oder zweimal je Umdrehung, über { NUMBER($turns, maximumFractionDigits: 0) } Umdrehungen: Eine Lamelle, ihre Wicklung oder eine Bürste trägt anders als die übrigen. So stark schwankt keine Last innerhalb einer Umdrehung.
commutation-uneven-plain = An einer Stelle jeder Umdrehung tragen Wicklung oder Bürsten des Motors nicht, wie sie sollen.
commutation-uneven-unclear = Der Strom schwankt um { NUMBER($swing_percent, maximumFractionDigits: 0) } % mit { NUMBER($hz, maximumFractionDigits: 0) } Hz und deren Vielfachen; ob das die Welligkeit eines gesunden Motors ist oder eine Lamelle, die schlecht trägt, sagt die Aufzeichnung nicht.
commutation-rate-unclear = Der Strom schwankt { NUMBER($hz, maximumFractionDigits: 0) }-mal je Sekunde: die Welligkeit eines Motors mit { NUMBER($rpm, maximumFractionDigits: 0) } min⁻¹ oder eine schlecht tragende Lamelle eines schnelleren; welches von beiden, sagt die Aufzeichnung nicht.

# Load over the turn
load-even = Innerhalb einer Umdrehung schwankt die Last um höchstens { NUMBER($value, maximumFractionDigits: 0) } % ihres Mittels.
load-uneven = Einmal je Umdrehung steigt und fällt die Last um { NUMBER($value, maximumFractionDigits: 0) } % ihres Mittels: Der Motor oder das, was er antreibt, geht an einer Stelle schwer.
load-uneven-plain = Einmal in jeder Umdrehung arbeitet der Motor gegen mehr Widerstand als sonst.
load-uneven-unclear = Einmal je Umdrehung schwankt die Last um { NUMBER($value, maximumFractionDigits: 0) } % ihres Mittels: mehr als üblich und zu wenig, um von einer schwergängigen Stelle zu sprechen.
load-not-tested = Eine Last, die innerhalb der Umdrehung um bis zu { NUMBER($least_percent, maximumFractionDigits: 0) } % schwankt, wäre nicht zu sehen gewesen.

# Wiring
wiring-resistance = Die Leitung zum Motor hat { NUMBER($value, maximumFractionDigits: 0) } Milliohm: { NUMBER($drop_v, maximumFractionDigits: 2) } V bei { NUMBER($current_a, maximumFractionDigits: 1) } A.
wiring-resistance-high = Die Leitung zum Motor hat { NUMBER($value, maximumFractionDigits: 0) } Milliohm, zu viel: Bei { NUMBER($current_a, maximumFractionDigits: 1) } A gehen { NUMBER($drop_v, maximumFractionDigits: 1) } V verloren.
wiring-resistance-high-plain = Auf dem Weg zum Motor gehen { NUMBER($drop_v, maximumFractionDigits: 1) } V der Versorgung verloren.

# Three phases
electrical-rate = Die Phasenströme wechseln mit { NUMBER($value, maximumFractionDigits: 1) } Hz.
phases-alike = Die Phasen tragen gleich: { NUMBER($u_a, maximumFractionDigits: 1) }, { NUMBER($v_a, maximumFractionDigits: 1) } und { NUMBER($w_a, maximumFractionDigits: 1) } A effektiv.
phases-unequal = Die Phasen tragen ungleich: { NUMBER($u_a, maximumFractionDigits: 1) }, { NUMBER($v_a, maximumFractionDigits: 1) } und { NUMBER($w_a, maximumFractionDigits: 1) } A effektiv.
phase-missing = Phase { $missing } führt keinen Strom; die beiden anderen führen denselben hin und zurück.
phases-unclear = Die Phasenströme ergeben zusammen nicht null: Eine Zange sitzt nicht, ist verdreht oder hat einen anderen Faktor; die Phasen lassen sich nicht vergleichen.
link-ripple = Der Strom des Umrichters schwankt um { NUMBER($value, maximumFractionDigits: 0) } % seines Mittelwerts.
link-ripple-single-phase = Der Strom des Umrichters fällt { NUMBER($hz, maximumFractionDigits: 0) }-mal je Sekunde auf null: Er speist nur zwei Leitungen des Motors.

# Kinds of finding
kind-running-current = Laufstrom
kind-motor-resistance = Motorwiderstand
kind-motor-start = Hochlauf
kind-motor-stall = Blockierung
kind-motor-speed = Motordrehzahl
kind-commutation-rate = Kommutierungsfrequenz
kind-commutation-gap = Lücke in der Kommutierung
kind-load-variation = Last über die Umdrehung
kind-wiring-resistance = Leitungswiderstand
kind-electrical-rate = Elektrische Frequenz
kind-phase-imbalance = Phasenunsymmetrie
kind-link-ripple = Welligkeit des Zwischenkreisstroms

# Channels, system
subject-motor-current = Motorstrom
subject-motor-voltage = Motorspannung
subject-phase-current-u = Strom der Phase u
subject-phase-current-v = Strom der Phase v
subject-phase-current-w = Strom der Phase w
subject-link-current = Zwischenkreisstrom
system-dc-motor = Elektromotor

# Causes
cause-motor-tight = Der Motor dreht zu schwer
cause-motor-tight-plain = Der Motor arbeitet gegen einen Widerstand, der nicht da sein sollte: ein verschlissenes Lager, eine verstopfte Pumpe oder ein schwergängiger Antrieb.
cause-motor-tight-ruled-out = Ein schwergängiger Motor
cause-motor-jammed = Der Motor ist blockiert
cause-motor-jammed-plain = Der Motor bekommt Strom und dreht sich nicht; er selbst oder das, was er antreibt, sitzt fest.
cause-motor-jammed-ruled-out = Ein blockierter Motor
cause-commutator-fault = Kommutator oder Bürsten des Motors sind schadhaft
cause-commutator-fault-plain = An einer Stelle jeder Umdrehung bekommt der Motor keinen Strom; dort kann er eines Tages stehen bleiben und nicht mehr anlaufen.
cause-commutator-fault-ruled-out = Ein schadhafter Kommutator
cause-motor-wiring-resistance = Die Leitung zum Motor hat zu hohen Widerstand
cause-motor-wiring-resistance-plain = Ein Teil der Spannung geht auf dem Weg zum Motor verloren, in einem Stecker, einem Relais, einer Verbindung oder Masse.
cause-motor-wiring-resistance-ruled-out = Widerstand in der Leitung des Motors
cause-motor-open-circuit = Der Stromkreis des Motors ist unterbrochen
cause-motor-open-circuit-plain = Der Motor ist eingeschaltet, und kein Strom fließt: Wicklung, Bürsten, Stecker oder Masse sind unterbrochen.
cause-motor-open-circuit-ruled-out = Ein unterbrochener Motorstromkreis
cause-motor-phase-missing = Eine Phase des Motors führt keinen Strom
cause-motor-phase-missing-plain = Eine der drei Leitungen des Motors führt keinen Strom: Der Motor ruckelt, hat wenig Kraft und wird heiß.
cause-motor-phase-missing-ruled-out = Eine fehlende Phase

# Repairs and their proof
repair-motor-tight-1 = Mit einem bekannt guten Motor gleicher Art vergleichen, unbelastet und belastet.
repair-motor-tight-2 = Das Angetriebene abkuppeln: Der Strom sagt, ob der Motor oder seine Last schwergängig ist. Dieses Teil instand setzen oder ersetzen.
proof-motor-tight = Dieselbe Aufzeichnung noch einmal: kleinerer Laufstrom bei höherer Drehzahl.
repair-motor-jammed-1 = Die Spannungsversorgung trennen und suchen, was den Motor festhält: ihn oder das Angetriebene von Hand drehen.
repair-motor-jammed-2 = Das Festsitzende gängig machen oder ersetzen; ein Motor, der lange unter Strom stand, hat eine verbrannte Wicklung und wird ersetzt.
proof-motor-jammed = Dieselbe Aufzeichnung noch einmal: Der Strom fällt vom Einschaltwert auf den Laufstrom.
repair-commutator-fault-1 = Prüfen, dass nicht Stecker oder Versorgung im selben Takt aussetzen.
repair-commutator-fault-2 = Den Motor ersetzen, oder Bürsten und Anker, wo der Hersteller sie liefert.
proof-commutator-fault = Dieselbe Aufzeichnung noch einmal: eine gleichmäßige Welligkeit ohne Lücken über viele Umdrehungen.
repair-motor-wiring-resistance-1 = Den Spannungsabfall unter Last Stück für Stück messen: Sicherung, Relais, Stecker, Leitung, Masse.
repair-motor-wiring-resistance-2 = Die Verbindung mit dem Spannungsabfall instand setzen; ein Relais mit verbrannten Kontakten wird ersetzt.
proof-motor-wiring-resistance = Dieselbe Aufzeichnung noch einmal: Fast die ganze Spannung kommt am Motor an.
repair-motor-open-circuit-1 = Bei abgezogenem Stecker den Widerstand der Wicklung messen und die Welle von Hand drehen: Er darf nicht aussetzen.
repair-motor-open-circuit-2 = Stecker, Leitung oder Masse instand setzen oder den Motor ersetzen, wenn Wicklung oder Bürsten unterbrochen sind.
proof-motor-open-circuit = Dieselbe Aufzeichnung noch einmal: Beim Einschalten fließt Strom.
repair-motor-phase-missing-1 = Den Umrichter abschalten und nach Herstellerangabe warten; dann jede Wicklung und jede Leitung von Stecker zu Stecker messen.
repair-motor-phase-missing-2 = Leitung oder Stecker instand setzen; sind sie heil, wird der Motor (offene Wicklung) oder der Umrichter (tote Halbbrücke) ersetzt.
proof-motor-phase-missing = Dieselbe Aufzeichnung noch einmal: drei gleiche Phasenströme.

# Steps to take next
next-record-motor-start = Strom und Spannung des Motors an seinem Stecker aufzeichnen, von vor dem Einschalten bis eine Sekunde nach dem Hochlauf, mit mindestens 10.000 Werten je Sekunde.
next-record-motor-supply = Die Spannung an der Quelle (Batterie oder Sicherung) zusammen mit Spannung und Strom am Motor aufzeichnen.
next-record-motor-known-good = Dieselbe Aufzeichnung an einem bekannt guten Motor gleicher Art machen und Strom und Drehzahl in ein Grenzwertblatt schreiben.
next-record-phases = Alle drei Phasenleitungen des Motors mit gleichem Faktor messen und zusammen im Lauf aufzeichnen.
next-measure-motor-winding = Bei abgezogenem Stecker den Widerstand der Wicklung messen und prüfen, dass die Zange um die Leitung lag.
next-turn-motor-by-hand = Bei getrennter Speisung den Motor von Hand eine ganze Umdrehung drehen und auf eine schwergängige Stelle achten; dann das Angetriebene für sich drehen.
next-state-motor-bars = Die Zahl der Kommutatorlamellen angeben (motor_bars in job.toml), damit sich eine einzelne Lamelle von der Welligkeit aller unterscheiden lässt.

# Why a cause was not tested
why-motor-never-ran = kein Anlauf wurde aufgezeichnet, der bis zum gleichmäßigen Lauf zu lesen war
why-motor-never-driven = der Motor wurde nie eingeschaltet
why-no-commutation-seen = die Welligkeit seiner Kommutierung war nicht deutlich genug zu sehen
why-no-voltage-at-source = die Spannung wurde nicht an beiden Enden der Leitung aufgezeichnet
why-phases-not-balanced = seine Phasenströme wurden nicht so aufgezeichnet, dass sie sich vergleichen lassen

# What held the verdict open
reason-commutation-unclear = Der Strom wiederholt sich mit der Umdrehung, und es ist nicht zu sagen, ob eine Lamelle oder die Welligkeit eines gesunden Motors das bewirkt.
reason-load-unclear = Die Last schwankt innerhalb der Umdrehung mehr als üblich, und es ist nicht zu sagen, ob das ein Fehler ist.

# Labour
labour-test-motor = Prüfung eines Elektromotors durch Aufzeichnung
labour-repair-motor-wiring = Leitung eines Motors instand setzen
labour-replace-motor = Motor ersetzen

# Cautions
caution-motor-starts = Pumpen und Lüfter können von selbst anlaufen, auch bei ausgeschalteter Zündung. Vor dem Hineingreifen die Spannungsversorgung trennen.
    .word = WARNING
    .title = Motor kann anlaufen
    .source = { source-practice }
caution-hot-motor = Ein Motor, der unter Strom stillstand, sein Stecker und seine Leitungen können heiß genug für Verbrennungen sein.
    .word = CAUTION
    .title = Heiße Teile
    .source = { source-practice }
driver-motor-stops = Was dieser Motor antreibt, kann jederzeit stehen bleiben. Ist es eine Kraftstoffpumpe, ein Kühlerlüfter, die Lenkung oder die Bremse, nicht fahren.
    .word = WARNING
    .title = Kann plötzlich stehen bleiben
    .source = { source-practice }
driver-motor-hot = Ein Motor, der schwer oder gar nicht dreht, wird heiß und kann brennen. Schalten Sie ihn ab und versuchen Sie es nicht immer wieder.
    .word = WARNING
    .title = Wird heiß
    .source = { source-practice }

# Methods
method-motor-run = Vom Einschalten an fällt der Strom exponentiell (V = R i + k w, J dw/dt = k i - T); auf den Einschaltzeitpunkt zurückgerechnet ergibt er den Widerstand. Eine Blockierung bleibt 0,2 s lang bei mindestens 82 % des Einschaltstroms und zeigt weder Welligkeit noch Gegenspannung.
method-motor-speed = Wellen je Umdrehung sind das kleinste gemeinsame Vielfache von Bürsten (zwei) und Lamellen. Die stärkste Linie kann eine niedrige Ordnung der Drehung sein; dann zählt die Linie, deren niedrige Ordnung sie ist. Eine Lücke muss bei jeder Umdrehung kommen und im Hochlauf langsamer, oder die Spannung der Quelle anheben. Linien mit der einfachen oder doppelten Drehfrequenz, die keine Last bewirken kann, weil die Trägheit des Läufers deren Anteil durch Wurzel(1 + (2 pi f tau)^2) teilt, sind die einer Lamelle; kleinere einmal je Umdrehung geben die Schwankung der Last an.
method-wiring-resistance = Der Widerstand ist die Steigung der Spannungsdifferenz über dem Strom, wo dieser sich ändert, sonst ihr Quotient.
method-three-phase = Effektivwerte ganzer Perioden; die Unsymmetrie ist die größte Abweichung von ihrem Mittel. Eine Phase fehlt nur, wo die beiden anderen denselben Strom hin und zurück führen (Kirchhoff).

# Reasons of the cause sheet
sheet-motor-held-up = im Lauf zieht der Motor mehr als die Hälfte seines Stillstandsstroms: Er wird gebremst
sheet-motor-beyond-known-good = der Motor zieht einen anderen Strom als ein bekannt guter gleicher
sheet-motor-raised = der Motor zieht mehr von seinem Stillstandsstrom als üblich
sheet-motor-stalls-later = der Motor drehte sich, dann stieg der Strom auf seinen Einschaltstrom und zeigt keine Kommutierung: Er traf auf ein Hindernis oder auf das Ende dessen, was er bewegt
sheet-motor-runs-freely = der Motor läuft mit einem kleinen Teil seines Stillstandsstroms
sheet-motor-slow = der Motor dreht langsamer, als sein Datenblatt sagt
sheet-motor-stands-current = der Strom bleibt auf seinem Einschaltwert und zeigt keine Kommutierung; ohne die Spannung ist ein strombegrenzender Treiber nicht ausgeschlossen
sheet-motor-stands = der Strom bleibt auf seinem Einschaltwert und zeigt keine Kommutierung: Der Motor wird bestromt und dreht nicht
sheet-motor-turned = der Motor hat gedreht
sheet-bar-missing = an derselben Stelle jeder Umdrehung bricht der Strom ein: Eine Lamelle, ihre Wicklung oder eine Bürste trägt nicht
sheet-bars-whole = alle Lamellen tragen über viele Umdrehungen gleich
sheet-motor-tight-spot = einmal je Umdrehung arbeitet der Motor gegen eine größere Last: Er geht an einer Stelle schwer
sheet-motor-feed-drops = zwischen Quelle und Motor fällt die Spannung mit dem Strom, und zwar zu viel
sheet-motor-feed-holds = fast die ganze Spannung der Quelle kam am Motor an
sheet-motor-draws-nothing = der Motor hat seine Spannung und zieht keinen Strom
sheet-motor-draws = der Motor hat Strom gezogen
sheet-phase-carries-nothing = eine Phase führt keinen Strom, und die beiden anderen führen denselben hin und zurück
sheet-link-pulses = der Strom des Umrichters fällt zweimal je Periode auf null, wie bei einphasiger Leistung
sheet-phases-differ = die Phasen führen ungleiche Ströme
sheet-phases-alike = alle drei Phasen tragen gleich
sheet-link-even = der Strom des Umrichters bleibt gleichmäßig, wie bei drei gleichen Phasen
sheet-motor-supply = ein Motor an zu niedriger Spannung läuft langsam und zieht einen anderen Strom

# Quellen der Grenzwerte.
sheet-source-motor-half-stall = Ermessen: ein Motor gibt seine höchste Leistung bei der Hälfte seines Stillstandsstroms ab (Lehrbuch: V = R i + k w), und keiner ist dafür gebaut, darüber zu laufen; dazwischen ist der Strom erhöht
sheet-source-motor-free = Ermessen: ohne Last dreht ein Motor nur gegen seine eigene Reibung
sheet-source-motor-connection = gängige Praxis, ohne Quelle: mehr als 0,5 V Spannungsabfall an einer Verbindung unter Last sind meist ein Fehler
sheet-source-motor-standing = Ermessen: ein stehender Motor zieht zwei- bis viermal so viel wie ein laufender
sheet-source-motor-phases = Ermessen: ein Steuergerät hält die Ströme eines intakten Motors gleich; Zangen weichen um 1 bis 3 % voneinander ab
sheet-source-motor-link = Ermessen: einphasige Leistung geht zweimal je Periode auf null, und ihre erste Linie hat 133 % (gleichgerichteter Sinus) bis 200 % (sein Quadrat) des Mittelwerts von Spitze zu Spitze; bei drei gleichen Phasen bleibt sie unter 20 %
sheet-source-motor-least = Ermessen: ein Anlauf und einige Zehntelsekunden ruhiger Lauf
sheet-source-motor-load = Ermessen: eine Last, die an einer Stelle der Umdrehung um mehr als das schwerer wird, ist von Hand zu spüren; unter dem kleineren Wert erklären sie Kupplungen und Lager
sheet-source-motor-largest = Ermessen: Anlasser sind die größten Motoren mit Bürsten
sheet-source-motor-batteries = Batterien von Elektrofahrzeugen haben bis zu 900 V; gängige Praxis, ohne Quelle
