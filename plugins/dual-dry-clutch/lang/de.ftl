# Actuator current
actuation-clutch = Kupplungsbetätigung: { NUMBER($value, maximumFractionDigits: 1) } A Spitze, beendet nach { NUMBER($duration_s, maximumFractionDigits: 2) } s.
actuation-small = Kleine Betätigung: { NUMBER($value, maximumFractionDigits: 1) } A Spitze, beendet nach { NUMBER($duration_s, maximumFractionDigits: 2) } s, so groß wie die eines Gangstellers.
actuation-unscaled = Betätigung, beendet nach { NUMBER($duration_s, maximumFractionDigits: 2) } s (der Maßstab der Stromzange ist nicht bekannt, daher keine Ampere).
actuation-stall = Blockierter Versuch: Der Strom steigt auf { NUMBER($value, maximumFractionDigits: 1) } A und bleibt { NUMBER($hold_s, maximumFractionDigits: 2) } s nahe der Spitze; was er antreibt, bewegt sich nicht.
actuation-stall-plain = Ein Stellmotor wurde { NUMBER($hold_s, maximumFractionDigits: 1) } s lang stark angesteuert und bewegte sich nicht.
actuation-stall-unscaled = Blockierter Versuch: Der Strom bleibt { NUMBER($hold_s, maximumFractionDigits: 2) } s nahe der Spitze (der Maßstab der Stromzange ist nicht bekannt, daher keine Ampere).
actuation-absent = Das Steuergerät erwacht bei { NUMBER($woke_s, maximumFractionDigits: 1) } s und arbeitet, aber in den folgenden { NUMBER($listened_s, maximumFractionDigits: 0) } s zieht kein Kupplungssteller Strom; ein Stromstoß ab { NUMBER($detectable, maximumSignificantDigits: 2) } { $detectable_unit } wäre zu sehen gewesen.
actuation-absent-plain = Das Steuergerät war wach und arbeitete, aber kein Kupplungsmotor zog Strom.
actuation-absent-unwatched = Kein Kupplungssteller zieht Strom; der Beginn des Versuchs wurde nicht aufgezeichnet, das Steuergerät hat es also vielleicht gar nicht versucht. Ein Stromstoß ab { NUMBER($detectable, maximumSignificantDigits: 2) } { $detectable_unit } wäre zu sehen gewesen.
actuation-absent-own-line = { $subject-name }: nichts zu sehen, während der andere Kupplungssteller arbeitet; ein Stromstoß ab { NUMBER($detectable, maximumSignificantDigits: 2) } { $detectable_unit } wäre zu sehen gewesen. Vielleicht wollte das Steuergerät es so, oder die Zange sitzt nicht auf dieser Leitung.
actuation-absent-own-line-plain = Ein Kupplungsmotor zog keinen Strom, während der andere arbeitete.
attempts = { $value ->
    [one] Ein Versuch endet in einer Blockade.
   *[other] { $value } Versuche enden in einer Blockade.
 }
attempts-plain = { $value ->
    [one] Das Steuergerät versuchte es einmal, ohne Erfolg.
   *[other] Das Steuergerät versuchte es { $value }-mal, ohne Erfolg.
 }
gave-up = Nach der letzten Blockade, bei { NUMBER($end_s, maximumFractionDigits: 1) } s, versucht es das Steuergerät nicht mehr.
gave-up-plain = Danach gab das Steuergerät auf.

