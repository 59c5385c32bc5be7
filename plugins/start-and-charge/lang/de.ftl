# Battery and starter
rest-voltage = In Ruhe hat die Batterie { NUMBER($value, maximumFractionDigits: 2) } V.
rest-voltage-low = In Ruhe hat die Batterie nur { NUMBER($value, maximumFractionDigits: 2) } V: Sie ist weniger als halb geladen. Über ihren Zustand sagt das nichts.
cranking-voltage = Während der Anlasser den Motor dreht, hält die Batterie mindestens { NUMBER($value, maximumFractionDigits: 2) } V (Einschaltstoß: { NUMBER($inrush_v, maximumFractionDigits: 2) } V).
cranking-voltage-low = Während der Anlasser den Motor dreht, fällt die Batterie auf { NUMBER($value, maximumFractionDigits: 2) } V (Einschaltstoß: { NUMBER($inrush_v, maximumFractionDigits: 2) } V).
inrush-current = Der Start zieht in der Spitze { NUMBER($value, maximumFractionDigits: 0) } A.
cranking-current = Beim gleichmäßigen Durchdrehen zieht der Anlasser { NUMBER($value, maximumFractionDigits: 0) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % dessen, was er im Stillstand zöge.
cranking-current-raised = Beim Durchdrehen zieht der Anlasser { NUMBER($value, maximumFractionDigits: 0) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % dessen, was er im Stillstand zöge: mehr als üblich.
cranking-current-high = Beim Durchdrehen zieht der Anlasser { NUMBER($value, maximumFractionDigits: 0) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % dessen, was er im Stillstand zöge: Er wird stark gebremst.
cranking-current-stalled = Der Anlasser zieht { NUMBER($value, maximumFractionDigits: 0) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % seines Stillstandsstroms: Er dreht den Motor kaum oder gar nicht.
cranking-current-alone = Beim gleichmäßigen Durchdrehen zieht der Anlasser { NUMBER($value, maximumFractionDigits: 0) } A.
battery-resistance = Die Batterie hat { NUMBER($value, maximumFractionDigits: 1) } Milliohm, gemessen daran, wie ihre Spannung dem Anlassstrom folgt.
battery-resistance-size-unknown = Die Batterie hat { NUMBER($value, maximumFractionDigits: 1) } Milliohm: mehr als die eines Pkw und üblich für eine kleine. Ihre Nenndaten sind nicht angegeben.
battery-resistance-cold = Die Batterie hat { NUMBER($value, maximumFractionDigits: 1) } Milliohm: für ihre Nenndaten in der Wärme zu viel, in der Kälte darf sie so viel haben.
battery-resistance-high = Die Batterie hat { NUMBER($value, maximumFractionDigits: 1) } Milliohm, zu viel für { $bound ->
    [rating] ihren Kaltstartstrom
   *[other] eine Pkw-Batterie
 }.
ground-resistance = Vom Motor zur Batterie hat die Masse { NUMBER($value, maximumFractionDigits: 2) } Milliohm: { NUMBER($drop_v, maximumFractionDigits: 2) } V bei { NUMBER($current_a, maximumFractionDigits: 0) } A.
ground-resistance-high = Vom Motor zur Batterie hat die Masse { NUMBER($value, maximumFractionDigits: 1) } Milliohm, zu viel: Bei { NUMBER($current_a, maximumFractionDigits: 0) } A gehen { NUMBER($drop_v, maximumFractionDigits: 2) } V verloren.
ground-resistance-high-plain = Beim Anlassen gingen { NUMBER($drop_v, maximumFractionDigits: 1) } V der Batteriespannung zwischen Motor und Batterie verloren. Eine gute Verbindung verliert ein Zehntel davon.
starter-feed-resistance = Von der Batterie zum Anlasser hat die Zuleitung { NUMBER($value, maximumFractionDigits: 2) } Milliohm: { NUMBER($drop_v, maximumFractionDigits: 2) } V bei { NUMBER($current_a, maximumFractionDigits: 0) } A.
starter-feed-resistance-high = Von der Batterie zum Anlasser hat die Zuleitung { NUMBER($value, maximumFractionDigits: 1) } Milliohm, zu viel: Bei { NUMBER($current_a, maximumFractionDigits: 0) } A gehen { NUMBER($drop_v, maximumFractionDigits: 2) } V verloren.
starter-feed-resistance-high-plain = Beim Anlassen gingen { NUMBER($drop_v, maximumFractionDigits: 1) } V der Batteriespannung auf dem Weg zum Anlasser verloren. Ein gutes Kabel verliert ein Zehntel davon.
cranking-speed = Der Anlasser drehte den Motor mit { NUMBER($value, maximumFractionDigits: 0) } min⁻¹.
cranking-speed-low = Der Anlasser drehte den Motor mit nur { NUMBER($value, maximumFractionDigits: 0) } min⁻¹.
compression-rate = Die Verdichtungstakte folgen einander mit { NUMBER($value, maximumFractionDigits: 2) } je Sekunde; mit der Zylinderzahl in job.toml ist das eine Drehzahl.
compression-rate-low = Die Verdichtungstakte folgen einander mit nur { NUMBER($value, maximumFractionDigits: 2) } je Sekunde: Der Motor wird langsam gedreht.
relative-compression-even = Der schwächste Zylinder verdichtet auf { NUMBER($value, maximumFractionDigits: 0) } % des besten, über { $cycles } Arbeitsspiele: Sie sind gleichmäßig.
relative-compression-low = Der schwächste von { $cylinders } Zylindern verdichtet nur auf { NUMBER($value, maximumFractionDigits: 0) } % des besten, über { $cycles } Arbeitsspiele.
relative-compression-unclear = Der schwächste Zylinder verdichtet auf { NUMBER($value, maximumFractionDigits: 0) } % des besten; das ist zu unsicher für ein Urteil.
relative-compression-short = Der Motor wurde für zu wenige Arbeitsspiele ({ $cycles }) durchgedreht, um seine Zylinder zu vergleichen.

# Charging
charging-voltage = Bei laufendem Motor beträgt die Spannung { NUMBER($value, maximumFractionDigits: 2) } V.
charging-voltage-low = Bei laufendem Motor beträgt die Spannung nur { NUMBER($value, maximumFractionDigits: 2) } V. Ein Lademanagement kann das zeitweise so wollen.
charging-voltage-low-discharging = Bei laufendem Motor beträgt die Spannung nur { NUMBER($value, maximumFractionDigits: 2) } V, und die Batterie gibt { NUMBER($current_a, maximumFractionDigits: 0) } A ab.
charging-voltage-none = Bei laufendem Motor beträgt die Spannung nur { NUMBER($value, maximumFractionDigits: 2) } V: Der Generator lädt nicht.
charging-voltage-high = Bei laufendem Motor beträgt die Spannung { NUMBER($value, maximumFractionDigits: 2) } V, zu viel.
charging-voltage-at-times = Bei laufendem Motor beträgt die Spannung meist { NUMBER($value, maximumFractionDigits: 2) } V, in einem Teil der Aufzeichnung wird sie gehalten, wie es sein soll: Der Generator kann laden.
ripple-even = Der Generator hinterlässt eine Welligkeit von { NUMBER($value, maximumFractionDigits: 3) } V bei { NUMBER($hz, maximumFractionDigits: 0) } Hz mit sechs gleichen Perioden: Seine Phasen tragen gleich.
ripple-order-missing = Der Generator hinterlässt eine Welligkeit von { NUMBER($value, maximumFractionDigits: 2) } V, die sich mit { NUMBER($hz, maximumFractionDigits: 0) } Hz wiederholt: Eine Diode oder eine Phase trägt nicht.
ripple-speed-unknown = Eine Welligkeit von { NUMBER($value, maximumFractionDigits: 2) } V wiederholt sich mit { NUMBER($hz, maximumFractionDigits: 0) } Hz. Ohne die Motordrehzahl lässt sich nicht sagen, ob alle Phasen tragen.
ripple-too-coarse = Eine Welligkeit von { NUMBER($value, maximumFractionDigits: 2) } V wurde zu langsam abgetastet, um ihre wahre Frequenz zu kennen.
ripple-large = Eine Welligkeit von { NUMBER($value, maximumFractionDigits: 2) } V wiederholt sich mit { NUMBER($hz, maximumFractionDigits: 0) } Hz. Das ist viel; ob eine Diode oder Phase ausgefallen ist, zeigt die Motordrehzahl bei höherer Abtastrate.
ripple-not-alternator = Eine Welligkeit von { NUMBER($value, maximumFractionDigits: 2) } V bei { NUMBER($hz, maximumFractionDigits: 0) } Hz stammt nicht von einem Generator; ein elektronisch geschalteter Verbraucher kann sie verursachen.
ripple-not-recorded = Die Welligkeit wurde nicht erfasst: Die Aufzeichnung ist zu kurz oder zu langsam abgetastet.
ripple-none = Auf der Spannung liegt keine Welligkeit über { NUMBER($least_v, maximumFractionDigits: 3) } V.

# Key-off
key-off-current = Nach dem Ausschalten bleiben { NUMBER($value, maximumFractionDigits: 3) } A ({ NUMBER($ah_a_day, maximumFractionDigits: 1) } Ah am Tag{ $days ->
    [0] {""}
   *[other] ; nach etwa { NUMBER($days, maximumFractionDigits: 0) } Tagen startet die Batterie den Motor nicht mehr
 }).
key-off-current-high = { NUMBER($since_off_min, maximumFractionDigits: 0) } Minuten nach dem Ausschalten bleiben noch { NUMBER($value, maximumFractionDigits: 2) } A: { NUMBER($ah_a_day, maximumFractionDigits: 1) } Ah am Tag{ $days ->
    [0] {""}
   *[other] ; nach etwa { NUMBER($days, maximumFractionDigits: 0) } Tagen startet die Batterie den Motor nicht mehr
 }.
key-off-current-high-early = { NUMBER($since_off_min, maximumFractionDigits: 0) } Minuten nach dem Ausschalten bleiben noch { NUMBER($value, maximumFractionDigits: 2) } A ({ NUMBER($ah_a_day, maximumFractionDigits: 1) } Ah am Tag{ $days ->
    [0] {""}
   *[other] ; nach etwa { NUMBER($days, maximumFractionDigits: 0) } Tagen startet die Batterie den Motor nicht mehr
 }). Manche Fahrzeuge brauchen bis zu 40 Minuten, um einzuschlafen.
key-off-current-not-final = Am Ende der Aufzeichnung fließen noch { NUMBER($value, maximumFractionDigits: 2) } A; die letzte Stufe kam zu spät, um zu sagen, ob das so bleibt.
key-off-current-backwards = Das Fahrzeug ist abgestellt, und { NUMBER($value, maximumFractionDigits: 2) } A werden gelesen, als würde die Batterie geladen: Ein Ladegerät ist angeschlossen, oder die Stromzange sitzt verkehrt herum oder war nicht auf null gestellt.
key-off-stage = Stufe des Abschaltens bei { NUMBER($value, maximumFractionDigits: 2) } A.
sleep-time = Die letzte Stufe des Abschaltens kommt { NUMBER($value, maximumFractionDigits: 0) } s nach { $off_seen ->
    [true] dem Ausschalten
   *[other] dem Beginn der Aufzeichnung
 }.
wake-ups = { $value ->
    [0] Einmal eingeschlafen, schläft das Fahrzeug weiter.
    [one] Einmal eingeschlafen, wacht das Fahrzeug einmal auf, für { NUMBER($longest_s, maximumFractionDigits: 0) } s.
   *[other] Einmal eingeschlafen, wacht das Fahrzeug { $value }-mal auf, für bis zu { NUMBER($longest_s, maximumFractionDigits: 0) } s.
 }
wake-ups-draining = Einmal eingeschlafen, wacht das Fahrzeug { $value }-mal auf und zieht im Mittel { NUMBER($mean_a, maximumFractionDigits: 2) } A.

# Kinds of finding
kind-rest-voltage = Ruhespannung
kind-cranking-voltage-low = Kleinste Spannung beim Anlassen
kind-cranking-current = Anlassstrom
kind-battery-resistance = Innenwiderstand der Batterie
kind-ground-resistance = Massewiderstand
kind-cranking-speed = Anlassdrehzahl
kind-compression-rate = Frequenz der Verdichtungstakte
kind-relative-compression = Relative Kompression
kind-charging-voltage = Ladespannung
kind-ripple = Generatorwelligkeit
kind-key-off-current = Ruhestrom
kind-key-off-stage = Abschaltstufe
kind-sleep-time = Zeit bis zum Einschlafen
kind-wake-ups = Aufwachvorgänge

# Channels, system
subject-battery-voltage = Batteriespannung
subject-battery-current = Batteriestrom
subject-starter-current = Anlasserstrom
subject-alternator-current = Generatorstrom
subject-feed-voltage-drop = Spannungsabfall der Zuleitung
system-start-and-charge = Batterie, Anlasser und Generator

# Causes
cause-battery-weak = Die Batterie ist schwach
cause-battery-weak-plain = Die Batterie kann den Strom für einen Start nicht mehr liefern; ihre Spannung bricht ein.
cause-battery-weak-ruled-out = Eine schwache Batterie
cause-ground-resistance-high = Die Masseverbindung zwischen Motor und Batterie hat zu hohen Widerstand
cause-ground-resistance-high-plain = Der Anlassstrom verliert auf dem Rückweg zur Batterie Spannung: Ein Masseband, eine Verbindung oder eine Klemme ist korrodiert oder lose.
cause-ground-resistance-high-ruled-out = Widerstand in der Motormasse
cause-feed-resistance-high = Die Zuleitung von der Batterie zum Anlasser hat zu hohen Widerstand
cause-feed-resistance-high-plain = Der Anlassstrom verliert auf dem Weg zum Anlasser Spannung: Ein Kabel, eine Verbindung oder ein Kontakt ist korrodiert, verbrannt oder lose.
cause-feed-resistance-high-ruled-out = Widerstand in der Zuleitung des Anlassers
cause-starter-drag = Anlasser oder Motor drehen zu schwer
cause-starter-drag-plain = Der Anlasser zieht viel mehr Strom als üblich und dreht den Motor doch langsam: Er selbst oder etwas, das er drehen muss, ist schwergängig.
cause-starter-drag-ruled-out = Ein schwergängiger Anlasser
cause-cylinder-low-compression = Ein Zylinder des Motors hat zu wenig Kompression
cause-cylinder-low-compression-plain = Ein Zylinder des Motors baut weniger Druck auf als die anderen, darum läuft der Motor ungleichmäßig.
cause-cylinder-low-compression-ruled-out = Zu wenig Kompression in einem Zylinder
cause-alternator-phase-fault = Eine Diode oder Phase des Generators ist ausgefallen
cause-alternator-phase-fault-plain = Der Generator arbeitet nur mit einem Teil seiner Wicklungen: Er gibt weniger Strom ab, wird heiß und stört andere Geräte.
cause-alternator-phase-fault-ruled-out = Eine ausgefallene Diode oder Phase des Generators
cause-undercharging = Die Batterie wird zu wenig geladen
cause-undercharging-plain = Bei laufendem Motor hebt der Generator die Spannung nicht an, sodass sich die Batterie während der Fahrt leert.
cause-undercharging-ruled-out = Zu geringe Ladung
cause-overcharging = Die Batterie wird mit zu hoher Spannung geladen
cause-overcharging-plain = Die Spannung bei laufendem Motor ist höher, als ein Regler sie zulassen sollte; das lässt die Batterie gasen und verkürzt das Leben von Lampen und Steuergeräten.
cause-overcharging-ruled-out = Eine zu hohe Ladespannung
cause-key-off-drain = Nach dem Ausschalten zieht etwas weiter Strom
cause-key-off-drain-plain = Das abgestellte Fahrzeug zieht mehr Strom, als es soll, sodass die Batterie nach einigen Tagen leer ist.
cause-key-off-drain-ruled-out = Ein zu hoher Ruhestrom

# Repairs and their proof
repair-battery-weak-1 = Die Batterie voll laden, ruhen lassen und die Aufzeichnung eines Starts wiederholen: Eine nur leere Batterie besteht dann.
repair-battery-weak-2 = Klemmen reinigen und festziehen, den Spannungsabfall vom Pol zur Klemme messen.
repair-battery-weak-3 = Die Batterie gegen eine gleicher Art und Leistung ersetzen und anlernen, wo das Fahrzeug es verlangt.
proof-battery-weak = Dieselbe Aufzeichnung eines Starts noch einmal: Die Spannung hält unter demselben Strom.
repair-ground-resistance-high-1 = Den Spannungsabfall beim Anlassen Stück für Stück messen: Motorblock zu Masseband, Masseband zu Karosserie, Karosserie zu Batterie.
repair-ground-resistance-high-2 = Die Verbindung oder das Masseband mit dem Spannungsabfall reinigen, festziehen oder ersetzen.
proof-ground-resistance-high = Dieselbe Aufzeichnung noch einmal: Bei gleichem Strom ist der Spannungsabfall der Masse klein.
repair-feed-resistance-high-1 = Den Spannungsabfall beim Anlassen Stück für Stück messen: Pol zu Klemme, Kabel, Schmelzsicherung, Kontakte des Magnetschalters.
repair-feed-resistance-high-2 = Die Verbindung, das Kabel oder den Magnetschalter mit dem Spannungsabfall reinigen, festziehen oder ersetzen.
proof-feed-resistance-high = Dieselbe Aufzeichnung noch einmal: Bei gleichem Strom ist der Spannungsabfall der Zuleitung klein.
repair-starter-drag-1 = Den Motor ohne Zündkerzen oder Injektoren von Hand drehen, die Nebenaggregate ohne Riemen: So findet man einen schwergängigen Motor oder ein schwergängiges Aggregat.
repair-starter-drag-2 = Die Ölsorte prüfen, dann den Anlasser ausbauen und prüfen oder ersetzen.
proof-starter-drag = Dieselbe Aufzeichnung noch einmal: weniger Strom bei höherer Anlassdrehzahl.
repair-cylinder-low-compression-1 = Den Druck jedes Zylinders mit einem Druckmesser messen und den schwachen finden.
repair-cylinder-low-compression-2 = Mit einer Druckverlustprüfung finden, wo er undicht ist (Ventile, Ringe, Dichtung), und das instand setzen.
proof-cylinder-low-compression = Dieselbe Aufzeichnung des Anlasserstroms noch einmal, mit gleichmäßigen Zylindern.
repair-alternator-phase-fault-1 = Stecker, Ausgangsklemme und Masse des Generators prüfen.
repair-alternator-phase-fault-2 = Den Gleichrichter oder den Generator ersetzen.
proof-alternator-phase-fault = Dieselbe Aufzeichnung noch einmal bei gleicher Last: eine kleine, gleichmäßige Welligkeit mit dem Sechsfachen der elektrischen Frequenz.
repair-undercharging-1 = Riemen, Stecker des Generators, Ausgangsklemme, Schmelzsicherung und Masse prüfen, ebenso den Spannungsabfall der Ladeleitung unter Last.
repair-undercharging-2 = Auslesen, was das Lademanagement vorgibt; eine niedrige Spannung kann gewollt sein.
repair-undercharging-3 = Regler oder Generator ersetzen, wenn er der Vorgabe nicht folgt.
proof-undercharging = Dieselbe Aufzeichnung noch einmal: Die Spannung steigt auf ihren Regelwert, und Strom fließt in die Batterie.
repair-overcharging-1 = Messleitung und Masse des Reglers prüfen: Eine Spannung, die er nicht sieht, kann er nicht begrenzen.
repair-overcharging-2 = Regler oder Generator ersetzen und danach die Batterie prüfen.
proof-overcharging = Dieselbe Aufzeichnung noch einmal: Die Spannung bleibt im Regelbereich.
repair-key-off-drain-1 = Das Fahrzeug ungestört einschlafen lassen und über jeder Sicherung den Spannungsabfall messen, um den Stromkreis zu finden.
repair-key-off-drain-2 = In diesem Stromkreis den Verbraucher oder das Steuergerät finden, das wach bleibt, und was es weckt (Tür, Schalter, Bus), und das instand setzen.
proof-key-off-drain = Dieselbe Aufzeichnung noch einmal, lange genug: Das Fahrzeug schläft ein, und wenig Strom bleibt.

# Steps to take next
next-record-cranking = Batteriespannung und Batteriestrom während eines Starts aufzeichnen, ab einer Sekunde davor; fünf Sekunden ohne Anspringen durchdrehen, um die Zylinder zu vergleichen.
next-record-cranking-longer = Den Batteriestrom aufzeichnen, während der Motor fünf Sekunden ohne Anspringen durchgedreht wird: Weniger Umdrehungen reichen nicht, um die Zylinder zu vergleichen.
next-record-path-drops = Die Spannungsfälle vom Motorblock zum Minuspol und vom Pluspol zum Anlasser zusammen mit dem Anlassstrom aufzeichnen.
next-state-battery-rating = Den Kälteprüfstrom vom Schild der Batterie ablesen und als battery_cca_a in [unit] eintragen.
next-charge-and-repeat = Die Batterie voll laden, einige Stunden bei Werkstatttemperatur ruhen lassen und noch einmal einen Start aufzeichnen.
next-turn-engine-by-hand = Den Motor von Hand drehen und mit einem gleichen vergleichen: Das unterscheidet einen schwergängigen Motor vom schwergängigen Anlasser.
next-measure-cylinder-pressure = Den Druck jedes Zylinders mit einem Druckmesser messen: Der Anlasserstrom sagt, dass einer schwach ist, nicht welcher.
next-record-charging = Die Batteriespannung bei erhöhtem Leerlauf und eingeschaltetem Abblendlicht aufzeichnen, mit mindestens 10.000 Werten je Sekunde, zwei Sekunden lang.
next-record-charging-engine-speed = Den Motordrehzahlgeber zusammen mit der Batteriespannung aufzeichnen, mit seiner Zähnezahl in job.toml.
next-record-charging-loaded = Batteriespannung und Batteriestrom bei erhöhtem Leerlauf mit eingeschalteten großen Verbrauchern aufzeichnen.
next-record-key-off = Den Batteriestrom messen, die Zündung ausschalten, das Fahrzeug schließen und verriegeln und mindestens 40 Minuten aufzeichnen.
next-record-key-off-longer = Den Ruhestrom noch einmal 40 Minuten lang aufzeichnen oder so lange, wie der Hersteller es angibt.
next-turn-battery-clamp = Ladegerät abklemmen, Stromzange ohne Leitung auf null stellen, so ansetzen, dass Strom aus der Batterie positiv gelesen wird, und den Ruhestrom noch einmal aufnehmen.

# Why a cause was not tested
reason-battery-may-be-cold = Der Widerstand der Batterie liegt zwischen dem, was ihre Nenndaten in der Wärme und in der Kälte erlauben.
reason-battery-size-unknown = Was die Batterie haben darf, hängt von ihrer Größe ab, und ihre Nenndaten sind nicht angegeben.
reason-charged-at-times = Die Spannung ist in einem Teil der Aufzeichnung niedrig und wird in einem anderen gehalten: ein großer Verbraucher, das Lademanagement oder ein loser Kontakt.
reason-ripple-large = Die Spannung schwankt beim Laden stärker als üblich, und die Aufzeichnung zeigt nicht, warum.
reason-current-backwards = Bei abgestelltem Fahrzeug scheint Strom in die Batterie zu fließen.
why-never-cranked-with-current = kein Start wurde zusammen mit seinem Strom aufgezeichnet
why-no-drop-recorded = ihr Spannungsabfall wurde bei keinem Start aufgezeichnet
why-too-few-cycles = der Motor wurde über zu wenige Umdrehungen durchgedreht
why-no-ripple-to-judge = keine Welligkeit wurde aufgezeichnet, an der sich die Phasen beurteilen lassen
why-engine-never-ran = die Batteriespannung wurde nicht bei laufendem Motor aufgezeichnet
why-not-watched-until-asleep = das Fahrzeug wurde nicht bis zum Einschlafen beobachtet

# Labour
labour-test-start-and-charge = Prüfung von Batterie, Anlasser und Generator durch Aufzeichnung
labour-replace-battery = Batterie ersetzen
labour-repair-cable = Leitung oder Masseverbindung instand setzen
labour-replace-starter = Anlasser ersetzen
labour-replace-alternator = Generator ersetzen
labour-find-drain = Ruhestromverbraucher suchen

# Cautions
caution-engine-may-start = Beim Durchdrehen kann der Motor anspringen. Das nach Herstellerangabe verhindern, den Wählhebel in P oder N lassen und Hände von Riemen und Lüftern fernhalten.
    .word = WARNING
    .title = Motor kann anspringen
    .source = { source-practice }
driver-no-start = Der Motor springt vielleicht nicht wieder an. Stellen Sie ihn nur ab, wo das Fahrzeug bleiben kann. Nicht immer wieder versuchen: Anlasser und Kabel werden heiß.
    .word = CAUTION
    .title = Springt vielleicht nicht an
    .source = { source-practice }
driver-not-charged = Die Batterie wird nicht geladen, wie es sein muss. Licht, Lenkhilfe und Motor können unterwegs ausfallen. Nur bis zur nächsten Werkstatt fahren und abschalten, was Sie nicht brauchen.
    .word = WARNING
    .title = Strom kann ausfallen
    .source = { source-practice }
driver-overcharged = Die Spannung ist zu hoch. Die Batterie kann kochen und explosives Gas abgeben. Flammen und Funken von ihr fernhalten.
    .word = WARNING
    .title = Nicht fahren
    .source = { source-practice }

# Methods
method-start-attempt = Ein Start beginnt, wo der Strom die Hälfte seines Einschaltstoßes überschreitet. Gleichmäßiges Durchdrehen gilt ab 0,45 s danach. Der Innenwiderstand ist die Ausgleichsgerade der Spannung über dem Strom des Einschaltstoßes.
method-path-resistance = Der Widerstand ist die Ausgleichsgerade des Spannungsabfalls über dem Strom des ganzen Versuchs; ein Nullpunktfehler eines Kanals spielt keine Rolle.
method-cranking-compression = Die Buckel des Stroms werden nach ihrem Platz im Arbeitsspiel von zwei Umdrehungen geordnet; jede Höhe zählt ab dem tieferen Tal daneben. Welcher Zylinder schwach ist, sagt der Strom nicht.
method-charging = Die Ladespannung ist der Median bei laufendem Motor.
method-alternator-ripple = Die Phase der stärksten Linie gibt die Drehung des Generators; gemessen werden die Amplituden ihrer Ordnungen und deren Sechstel. Sechs Dioden gleicher Phasen hinterlassen sechs Perioden je elektrischer; was sich langsamer wiederholt, zeigt eine ungleiche Phase.
method-key-off-current = Die Aufzeichnung wird in Stufen zerlegt; ein Anstieg, der zurückkehrt, ist ein Aufwachen, die tiefste Stufe ist der Ruhestrom. Tage bis zum Startversagen: 40 % der Ladung durch den Tagesbedarf.

# Reasons of the cause sheet
sheet-battery-resists = die Spannung bricht unter Strom stärker ein, als es eine gesunde Batterie dieser Größe zulässt
sheet-battery-holds = die Spannung bricht beim Anlassen nicht stärker ein als bei einer gesunden Batterie
sheet-cranks-low = beim Anlassen fällt die Spannung unter das Übliche
sheet-rests-low = die Ruhespannung liegt unter der einer halb geladenen Batterie; über ihren Zustand sagt das nichts
sheet-ground-drops = zwischen Motor und Batterie folgt der Spannungsabfall dem Strom und ist für ihn zu hoch
sheet-ground-carries = der Masseweg hat den Anlassstrom mit kleinem Spannungsabfall getragen
sheet-feed-drops = zwischen Batterie und Anlasser folgt der Spannungsabfall dem Strom und ist für ihn zu hoch
sheet-feed-carries = die Zuleitung hat den Anlassstrom mit kleinem Spannungsabfall getragen
sheet-starter-stands = der Anlasser zieht seinen Stillstandsstrom: Er dreht den Motor nicht
sheet-draws-much = während er dreht, zieht der Anlasser mehr als die Hälfte dessen, was er im Stillstand zöge: Etwas hält ihn fest
sheet-draws-more = während er dreht, zieht der Anlasser mehr von seinem Stillstandsstrom als üblich
sheet-draws-usual = der Anlasser zieht, was ein frei drehender zieht
sheet-cranks-slowly = der Motor wird langsam gedreht
sheet-cranks-well = der Motor wird mit üblicher Drehzahl gedreht
sheet-battery-not-it = die Batterie ist es nicht, was ihn bremst
sheet-battery-explains = eine schwache Batterie erklärt ein langsames Anlassen
sheet-path-explains = Widerstand in Leitung oder Masse erklärt ein langsames Anlassen
sheet-hump-low = ein Zylinder, der nicht verdichtet, belastet den Anlasser weniger, an derselben Stelle jedes Arbeitsspiels
sheet-humps-even = alle Zylinder belasten den Anlasser gleich
sheet-orders-below = die Welligkeit wiederholt sich mit der elektrischen Frequenz oder dem Doppelten statt mit dem Sechsfachen: Eine Diode oder Phase fehlt oder ist kurzgeschlossen
sheet-orders-whole = die Welligkeit hat sechs gleiche Perioden je elektrischer Periode
sheet-charges-low-too = der Generator hält die Spannung nicht
sheet-charges-nothing = bei laufendem Motor ist die Spannung niedriger, als irgendein Lademanagement sie hält
sheet-charges-low = bei laufendem Motor bleibt die Spannung unter dem, was ein Generator hält
sheet-battery-feeds = bei laufendem Motor speist die Batterie das Fahrzeug
sheet-charges = der Generator lädt
sheet-phase-explains = eine fehlende Phase erklärt die niedrige Spannung
sheet-charges-high = bei laufendem Motor bleibt die Spannung über dem, was ein Regler einstellt
sheet-charges-no-more = der Regler begrenzt die Spannung
sheet-remains-high = lange nach dem Ausschalten bleibt mehr Strom, als das schlafende Fahrzeug braucht
sheet-remains-high-early = der Strom bleibt länger hoch als jede Stufe zuvor; wenige Fahrzeuge brauchen noch länger
sheet-wakes = das Fahrzeug wacht immer wieder auf und zieht im Mittel mehr als ein schlafendes
sheet-sleeps = das Fahrzeug ist eingeschlafen, und es fließt nur noch wenig Strom
sheet-no-ripple = die Spannung liegt still: Es wird nichts gleichgerichtet

# Quellen der Grenzwerte.
sheet-source-battery-rest = etwa halb geladen: 12,24 V bei 26,7 °C, Nassbatterie nach Stunden der Ruhe (Werte des BCI nach einer öffentlichen Kopie)
sheet-source-battery-cranking = 9,6 V beim Anlassen (Chrysler Crossfire 2004, Kaltstartprüfung, nach einer öffentlichen Kopie); eine kalte Batterie hat weniger
sheet-source-starter-half-stall = Ermessen: ein Motor gibt seine höchste Leistung bei der Hälfte seines Stillstandsstroms ab, und ein frei drehender Anlasser zieht weniger; dazwischen ist der Strom erhöht
sheet-source-compressions = Ermessen: drei Zylinder bei 130 min⁻¹; Motoren mit mehr Zylindern verdichten öfter
sheet-source-battery-own = Ermessen: 5,45 V durch 545 A, den Kaltstartstrom der Batterie eines Kleinwagens; schreiben Sie battery_cca_a unter [unit] für die Grenze der eigenen Batterie
sheet-source-battery-fall = SAE J537 nach öffentlichen Kopien: bei -18 °C hält eine Batterie mit ihrem Nennstrom 30 s lang 7,2 V, das sind 5,45 V weniger als 12,65 V; davon 0,85 für eine Batterie bei Werkstatttemperatur und für die ersten Augenblicke (Ermessen)
sheet-source-battery-fall-cold = SAE J537 nach öffentlichen Kopien: bei -18 °C hält eine Batterie mit ihrem Nennstrom 30 s lang 7,2 V, das sind 5,45 V weniger als 12,65 V
sheet-source-ground-army = 0,20 V je 100 A für einen ganzen Stromkreis (US Army TM 10-3930-671-24, S. F-303)
sheet-source-cylinders = gängige Praxis, ohne Quelle: Zylinder innerhalb eines Viertels des besten
sheet-source-charging = geregelt auf 13,2 bis 14,3 V bei 60 °C und 14,0 bis 15,1 V bei -20 °C (Mitsubishi Attrage 2018, nach einer öffentlichen Kopie); ein Lademanagement kann zeitweise weniger vorsehen
sheet-source-ripple = gängige Praxis, ohne Quelle: veröffentlichte Werte unterscheiden sich um den Faktor zehn; entscheidend sind die Ordnungen, nicht die Höhe
sheet-source-key-off = 5 bis 50 mA sind normal (Jeep Compass 2021, nach einer öffentlichen Kopie)
sheet-source-key-off-wait = 40 bis 65 mA nach 40 Minuten oder mehr, etwa 300 mA vor 10 Minuten (Mazda 6 2021, nach einer öffentlichen Kopie)
sheet-source-key-off-watch = mehr als 100 mA für 2 bis 5 Minuten (Saturn Aura 2008, nach einer öffentlichen Kopie)
sheet-source-key-off-stage = Ermessen: eine kürzere Stufe kann jeden Augenblick enden
sheet-source-ripple-least = Ermessen: einige hundert Perioden der Generatorwelligkeit
sheet-source-no-start = kein Start mehr, wenn 40 % der Ladung fehlen (eine Mitteilung von General Motors, nach einer öffentlichen Kopie)
sheet-source-sac-starter-largest = Ermessen: Anlasser ziehen einige hundert Ampere, die von Lastwagen bis zu zweitausend
sheet-source-sac-alternator-largest = Ermessen: Die größten Generatoren von Bussen geben einige hundert Ampere ab
sheet-source-sac-batteries = Batterien mit 6, 12 und 24 V, mit Abstand für einen tiefen Einbruch und für Überladung; gängige Praxis, ohne Quelle
sheet-source-sac-no-larger-drop = kein Spannungsabfall ist größer als die Spannung der Fahrzeugbatterie, höchstens 24 V; gängige Praxis, ohne Quelle