# Shaft motion
turning-at-rest = { $subject-name } dreht sich { NUMBER($steady_s, maximumFractionDigits: 1) } s lang gleichmäßig, bei laufendem Motor, Wählhebel in P oder N und ohne betätigte Kupplung.
turning-at-rest-plain = { $subject-name } drehte sich { NUMBER($steady_s, maximumFractionDigits: 0) } s lang mit { NUMBER($value, maximumFractionDigits: 0) } Umdrehungen je Minute. Der Motor lief, der Wählhebel stand in P oder N. Sie sollte stillstehen.
turning-drives = { $subject-name } dreht sich; in einer Fahrstellung des Wählhebels darf sie das.
turning-vehicle-moves = { $subject-name } dreht sich, während das Fahrzeug fährt, wie es sein soll.
turning-engine-off = { $subject-name } dreht sich bei stehendem Motor: Sie wird von den Rädern gedreht, keine Kupplung kann sie antreiben.
turning-commanded = { $subject-name } dreht sich nach einer Kupplungsbetätigung, wie es sein soll.
turning-coasting = { $subject-name } dreht sich { NUMBER($duration_s, maximumFractionDigits: 1) } s lang und wird langsamer: Sie wurde mitgenommen und läuft aus.
turning-briefly = { $subject-name } dreht sich { NUMBER($duration_s, maximumFractionDigits: 1) } s lang und hält keine Drehzahl lange genug, um etwas zu beweisen.
turning-slow = { $subject-name } dreht sich langsam; das kann der Widerstand von Öl und Lagern bewirken.
turning-unsteady = { $subject-name } dreht sich { NUMBER($duration_s, maximumFractionDigits: 1) } s lang, länger als eine freie Welle ausläuft, und hält keine Drehzahl: Was sie dreht, ist offen.
turning-conditions-unknown = { $subject-name } dreht sich, aber es ist nicht bekannt, ob der Motor lief und wo der Wählhebel stand: Drehen allein beweist nichts.
turning-command-unknown = { $subject-name } dreht sich bei Wählhebel in P oder N; ohne einen Versorgungsstrom, der sichtbar fließt, ist nicht zu sagen, ob eine Kupplung absichtlich betätigt war.
turning-command-possible = { $subject-name } dreht sich bei Wählhebel in P oder N und fing damit kurz nach einem Strom in der Versorgung an oder hörte damit auf: Ihre Kupplung kann absichtlich betätigt worden sein, langsam oder in kleinen Schritten.
turning-output = { $subject-name } dreht sich: Das Fahrzeug bewegt sich.
shaft-speed = { $subject-name } dreht sich mit { NUMBER($value, maximumFractionDigits: 0) } min⁻¹ (Median).
shaft-speed-if-turning = Stammen ihre Impulse von einem drehenden Rad, dann dreht sich { $subject-name } mit { NUMBER($value, maximumFractionDigits: 0) } min⁻¹ (Median).
shaft-at-rest = { $subject-name } steht von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s still; { rest-proof }
shaft-at-rest-engine-off = { $subject-name } steht von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s still; der Motor war aus, eine schleifende Kupplung hätte sie also nicht drehen können.
shaft-at-rest-engine-unknown = { $subject-name } steht von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s still; es ist nicht bekannt, ob der Motor lief, eine schleifende Kupplung ist damit also nicht ausgeschlossen.
shaft-at-rest-vr = { $subject-name } gibt von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s keine Impulse. Ein induktiver Sensor schweigt im Stillstand und auch bei sehr kleiner Drehzahl; { rest-proof }
shaft-at-rest-creep = { $subject-name } dreht sich von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s nicht; einzelne Zahnflanken zeigen, dass sie kriecht oder dass ein Zahn vor dem Sensor steht.
shaft-at-rest-briefly = { $subject-name } steht von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s still; bei laufendem Motor war das zu kurz, um eine schleifende Kupplung auszuschließen.
shaft-at-rest-in-gear = { $subject-name } steht von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s still; bei eingelegtem Gang können die Räder sie festhalten, eine schleifende Kupplung ist damit also nicht ausgeschlossen.
shaft-rest-in-noise = { $subject-name } zeigt von { NUMBER($start_s, maximumFractionDigits: 1) } bis { NUMBER($end_s, maximumFractionDigits: 1) } s keinen Zahn, doch das Rauschen würde bis zu { NUMBER($below_hz, maximumFractionDigits: 0) } Zähne je Sekunde verdecken: Ob sie steht oder langsam dreht, ist nicht bekannt.
shaft-silent = { $subject-name }: Der Kanal zeigt keinen Impuls, und nichts darin beweist, dass er einen gezeigt hätte: Eine stehende Welle, ein toter Sensor und eine nicht angeschlossene Leitung sehen gleich aus. Eine Aufzeichnung, in der sich die Welle dreht, würde es zeigen.
attribution-contradicted = Der Aktor der Kupplung { $actuator } blockiert, aber es dreht sich Eingangswelle { $shaft }. Entweder sind Leitungen vertauscht, oder es gibt zwei Fehler.
attribution-feed = Der Versorgungsstrom zeigt keine Betätigung, aber die Leitung der Eingangswelle { $shaft } steigt und fällt einige Male, wie es der Strom eines Aktors tut. Ihre Messleitungen können vertauscht sein.
attribution-feed-steps = Der Versorgungsstrom steigt jedes Mal von einem Abtastwert zum nächsten, wie es der Ausgang eines schaltenden Sensors tut und der Strom eines Motors nicht kann. Die Messleitungen der Versorgung und eines Sensors können vertauscht sein.
attribution-feed-swings = Der Versorgungsstrom schwingt immer wieder durch null, wie es die Spannung eines Spulensensors tut und der Strom einer Versorgung nicht kann. Die Messleitungen der Versorgung und eines Sensors können vertauscht sein.
shaft-untested = { $subject-name }: Keine Aufzeichnung zeigt, dass der Kanal arbeitet. Von dieser Welle ist also nichts bekannt.
shaft-silent-engine-off = { $subject-name }: Der Kanal zeigt keinen Impuls; bei stehendem Motor hätte nichts die Welle gedreht, von ihrem Sensor ist also nichts bekannt.
shaft-motion-too-short = { $subject-name }: Es wurde zu wenig aufgezeichnet, um zu sagen, ob sie sich dreht oder steht.
rest-proof = { $alive ->
    [pulsed] ihr Sensor gab in dieser Aufzeichnung Impulse
    [toggled] ihr Sensor schaltete in dieser Aufzeichnung
    [quiescent] ihr Sensor führt den Strom eines lebenden
   *[other] ihr Sensor lebt
 }; oberhalb von etwa { NUMBER($unseen, maximumSignificantDigits: 2) } { $unseen_unit ->
    [rpm] min⁻¹
   *[other] Hz
 } hätte man ein Drehen gesehen.
rotation-refused-undersampled = { $subject-name }: Die Impulse gelten nicht als Drehzahl: nur { $detail } Abtastwerte je Zahn, jede Drehzahl könnte falsch sein.
rotation-refused-dithering = { $subject-name }: Die Impulse gelten nicht als Drehung: Sie streuen von einem zum nächsten um { $detail } %, wie eine Zahnflanke, die vor dem Sensor zittert.
rotation-refused-small-swing = { $subject-name }: Die Impulse gelten nicht als Drehung: Sie schwingen nur um { $detail } V, zu wenig für das Signal des Sensors.
rotation-refused-spikes = { $subject-name }: Die Impulse gelten nicht als Drehung: Es sind Nadeln von { $detail } % der Periode, keine Zähne.
rotation-refused-too-regular = { $subject-name }: Die Impulse gelten nicht als Drehung: Ihr Takt schwankt nur um { $detail } %, gleichmäßiger als jeder Motor; eine elektrische Quelle ist wahrscheinlicher.
rotation-refused-irregular = { $subject-name }: Die Impulse gelten nicht als Drehung: { $detail } % von ihnen fehlen oder sind doppelt, ohne Muster.
rotation-refused-hum = { $subject-name }: Die Impulse gelten nicht als Drehung: Sie sind Netzbrummen mit { $detail } Hz.
rotation-refused-noise = { $subject-name }: Ob sie sich dreht, ist nicht lesbar: Rauschen würde Zähne bis { $detail } je Sekunde verdecken.
rotation-refused-steady = { $subject-name }: Die Impulse gelten nicht als Drehung: Bei gleichbleibender Motordrehzahl könnten sie ebenso gut vom Motor oder Generator eingestreut sein. Eine Änderung der Motordrehzahl würde es zeigen.
rotation-refused-copy = { $subject-name }: Die Impulse gelten nicht als Drehung: Sie sind ein kleines Abbild eines anderen Kanals ({ $detail-name }).

# Supply
supply-sag = Bei der stärksten Betätigung fällt die Versorgung um { NUMBER($value, maximumFractionDigits: 2) } V auf { NUMBER($extreme_v, maximumFractionDigits: 1) } V.
supply-sag-unscaled = Bei der stärksten Betätigung fällt die Versorgung um { NUMBER($value, maximumFractionDigits: 2) } V auf { NUMBER($extreme_v, maximumFractionDigits: 1) } V; bei welchem Strom, ist nicht bekannt, und ein Motor, der sich bewegt, sollte sie nicht so weit absinken lassen.
supply-sag-plain = Während ein Motor arbeitete, fiel die Spannung um { NUMBER($value, maximumFractionDigits: 1) } V.
ground-drop = Bei der stärksten Betätigung steigt die Masse um { NUMBER($value, maximumFractionDigits: 2) } V.
ground-drop-plain = Während ein Motor arbeitete, gingen { NUMBER($value, maximumFractionDigits: 1) } V in der Masseleitung verloren.
feed-resistance = Widerstand des Strompfads ({ $subject-name }): { NUMBER($value, maximumFractionDigits: 1) } Milliohm, aus dem Gang der Spannung mit dem Strom über { NUMBER($swing_a, maximumFractionDigits: 0) } A.
feed-resistance-plain = Die Leitungen zum Getriebe haben zu hohen Widerstand ({ NUMBER($value, maximumFractionDigits: 0) } Milliohm).
fuse-duty = In ihrer härtesten Sekunde führt die Zuleitung { NUMBER($rms_a, maximumFractionDigits: 0) } A effektiv, { NUMBER($value, maximumFractionDigits: 0) } % des Nennwerts der Sicherung.

# Gear train
gear-ratio = { $subject-name } dreht sich { NUMBER($value, maximumFractionDigits: 3) } Mal je Umdrehung der Ausgangswelle.
gear-ratio-named = { $subject-name } dreht sich { NUMBER($value, maximumFractionDigits: 3) } Mal je Umdrehung der Ausgangswelle: Gang { $gear }.
shift = Gangwechsel in { NUMBER($duration_s, maximumFractionDigits: 2) } s.
slip = Bei gehaltenem Gang dreht der Motor { NUMBER($value, maximumFractionDigits: 0) } min⁻¹ ({ NUMBER($percent, maximumFractionDigits: 0) } %) schneller als die Welle, die ihre Kupplung mit ihm verbinden soll ({ $subject-name }).
slip-plain = In einem Gang drehte der Motor { NUMBER($value, maximumFractionDigits: 0) } Umdrehungen je Minute schneller als die Welle, die seine Kupplung halten soll.
slip-none = Bei gehaltenem Gang drehen Motor und Welle gleich schnell ({ $subject-name }, auf { NUMBER($value, maximumFractionDigits: 0) } min⁻¹).
double-engagement = Der Abtrieb wird innerhalb von { NUMBER($duration_s, maximumFractionDigits: 2) } s um { NUMBER($value, maximumFractionDigits: 0) } % langsamer, vom Schließen der einen Kupplung bis zum Öffnen der anderen: Beide übertragen zugleich.
double-engagement-slight = Der Abtrieb wird innerhalb von { NUMBER($duration_s, maximumFractionDigits: 2) } s um { NUMBER($value, maximumFractionDigits: 0) } % langsamer, vom Schließen der einen Kupplung bis zum Öffnen der anderen: zu wenig, um zu beweisen, dass beide zugleich übertragen.
double-engagement-plain = Einen Augenblick lang griffen beide Kupplungen zugleich und bremsten das Fahrzeug.

# Sensor health
sensor-dead = Der Sensor zeigt nichts, während der Motor das Fahrzeug über diese Welle antreibt ({ $subject-name }).
sensor-dead-plain = Der Sensor zeigte nichts, während das Fahrzeug über diese Welle fuhr ({ $subject-name }).
sensor-silent = Der Sensor zeigt überhaupt nichts, während das Fahrzeug fährt und schaltet, was abwechselnd über beide Wellen geht ({ $subject-name }).
sensor-silent-plain = Der Sensor zeigte nichts, während das Fahrzeug fuhr und schaltete ({ $subject-name }).
sensor-dropouts = Der Sensor ({ $subject-name }) setzt { $value }-mal aus (zusammen { NUMBER($lost_s, maximumFractionDigits: 1) } s) und fährt mit gleicher Drehzahl fort: Die Welle drehte weiter, das Signal nicht.
sensor-dropouts-plain = Das Signal setzte { $value }-mal aus, während die Welle weiterdrehte ({ $subject-name }).

# Kinds of observation
kind-actuation = Stellbewegung
kind-actuation-stall = Steller gegen Anschlag getrieben
kind-actuation-absent = Ausgebliebene Stellbewegung
kind-attempts = Versuche, die in einer Blockade enden
kind-gave-up = Lernen vom Steuergerät abgebrochen
kind-shaft-turning = Welle dreht sich
kind-attribution-contradicted = Blockade und Welle passen nicht zusammen
kind-shaft-untested = Welle, von der nichts bekannt ist
kind-shaft-at-rest = Welle in Ruhe
kind-shaft-turning-at-rest = Welle dreht sich, wo sie stehen muss
kind-shaft-speed = Drehzahl der Welle
kind-gear-ratio = Übersetzung
kind-slip = Kupplungsschlupf
kind-shift = Gangwechsel
kind-supply-sag = Versorgungsspannung unter Last
kind-fuse-duty = Belastung der Sicherung
kind-sensor-fault = Signal des Drehzahlsensors
kind-ground-drop = Massespannung unter Last
kind-rotation-refused = Impulse, die keine Drehung sind
kind-double-engagement = Zwei Gänge zugleich

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

# Subjects
subject-supply-current = Versorgungsstrom des Getriebes
subject-input-shaft-n = Eingangswelle { $n }
subject-output-shaft = Ausgangswelle
subject-actuator-current-n = Strom des Stellers von Kupplung { $n }
subject-gear-motor-current-n = Strom des Gangstellers { $n }
subject-selector = Wählhebelstellung

# causes
cause-clutch-n-drag = Kupplung { $n } trennt nicht
cause-clutch-n-drag-plain = Kupplung { $n } öffnet nicht. Sie dreht ihre Welle im Getriebe weiter. Deshalb kann das Getriebe den Schleifpunkt der Kupplung nicht lernen, und das Fahrzeug kann kriechen.
cause-clutch-n-drag-ruled-out = Kupplung { $n } öffnet nicht

cause-clutch-n-slip = Kupplung { $n } rutscht
cause-clutch-n-slip-plain = Kupplung { $n } hält nicht. Der Motor dreht schneller als die Welle, die die Kupplung halten soll.
cause-clutch-n-slip-ruled-out = Kupplung { $n } rutscht

cause-clutch-actuator-jam = Ein Kupplungssteller klemmt
cause-clutch-actuator-jam-plain = Zwei Motoren betätigen die Kupplungen. Einer davon wird stark angesteuert und kann sich nicht bewegen.
cause-clutch-actuator-jam-ruled-out = Ein klemmender Kupplungssteller

cause-clutch-actuator-n-jam = Der Steller von Kupplung { $n } klemmt
cause-clutch-actuator-n-jam-plain = Der Motor von Kupplung { $n } wird stark angesteuert und kann sich nicht bewegen.
cause-clutch-actuator-n-jam-ruled-out = Ein klemmender Steller von Kupplung { $n }

cause-gear-actuator-jam = Ein Gangsteller klemmt
cause-gear-actuator-jam-plain = Ein Motor, der die Gänge schaltet, wird stark angesteuert und kann sich nicht bewegen.
cause-gear-actuator-jam-ruled-out = Ein klemmender Gangsteller

cause-actuation-jam = Ein Mechanismus im Getriebe klemmt
cause-actuation-jam-plain = Ein Motor im Getriebe wird stark angesteuert und kann sich nicht bewegen. Die gemessene Leitung versorgt alle Motoren, sie zeigt also nicht, welcher es ist.
cause-actuation-jam-ruled-out = Ein klemmender Mechanismus

cause-actuator-open-circuit = Ein Steller ist nicht angeschlossen
cause-actuator-open-circuit-plain = Das Steuergerät will einen Motor bewegen, und es fließt kein Strom. Eine Leitung, ein Stecker oder der Motor ist unterbrochen.
cause-actuator-open-circuit-ruled-out = Ein nicht angeschlossener Steller

cause-supply-weak = Die Stromversorgung des Getriebes ist schwach
cause-supply-weak-plain = Wenn das Getriebe arbeitet, fällt seine Spannung zu weit. Seine Motoren bekommen zu wenig Leistung. Das Getriebe selbst kann in Ordnung sein.
cause-supply-weak-ruled-out = Eine schwache Stromversorgung

cause-shaft-sensor-n-fault = Der Drehzahlsensor von Eingangswelle { $n } ist defekt
cause-shaft-sensor-n-fault-plain = Das Signal dieses Drehzahlsensors passt zu keiner Welle, ob sie dreht oder steht. Der Sensor, sein Stecker oder seine Leitung ist schuld.
cause-shaft-sensor-n-fault-ruled-out = Ein defekter Drehzahlsensor von Eingangswelle { $n }

cause-double-engagement = Zwei Gänge sind zugleich eingelegt
cause-double-engagement-plain = Beide Wellen des Getriebes halten die Räder zugleich. Das darf nie geschehen.
cause-double-engagement-ruled-out = Zwei Gänge zugleich

cause-relearn-not-completed = Der Lernvorgang wurde nicht abgeschlossen
cause-relearn-not-completed-plain = Die Teile bewegen sich, wie sie sollen. Das Steuergerät hat das Lernen vor dem Ende abgebrochen. Nichts spricht dafür, das Getriebe zu öffnen.
cause-relearn-not-completed-ruled-out = Ein Lernvorgang, der nur nicht zu Ende kam

reason-teeth-unknown = Das Fahrzeug bewegt sich, aber die Zähnezahl eines Geberrads ist nicht bekannt; die Drehzahlen sind nicht vergleichbar.
reason-scale-unknown = Der Maßstab der Stromzange ist nicht bekannt; die Betätigungen sind nach ihrer Größe nicht zu beurteilen.
reason-engine-contradicted = Was über den Motor geschrieben wurde, passt nicht zur Aufzeichnung.
reason-conditions-unknown = Eine Welle dreht sich, aber Motor und Wählhebel sind nicht bekannt; Drehen allein beweist nichts.
reason-attribution-contradicted = Ströme und Wellen passen nicht so zusammen, wie die Kanäle benannt sind: Leitungen können vertauscht sein.
reason-odd-wheel = Das Geberrad eines Drehzahlsensors gibt bei jeder Umdrehung einen Impuls mehr: Es kann so gebaut sein, oder einer seiner Zähne ist beschädigt.
reason-shaft-untested = Der Kanal einer Eingangswelle zeigt in keiner Aufzeichnung einen Impuls; von dieser Welle ist also nichts bekannt.
reason-shaft-unreadable = Die Impulse des Sensors einer Eingangswelle sind nicht lesbar; ob sich die Welle drehte, ist also nicht bekannt.
reason-command-unknown = Eine Welle dreht sich, aber ein sichtbar fließender Versorgungsstrom, der eine Kupplungsbetätigung zeigen würde, wurde nicht aufgezeichnet.
reason-command-possible = Kurz nach der Bewegung eines Stellers fing eine Welle an, sich zu drehen, oder blieb stehen; ihre Kupplung kann absichtlich betätigt worden sein.
reason-shaft-unsteady = Eine Welle dreht sich länger, als sie auslaufen könnte, aber mit keiner gleichmäßigen Drehzahl.
reason-slight-tie-up = Bei einem Gangwechsel wird der Abtrieb gebremst, aber zu schwach, um zwei zugleich geschlossene Kupplungen zu beweisen.
reason-sag-at-unknown-current = Die Versorgung sinkt fast bis an ihre Grenze, und der Strom dabei ist nicht bekannt.

# next
next-record-own-actuator-current = Den Strom jedes Kupplungsstellers an seiner eigenen Leitung messen und denselben Vorgang noch einmal aufzeichnen.
next-record-supply-current = Den Strom durch die Sicherung des Getriebes während des ganzen Lernvorgangs aufzeichnen.
next-record-both-shafts = Die Drehzahlsensoren beider Eingangswellen zusammen mit dem Versorgungsstrom aufzeichnen.
next-record-engine-running-park = Beide Eingangswellen mindestens 30 Sekunden lang bei laufendem Motor und Wählhebel in P aufzeichnen und beides in job.toml eintragen.
next-check-leads = Prüfen, ob jede Stromzange und jede Sensorleitung an der Kupplung sitzt, nach der sie benannt ist, und dieselbe Aufzeichnung noch einmal machen.
next-record-engine-running-park-plain = Beide Eingangswellen eine halbe Minute lang aufzeichnen, bei laufendem Motor und Wählhebel in P.
next-record-shaft-turning = Prüfen, ob die Leitung am Signal des Sensors sitzt, und aufzeichnen, während sich seine Welle dreht: bei einer Kupplungsbetätigung oder auf der Straße.
next-change-engine-speed = Noch einmal aufzeichnen und dabei die Motordrehzahl einige Sekunden lang um die Hälfte anheben und wieder fallen lassen: Eine Welle und eine elektrische Einstreuung trennen sich dann.
next-record-whole-relearn = Den Lernvorgang von vor seinem Beginn bis nach seinem Ende aufzeichnen.
next-record-supply-voltage = Die Spannung am Stecker des Getriebes zwischen Versorgung und Masse aufzeichnen, während es seinen höchsten Strom zieht.
next-record-ground-voltage = Den Spannungsabfall von der Masse des Getriebes zum Minuspol der Batterie aufzeichnen, während es seinen höchsten Strom zieht.
next-record-engine-speed = Den Motordrehzahlsensor zusammen mit beiden Eingangswellen aufzeichnen.
next-repeat-cold-and-warm = Dieselbe Aufzeichnung kalt und warm machen.
next-measure-actuator-resistance = Bei ausgeschalteter Zündung und getrenntem Stecker den Widerstand der Wicklung jedes Kupplungsstellers und seiner Leitung messen.

caution-spring-force = Kupplungs- und Stellerfedern behalten ihre Kraft auch im ausgebauten Zustand. Nur mit Werkzeug und Verfahren des Herstellers entspannen und einbauen.
    .word = WARNING
    .title = Federkraft
    .source = { source-practice }
caution-stored-pressure = Manche Aggregate halten Öl unter hohem Druck in einem Speicher, auch bei stehendem Motor. Vor dem Öffnen einer Leitung, des Speichers oder eines Stellers nach dem Verfahren des Herstellers entspannen; Augen schützen.
    .word = WARNING
    .title = Gespeicherter Druck
    .source = { source-practice }
caution-lifting = Ein Getriebe ist schwer, sein Schwerpunkt liegt außermittig, und ein Zweimassenschwungrad mit Kupplung kommt hinzu. Das Fahrzeug auf der Hebebühne sichern, den Motor abstützen, bevor seine Lager gelöst werden, und das Getriebe auf einem dafür zugelassenen Heber festzurren.
    .word = WARNING
    .title = Schwere Last
    .source = { source-practice }
caution-hot-parts = Eine Kupplung, die gerutscht ist, der Auspuff und heißes Öl verbrennen noch lange danach die Haut. Abkühlen lassen.
    .word = CAUTION
    .title = Heiße Teile
    .source = { source-practice }
caution-clutch-dust = Kupplungsstaub schadet der Lunge und kann Asbest enthalten. Eine Umhausung mit HEPA-Sauger oder das Nassverfahren mit geringem Druck verwenden; nie trocken abbürsten oder mit Druckluft ausblasen.
    .word = WARNING
    .title = Kupplungsstaub
    .source = 29 CFR 1910.1001 Anhang F, Arbeitsweisen für Kupplungs- und Bremsenarbeiten

sheet-shaft-let-go = seine Kupplung hat diese Welle nachweislich freigegeben; der Versuch scheitert also nicht an einer schleifenden Kupplung
sheet-circuit-untested = das Steuergerät meldet den Stromkreis des Stellers, und keine Aufzeichnung hat ihn geprüft
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
sheet-own-stall = dieser Steller zieht seinen Blockierstrom und bewegt sich nicht
sheet-own-moved = dieser Steller bewegte sich ohne Blockade
sheet-drag-behind = seine Kupplung schleift: Der Mechanismus hinter dem Steller kann es sein, der sich nicht bewegt
sheet-gear-stall = ein Gangsteller zieht seinen Blockierstrom und bewegt sich nicht
sheet-gear-no-stall = die Gangsteller wurden aufgezeichnet und blockierten nicht
sheet-gear-stalled = ein Gangsteller blockierte
sheet-module-gear = das Steuergerät meldet die Gangbetätigung
sheet-feed-stall = die Zuleitung zeigt den Blockierstrom eines Mechanismus, der sich nicht bewegen kann; eine Zange an der Zuleitung sagt nicht, welcher es ist
sheet-something-stalls = etwas an der Zuleitung zieht seinen Blockierstrom und bewegt sich nicht
sheet-feed-no-stall = die Zuleitung wurde aufgezeichnet, und kein Steller blockierte
sheet-moved-freely = die Steller bewegten sich sichtbar frei
sheet-drew-nothing = das Steuergerät wachte auf und arbeitete, und die Kupplungssteller zogen keinen Strom
sheet-drew-nothing-start = kein Kupplungssteller zog Strom, der Beginn des Versuchs wurde aber nicht aufgezeichnet
sheet-one-draws-nothing = ein Kupplungssteller zieht auf seiner eigenen Leitung keinen Strom, während der andere arbeitet
sheet-drew-current = ein Kupplungssteller zog Strom
sheet-into-stall = ein Steller zieht seinen Blockierstrom
sheet-module-open = das Steuergerät hat den Stromkreis als unterbrochen gemessen
sheet-module-circuit = das Steuergerät meldet den Stromkreis des Stellers
sheet-supply-loses = während die Steller arbeiteten, fiel an den Versorgungsleitungen mehr Spannung ab, als es sollte
sheet-supply-held = die Versorgungsspannung hielt, während die Steller arbeiteten
sheet-ground-rises = während die Steller arbeiteten, fiel an den Masseleitungen mehr Spannung ab, als es sollte
sheet-slope = die Steigung der Spannung über dem Strom ist der Widerstand der Zuleitung, und er ist zu hoch
sheet-module-supply = das Steuergerät meldet seine Versorgung
sheet-sensor-breaks = der Sensor gibt kein Signal oder setzt aus, während sich seine Welle drehen muss
sheet-sensor-whole = der Sensor wurde aufgezeichnet, und seine Impulsfolge hat keine Lücken
sheet-module-sensor = das Steuergerät meldet diesen Sensor
sheet-slows-hard = vom Schließen der einen bis zum Öffnen der anderen Kupplung wird der Abtrieb stark gebremst
sheet-never-slowed = die Fahrt wurde aufgezeichnet, und der Abtrieb wurde nie so gebremst
sheet-module-two-gears = das Steuergerät meldet mehr als einen eingelegten Gang
sheet-shaft-stands = eine Eingangswelle steht: Nichts wird mitgenommen
sheet-not-learned = das Steuergerät sagt, dass die Kupplungsstellung nicht gelernt wurde
sheet-fault-stops = ein Fehler wurde gemessen, der das Lernen verhindert
sheet-drag-explains = eine schleifende Kupplung erklärt den Versuch
sheet-drag-explains-stall = eine schleifende Kupplung erklärt den Versuch, der blockiert

# Shafts, wheels and wires
rotation-refused-too-quick = { $subject-name }: Die Impulse gelten nicht als Drehung: Die Drehzahl würde sich in einer Sekunde um { $detail } min⁻¹ ändern, schneller, als es die Trägheit der Welle zulässt.
rotation-refused-current = { $subject-name }: Die Impulse gelten nicht als Drehung: Sie gehen im Takt mit einem anderen Kanal ({ $detail-name }), wie es elektrische Einstreuung tut.
wrong-gear = { $subject-name } dreht sich { NUMBER($value, maximumFractionDigits: 3) } Mal je Umdrehung der Ausgangswelle, ein Verhältnis, das keiner ihrer Gänge hat (am nächsten: Gang { $nearest }): ein anderer Radsatz oder Achsantrieb, eine falsche Zähnezahl oder vertauschte Sensoren.
sensor-contact = Der Sensor ({ $subject-name }) verliert { $value }-mal den Kontakt (zusammen { NUMBER($lost_s, maximumFractionDigits: 1) } s) und fährt mit gleicher Drehzahl fort: Ein Stecker, eine Leitung oder eine Verbindung öffnet sich.
sensor-contact-plain = Der Sensor verlor { $value }-mal den Kontakt, während die Welle weiterdrehte ({ $subject-name }).
sensor-missing-teeth = Das Geberrad ({ $subject-name }) hat { $value ->
    [one] eine Lücke
   *[other] { $value } Lücken
 }, wo Zähne hingehören, an derselben Stelle auf jeder von { $turns } Umdrehungen.
sensor-missing-teeth-plain = { $subject-name }: Das Geberrad hat an einer Stelle einen Fehler, der sich bei jeder Umdrehung zeigt.
sensor-doubled-teeth = { $value ->
    [one] Ein Zahn zählt
   *[other] { $value } Zähne zählen
 } doppelt ({ $subject-name }), an derselben Stelle auf jeder von { $turns } Umdrehungen: eine Kerbe, ein Ausbruch oder Metall am Rad.
sensor-doubled-teeth-plain = { $subject-name }: Das Geberrad hat an einer Stelle einen Fehler, der sich bei jeder Umdrehung zeigt.
tooth-wheel-gap = Das Geberrad ({ $subject-name }) hat { $positions } Stellen, davon { $value } ohne Zahn. Viele Räder sind so gebaut; ist dieses es nicht, fehlen Zähne.
tooth-wheel-extra = Das Geberrad ({ $subject-name }) gibt je Umdrehung { $value } Impulse mehr als seine { $positions } Stellen, immer am selben Ort. Manche Räder sind so gebaut; ist dieses es nicht, ist ein Zahn gekerbt oder Metall haftet daran.
tooth-wheel-extra-alike = Die Geberräder beider Eingangswellen geben je Umdrehung { $value } Impulse mehr als ihre { $positions } Stellen, immer am selben Ort: Sie sind so gebaut.
tooth-wheel-other = Für das Geberrad ({ $subject-name }) sind { $stated } Stellen angegeben; seine Impulse zeigen { $positions } je Umdrehung, davon { $value } ohne Zahn, und damit wird die Drehzahl gelesen.
crosstalk = Die Leitung ({ $subject-name }) führt { NUMBER($share_percent, maximumFractionDigits: 0) } % des Signals einer anderen ({ $from-name }): elektrische Einstreuung, keine Drehung.
kind-wrong-gear = Verhältnis, das kein Gang hat
kind-crosstalk = Einstreuung zwischen Leitungen
kind-tooth-wheel = Geberrad
next-look-at-wheel = Das Geberrad durch die Bohrung des Sensors ansehen, eine ganze Umdrehung lang: ein gebrochener oder gekerbter Zahn, Metall, das daran haftet.
driver-creep = Das Fahrzeug kann kriechen oder von selbst anfahren. Nie mit laufendem Motor stehen lassen: P einlegen, Parkbremse anziehen, Schlüssel mitnehmen.
    .word = WARNING
    .title = Nicht fahren
    .source = { source-practice }
driver-slip = Die Kupplung wird heiß, und der Antrieb kann ausfallen, wenn Sie ihn am nötigsten brauchen. Den Motor nicht laufen lassen.
    .word = WARNING
    .title = Nicht fahren
    .source = { source-practice }
driver-lock = Der Antrieb kann die Räder ohne Vorwarnung bremsen oder blockieren. Den Motor nicht laufen lassen.
    .word = DANGER
    .title = Nicht fahren
    .source = { source-practice }
driver-no-drive = Das Fahrzeug fährt vielleicht nicht an oder verliert unterwegs den Antrieb. Lassen Sie es zur Werkstatt bringen.
    .word = WARNING
    .title = Der Antrieb kann ausfallen
    .source = { source-practice }
driver-tow = Nur so abschleppen, wie es die Betriebsanleitung vorschreibt: mit angehobenen Antriebsrädern oder auf einem Transporter. Ohne Strom kann ein Gang eingelegt bleiben, und P hält vielleicht nicht.
    .word = WARNING
    .title = Abschleppen
    .source = { source-practice }
sheet-wheel-every-turn = ein Zahn fehlt oder zählt doppelt, bei jeder Umdrehung an derselben Stelle: das Geberrad oder etwas, das daran haftet

# methods
method-actuator-current = Eine Betätigung beginnt und endet bei 15 % ihrer Spitze über dem Ruhestrom. Eine Blockade hält sich mindestens 0,4 s lang bei 70 % ihrer Spitze oder darüber. Die Ladung ist das Integral des Stroms über dem Ruhestrom. Die Unsicherheit vereint Genauigkeit der Stromzange und Rauschen.
method-shaft-motion = Die Drehzahl ist der Median über die Zahnperioden, durch die Zähnezahl; ihre Unsicherheit vereint Abtastung und Streuung. Drehen gilt nur als auffällig bei laufendem Motor, Wählhebel in P oder N, ohne Kupplungsbetätigung im Versorgungsstrom, mit 2 s lang gleichmäßiger Drehzahl und einer echten Zahnfolge. Nicht als Drehung gelten: zu langsam abgetastet, zitternde Flanke, kleiner Hub, Nadeln, die Regelmäßigkeit eines Takts, das Abbild eines anderen Kanals.
method-supply = Der Widerstand ist die Steigung der Spannung über dem Strom nach kleinsten Quadraten über alle Ereignisse, jedes gegen seine eigene Umgebung; seine Unsicherheit vereint den Standardfehler der Ausgleichung und die Genauigkeit der Stromzange. Über die Auslösezeit einer Sicherung wird nichts behauptet.
method-gear-train = Die Übersetzung ist Eingangs- durch Ausgangsdrehzahl bei gehaltenem Gang. Schlupf ist Motor- weniger Wellendrehzahl bei gehaltenem Gang; das Anfahren bleibt außer Betracht. Ein Gangwechsel dauert von der ersten Abweichung des Motors um 2 % vom gehaltenen Verhältnis bis zur ersten Annäherung auf 5 % an die andere Welle; keine Norm legt diese Zeit fest.
method-sensor-health = Eine Lücke hat mindestens vier Perioden mit gleicher Drehzahl davor und danach. Ein Sensor gilt als tot, wenn der Motor ein Verhältnis zum Abtrieb hält, das die andere Welle nicht erklärt, oder wenn er während einer Fahrt mit Gangwechsel schweigt.
method-drive-conditions = Wählhebel und befohlene Kupplungsbetätigungen werden aus den Angaben und dem Versorgungsstrom gelesen; eine Welle, die nach einer Betätigung dreht, darf das.
method-recording-checks = Die Stromzange an der Versorgung muss dort ruhen, wo ein Steuergerät ruht, und nach oben zeigen; jeder Sensor muss schnell genug abgetastet sein, um Leerlaufdrehzahl zu zeigen; ein fahrendes Fahrzeug braucht seine Zähnezahlen.
method-attribution = Ein blockierter Steller wird mit der Welle verglichen, die sich dreht, wo sie es nicht darf: Gehören sie nicht zu einer Kupplung, können Leitungen vertauscht sein.
method-shafts-untested = Eine Welle gilt nur dann als geprüft, wenn ihr Kanal in einer Aufzeichnung des Auftrags einen Impuls zeigte.

# repairs
repair-clutch-n-drag-1 = Das Getriebe vom Motor trennen, ausbauen und das Kupplungsgehäuse öffnen.
repair-clutch-n-drag-2 = Kupplung { $n }, ihr Ausrücklager, ihren Hebel und den Weg des Stellers prüfen; Verschleiß und Leichtgängigkeit an den Grenzwerten des Herstellers messen.
repair-clutch-n-drag-3 = Ersetzen, was außerhalb der Grenzwerte liegt, und die Kupplung nach dem Verfahren des Herstellers einstellen.
repair-clutch-n-drag-4 = Das Getriebe einbauen und den Lernvorgang durchführen.
proof-clutch-n-drag = Dieselbe Aufzeichnung noch einmal: Motor läuft, Wählhebel in P, beide Eingangswellen in Ruhe und der Lernvorgang abgeschlossen.
opens-clutch-n-drag = Das Getriebe wird ausgebaut und sein Kupplungsgehäuse geöffnet, weil Kupplung { $n } von außen weder zu sehen noch zu messen ist.
destroyed-clutch-n-drag = Dichtringe, Dichtungen, Einmalschrauben und Sicherungsringe des Kupplungsgehäuses und der Getriebebefestigung.

repair-clutch-n-slip-1 = Die gelernten Werte der Kupplung prüfen und den Lernvorgang wiederholen, bevor etwas geöffnet wird.
repair-clutch-n-slip-2 = Bleibt der Schlupf, das Getriebe ausbauen, das Kupplungsgehäuse öffnen und Kupplung { $n } auf Verschleiß, Öl und Hitzeschäden prüfen.
repair-clutch-n-slip-3 = Ersetzen, was außerhalb der Grenzwerte liegt, einbauen und den Lernvorgang durchführen.
proof-clutch-n-slip = Dieselbe Fahrt noch einmal aufgezeichnet: Bei geschlossener Kupplung drehen Welle und Motor gleich schnell.
opens-clutch-n-slip = Das Getriebe wird ausgebaut und sein Kupplungsgehäuse geöffnet, weil Kupplung { $n } von außen weder zu sehen noch zu messen ist.
destroyed-clutch-n-slip = Dichtringe, Dichtungen, Einmalschrauben und Sicherungsringe des Kupplungsgehäuses und der Getriebebefestigung.

repair-clutch-actuator-jam-1 = Den eigenen Strom jedes Kupplungsstellers aufzeichnen, um zu finden, welcher der beiden klemmt.
repair-clutch-actuator-jam-2 = Diesen Steller von außen abbauen und den Kupplungshebel mit dem Werkzeug des Herstellers von Hand bewegen: Ein schwergängiger Hebel ist ein Fehler der Kupplung, ein leichtgängiger einer des Stellers.
repair-clutch-actuator-jam-3 = Das klemmende Teil ersetzen und den Lernvorgang durchführen.
proof-clutch-actuator-jam = Dieselbe Aufzeichnung noch einmal: Jede Betätigung ist kurz, ihr Strom fällt wieder, und der Lernvorgang wird abgeschlossen.

repair-clutch-actuator-n-jam-1 = Den Steller von Kupplung { $n } von außen abbauen und den Kupplungshebel mit dem Werkzeug des Herstellers von Hand bewegen: Ein schwergängiger Hebel ist ein Fehler der Kupplung, ein leichtgängiger einer des Stellers.
repair-clutch-actuator-n-jam-2 = Das klemmende Teil ersetzen und den Lernvorgang durchführen.
proof-clutch-actuator-n-jam = Dieselbe Aufzeichnung noch einmal: Jede Betätigung von Steller { $n } ist kurz, ihr Strom fällt wieder, und der Lernvorgang wird abgeschlossen.

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

repair-shaft-sensor-n-fault-1 = Stecker, Leitung, Versorgung und Luftspalt des Sensors prüfen.
repair-shaft-sensor-n-fault-2 = Sind sie in Ordnung, den Sensor ersetzen und den Lernvorgang durchführen.
proof-shaft-sensor-n-fault = Dieselbe Aufzeichnung noch einmal: ein sauberes, gleichmäßiges Zahnsignal von Sensor { $n }.

repair-double-engagement-1 = Das Fahrzeug nicht fahren.
repair-double-engagement-2 = Schaltmechanismus und Steller prüfen; feststellen, welcher Gang eingelegt bleibt.
repair-double-engagement-3 = Das defekte Teil ersetzen und den Lernvorgang durchführen.
proof-double-engagement = Dieselbe Aufzeichnung noch einmal: In Neutralstellung drehen sich die beiden Eingangswellen frei voneinander.

repair-relearn-not-completed-1 = Die Bedingungen des Lernvorgangs nach Hersteller herstellen: Batterie, Temperatur, Wählhebel, Türen, Bremse.
repair-relearn-not-completed-2 = Den Vorgang wiederholen und von Anfang bis Ende aufzeichnen.
proof-relearn-not-completed = Eine Aufzeichnung des Lernvorgangs, der von selbst endet, ohne abgebrochenen Versuch.

# why
# Warum eine Ursache nicht geprüft wurde, obwohl ihre Kanäle aufgezeichnet wurden.

why-not-at-rest-with-the-engine-running = nicht bei laufendem Motor und offener Kupplung aufgezeichnet
why-no-gear-held = in keiner Aufzeichnung wurde ein Gang gehalten
why-never-driven = sein Motor wurde nie angesteuert
why-never-under-load = die Versorgung wurde nie unter Last aufgezeichnet
why-no-pulse-in-any-recording = der Sensor gab in keiner Aufzeichnung einen Impuls
why-no-gear-change = kein Gangwechsel wurde aufgezeichnet
why-no-code-says-so = kein Fehlercode sagt es

system-dual-dry-clutch = Automatisiertes Getriebe mit zwei Trockenkupplungen
sheet-vehicle-supply = eine schwache Batterie, zu wenig Ladung oder eine schlechte Motormasse macht jeden Steller langsam
sheet-alternator-pick-up = die Welligkeit einer defekten Generatordiode koppelt in Sensorleitungen ein

# Work
labour-first-step = Versorgung und Masse des Getriebes prüfen, Lernvorgang wiederholen
labour-teardown = Getriebe ausbauen und öffnen
labour-clutch = Doppelkupplung ersetzen
labour-clutch-actuator = Kupplungssteller ersetzen
labour-gear-actuator = Gangsteller ersetzen
labour-feed = Versorgung, Masse oder Leitungen der Steller instand setzen
labour-shaft-sensor = Drehzahlsensor einer Eingangswelle ersetzen
labour-reassembly = Getriebe schließen und einbauen
labour-relearn = Getriebesteuerung anlernen

# Quellen der Grenzwerte.
sheet-source-ddc-peak = gängige Praxis, ohne Quelle: gesunde Kupplungsbetätigungen haben in der Zuleitung Spitzen von 13 bis 18 A
sheet-source-ddc-small = Ermessen: kleinere Ereignisse stammen vom Steuergerät selbst
sheet-source-ddc-quiescent = gängige Praxis, ohne Quelle: Steuergerät und Ventile ziehen in Ruhe 0,3 bis 2 A
sheet-source-ddc-parked = gängige Praxis, ohne Quelle: bei einem intakten Getriebe in P stehen mit laufendem Motor beide Eingangswellen; Lagerreibung kann eine freie Welle langsam mitnehmen
sheet-source-ddc-coast = gängige Praxis, ohne Quelle: eine freigegebene Welle läuft in etwa 2 s aus
sheet-source-ddc-speed-up = Ermessen: so lange braucht eine Welle nach dem Schließen ihrer Kupplung bis zur Drehzahl
sheet-source-ddc-sag = gängige Praxis, ohne Quelle: mehr als 1 V Verlust an einer Zuleitung im Betrieb ist meist ein Fehler; hier weiter, weil ein blockierter Steller mehr zieht
sheet-source-ddc-ground = gängige Praxis, ohne Quelle: höchstens 0,5 V über den ganzen Masseweg unter Last
sheet-source-ddc-feed = gängige Praxis, ohne Quelle: 30 A verlieren an 50 Milliohm 1,5 V, die Grenze des Spannungseinbruchs
sheet-source-ddc-fuse = Ermessen: lesen Sie den Nennstrom an der Sicherung des Fahrzeugs ab und tragen Sie ihn hier ein
sheet-source-ddc-fuse-duty = Ermessen: Effektivstrom der stärksten Sekunde gegen den Nennstrom; eine Auslösezeit wird nicht behauptet
sheet-source-ddc-slip = gängige Praxis, ohne Quelle: eine geschlossene Kupplung rutscht nicht; geregelter Mikroschlupf bleibt darunter
sheet-source-ddc-shift = gängige Praxis, ohne Quelle: ein Gangwechsel dauert 0,2 bis 0,5 s
sheet-source-ddc-smallest = Ermessen: der kleinste Getriebemotor zieht mehr, und die Sicherung trägt über Sekunden nicht mehr als ihren Nennstrom
sheet-source-ddc-stall = Ermessen: ein blockierter Motor zieht Versorgungsspannung geteilt durch Wicklung und Leitung, also einige zehn Ampere
sheet-source-ddc-cut = Ermessen: ein Steuergerät schaltet den Strom eines blockierten Motors in Sekunden ab
sheet-source-ddc-supply = gängige Praxis, ohne Quelle: Elektronik in 12-V-Netzen arbeitet von 6 bis 16 V, mit Reserve; ISO 16750-2 lag nicht vor
