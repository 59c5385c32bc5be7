kind-bit-rate = Bitrate
kind-recessive-high = CAN High, rezessiv
kind-recessive-low = CAN Low, rezessiv
kind-dominant-high = CAN High, dominant
kind-dominant-low = CAN Low, dominant
kind-differential-dominant = Dominante Differenzspannung
kind-symmetry = Symmetrie der Pegel
kind-common-mode = Gleichtaktspannung
kind-common-mode-offset = Gleichtaktversatz eines Teilnehmers
kind-wire-condition = Zustand der Leitungen
kind-termination = Abschlusswiderstand
kind-ringing = Überschwingen
kind-frames = Botschaften
kind-frame-errors = Gestörte Botschaften
kind-identifiers = Kennungen
kind-bus-load = Buslast
kind-node-period = Zykluszeit einer Kennung
kind-node-gap = Aussetzer einer Kennung
kind-node-flood = Flut einer Kennung

bit-rate = Der Bus läuft mit { $value } kbit/s ({ $samples_a_bit } Abtastwerte je Bit).
bit-rate-fd = Der Bus läuft mit { $value } kbit/s und schaltet in der Datenphase auf { $data_phase } kbit/s um (CAN FD).
bit-rate-differs = Der Bus läuft mit { $value } kbit/s, nicht mit den angegebenen { $stated } kbit/s.
sampling-too-slow = Mit { $sample_rate } kS/s ist die Aufzeichnung zu langsam, um Botschaften zu lesen; nötig sind mindestens { $needed } kS/s.
bit-rate-no-traffic = Die Aufzeichnung zeigt zu wenige Bits, um eine Bitrate zu bestimmen.
bit-rate-no-grid = Die Flanken auf den Leitungen ergeben keine lesbare Botschaft.
can-level = CAN { $line ->
    [high] High
   *[low] Low
} liegt im { $state ->
    [dominant] dominanten
   *[recessive] rezessiven
} Zustand bei { $value } V.
differential-dominant = Im dominanten Zustand liegen die Leitungen { $value } V auseinander.
symmetry = Zusammen liegen die Leitungen im dominanten Zustand bei { $value } % ihrer rezessiven Summe.
common-mode = Die Leitungen liegen im Mittel bei { $value } V.
common-mode-offset = Der Sender von { $identifier } weicht um { $value } V von den anderen ab.
wires-sound = Jedes Bit führt beide Leitungen auseinander und wieder zusammen.
wires-reversed = Im dominanten Zustand liegt CAN Low über CAN High: Leitungen oder Tastköpfe sind vertauscht.
wires-reversed-partly = { $share } % der dominanten Bits legen CAN Low über CAN High: Ein Teilnehmer ist verpolt angeschlossen.
wire-at-ground = CAN { $line ->
    [high] High
   *[low] Low
} liegt an Masse ({ $value } V).
wire-at-supply = CAN { $line ->
    [high] High
   *[low] Low
} liegt an Versorgungsspannung ({ $value } V).
wires-together = Teilnehmer versuchen zu senden, doch die beiden Leitungen bleiben beisammen.
wire-open = { $pulses } Bits bewegten beide Leitungen gleich: CAN { $line ->
    [high] High
   *[low] Low
} ist zwischen den Teilnehmern unterbrochen.
wire-open-plain = Manche Botschaften kommen nur über einen der beiden Drähte an.
wires-stuck-dominant = Der Bus wird ohne Pause dominant gehalten.
wires-probe-off = Der Kanal von CAN { $line ->
    [high] High
   *[low] Low
} zeigt nichts, während die andere Leitung arbeitet: Sein Tastkopf hat keinen Kontakt.
wires-quiet = Auf den Leitungen bewegt sich nichts um mehr als { $detectable } V: Der Bus schläft, oder niemand sendet.
wires-quiet-at-ground = Beide Leitungen liegen an Masse und bewegen sich um nicht mehr als { $detectable } V, obwohl das Fahrzeug wach ist.
wires-low-speed-bus = CAN Low ruht bei etwa 5 V und CAN High bei etwa 0 V, im dominanten Zustand kreuzen sie sich: Das ist ein fehlertoleranter Low-Speed-Bus (ISO 11898-3), dessen Pegel hier nicht beurteilt werden.
wires-single-wire-bus = Eine Leitung wechselt zwischen Masse und Batteriespannung: Das ist ein LIN-Bus oder eine Diagnoseleitung, kein CAN-Leitungspaar.
wires-unclear = Das Verhalten der Leitungen passt zu keinem einzelnen Zustand.
termination = Die dominanten Pegel von { $senders } Kennungen sprechen für { $value } Ohm zwischen den Leitungen.
termination-high = Die dominanten Pegel von { $senders } Kennungen sprechen für { $value } Ohm zwischen den Leitungen: weniger Last, als zwei Abschlusswiderstände ergeben.
termination-high-plain = Die Signale auf der Datenleitung sind größer, als ihre beiden Abschlusswiderstände sie lassen.
termination-low = Die dominanten Pegel von { $senders } Kennungen sprechen für { $value } Ohm zwischen den Leitungen: mehr Last, als zwei Abschlusswiderstände ergeben.
termination-unclear = Die dominanten Pegel von { $senders } Kennungen sprechen für { $value } Ohm zwischen den Leitungen; das ist für ein Urteil zu unsicher.
termination-at-least = Der Bus entlädt sich so langsam, dass mindestens { $value } Ohm zwischen den Leitungen liegen: Kein Abschlusswiderstand ist angeschlossen.
ringing = Nach einer rezessiven Flanke schwingen die Leitungen { $value } % unter die Ruhelage und beruhigen sich in { $settling_ns } ns.
frames = { $value } Botschaften wurden mit richtiger Prüfsumme gelesen, davon { $fd } CAN FD; { $overload } Überlastbotschaften.
frames-logged = Das Protokoll enthält { $value } Botschaften.
frame-errors-none = Keine von { $frames } Botschaften war gestört.
frame-errors-data-phase = { NUMBER($unread, maximumFractionDigits: 0) } CAN-FD-Rahmen schalten auf eine Bitrate um, die { NUMBER($sample_rate, maximumFractionDigits: 0) } kS/s nicht tragen: Sie sind gezählt und nicht gelesen. Mit { NUMBER($needed, maximumFractionDigits: 0) } kS/s ist jede Datenphase zu lesen.
frame-errors = { $value } Botschaften waren gestört ({ $share } %), die meisten im { $field ->
    [arbitration] Arbitrierungsfeld
    [control] Steuerfeld
    [data] Datenfeld
    [crc] Prüfsummenfeld (CRC)
    [acknowledge] Bestätigungsfeld
   *[end-of-frame] Endefeld
} ({ $error ->
    [error-flag] ein Teilnehmer meldet mit einem Fehlerflag
    [stuff] Stopfregel verletzt
    [crc] Prüfsumme falsch
    [form] festes Bit falsch
   *[acknowledge] niemand bestätigt
}){ $of_identifier ->
    [0] {""}
   *[other] {", "}am häufigsten { $identifier }
}.
frame-errors-unacknowledged = { $value } Botschaften waren gestört ({ $share } %), die meisten, weil niemand sie bestätigte{ $of_identifier ->
    [0] {""}
   *[other] {", "}am häufigsten { $identifier }
}.
frame-errors-coarse = { $value } Botschaften waren nicht lesbar; bei { $samples_a_bit } Abtastwerten je Bit kann das an der Aufzeichnung liegen.
frame-errors-noisy = { $value } Botschaften waren nicht lesbar; die Leitungen sind so verrauscht aufgezeichnet, dass es an der Aufzeichnung liegen kann.
frame-errors-of = { $identifier } war { $value }-mal gestört, meist im { $field ->
    [arbitration] Arbitrierungsfeld
    [control] Steuerfeld
    [data] Datenfeld
    [crc] Prüfsummenfeld (CRC)
    [acknowledge] Bestätigungsfeld
   *[end-of-frame] Endefeld
} ab Bit { $bit } ({ $error ->
    [error-flag] ein Teilnehmer meldet mit einem Fehlerflag
    [stuff] Stopfregel verletzt
    [crc] Prüfsumme falsch
    [form] festes Bit falsch
   *[acknowledge] niemand bestätigt
}).
identifiers = { $value } Kennungen wurden gesehen.
identifiers-silent = { $value } Kennungen wurden gesehen; { $missing } erwartete kamen nie: { $silent }.
bus-load = Der Bus war { $value } % der Zeit belegt; die längste Pause dauerte { $longest_pause_ms } ms.
node-period = Kommt alle { $value } ms ({ $frames } Botschaften).
node-gap = Schwieg { $value } s lang, das sind { $periods } Zyklen, während andere weitersendeten.
node-stopped = Verstummte { $value } s vor dem Ende des Protokolls, das sind { $periods } Zyklen, während andere weitersendeten.
node-stopped-as-others = Verstummte { $value } s vor dem Ende des Protokolls, wie mehrere andere zu anderen Zeitpunkten: Teilnehmer schalten ab.
node-flood = Wurde { $duration_s } s lang { $value }-mal je Sekunde gesendet und belegte { $share } % aller Botschaften.

cause-line-open = Eine Busleitung ist unterbrochen
cause-line-open-plain = Eine der beiden Leitungen, über die sich die Steuergeräte verständigen, ist zwischen ihnen unterbrochen.
cause-line-open-ruled-out = Eine unterbrochene Busleitung
repair-line-open-1 = Bei abgeklemmter Batterie die Leitung von Stecker zu Stecker verfolgen und die Stelle zwischen den Teilnehmern finden, die sich noch hören, und denen, die es nicht tun.
repair-line-open-2 = Leitung oder Stecker instand setzen; das Paar bis an die Verbindung verdrillt lassen.
proof-line-open = Dieselbe Aufzeichnung noch einmal: Jedes Bit führt beide Leitungen auseinander, und keine Botschaft ist gestört.

cause-line-short-to-ground = Eine Busleitung hat Masseschluss
cause-line-short-to-ground-plain = Eine der beiden Leitungen, über die sich die Steuergeräte verständigen, berührt die Karosserie.
cause-line-short-to-ground-ruled-out = Ein Masseschluss einer Busleitung
repair-line-short-to-ground-1 = Während der Aufzeichnung einen Teilnehmer nach dem anderen abstecken; mit dem fehlerhaften oder mit seinem Abzweig kommt die Leitung frei.
repair-line-short-to-ground-2 = Die durchgescheuerte Leitung instand setzen oder den Teilnehmer ersetzen, der die Leitung festhält.
proof-line-short-to-ground = Dieselbe Aufzeichnung noch einmal: Beide Leitungen ruhen zwischen 2 und 3 V.

cause-line-short-to-supply = Eine Busleitung hat Kurzschluss nach Plus
cause-line-short-to-supply-plain = Eine der beiden Leitungen, über die sich die Steuergeräte verständigen, berührt eine Leitung mit Batteriespannung.
cause-line-short-to-supply-ruled-out = Ein Kurzschluss einer Busleitung nach Plus
repair-line-short-to-supply-1 = Während der Aufzeichnung einen Teilnehmer nach dem anderen abstecken; mit dem fehlerhaften oder mit seinem Abzweig kommt die Leitung frei.
repair-line-short-to-supply-2 = Die Leitung instand setzen und die Teilnehmer prüfen: Ihre Buseingänge lagen an einer Spannung, die nicht alle überstehen.
proof-line-short-to-supply = Dieselbe Aufzeichnung noch einmal: Beide Leitungen ruhen zwischen 2 und 3 V.

cause-lines-shorted-together = Die Busleitungen berühren einander
cause-lines-shorted-together-plain = Die beiden Leitungen, über die sich die Steuergeräte verständigen, berühren einander, sodass sich kein Steuergerät mehr verständigen kann.
cause-lines-shorted-together-ruled-out = Busleitungen, die einander berühren
repair-lines-shorted-together-1 = Bei abgeklemmter Batterie den Widerstand zwischen den Leitungen messen; Teilnehmer und Abzweige nacheinander abstecken, bis er steigt.
repair-lines-shorted-together-2 = Leitung oder Stecker instand setzen oder den Teilnehmer ersetzen, der die Leitungen verbindet.
proof-lines-shorted-together = Dieselbe Aufzeichnung noch einmal: In jedem dominanten Bit liegen die Leitungen etwa 2 V auseinander.

cause-lines-swapped = Die Busleitungen sind vertauscht
cause-lines-swapped-plain = Die beiden Leitungen, über die sich die Steuergeräte verständigen, sind verkehrt herum angeschlossen.
cause-lines-swapped-ruled-out = Vertauschte Busleitungen
repair-lines-swapped-1 = Zuerst prüfen, ob die Tastköpfe an den richtigen Leitungen sitzen.
repair-lines-swapped-2 = Ansehen, was zuletzt verdrahtet wurde, eine Nachrüstung oder ein reparierter Stecker, und dort die beiden Leitungen tauschen.
proof-lines-swapped = Dieselbe Aufzeichnung noch einmal: CAN High liegt in jedem dominanten Bit über CAN Low.

cause-termination-missing = Ein Abschlusswiderstand fehlt
cause-termination-missing-plain = Ein Widerstand, der das Ende der Datenleitung abschließen muss, ist nicht angeschlossen; dadurch werden Botschaften gestört.
cause-termination-missing-ruled-out = Ein fehlender Abschlusswiderstand
repair-termination-missing-1 = Bei abgeklemmter Batterie den Widerstand zwischen den Leitungen messen: Zwei Abschlüsse mit 120 Ohm ergeben 60 Ohm, einer 120 Ohm.
repair-termination-missing-2 = Das Leitungsende ohne Abschluss finden und Stecker, Teilnehmer oder Widerstand dort instand setzen.
proof-termination-missing = Dieselbe Aufzeichnung noch einmal: dominante Pegel eines Busses mit zwei Abschlüssen.

cause-termination-extra = Ein Abschlusswiderstand ist zu viel
cause-termination-extra-plain = Ein Widerstand belastet die Datenleitung, der dort nicht hingehört; dadurch werden Botschaften schwach.
cause-termination-extra-ruled-out = Ein Abschlusswiderstand zu viel
repair-termination-extra-1 = Bei abgeklemmter Batterie den Widerstand zwischen den Leitungen messen: Unter 54 Ohm ist ein Widerstand zu viel.
repair-termination-extra-2 = Nachgerüstete oder getauschte Teilnehmer ansehen: Einer mit eingebautem Abschluss kann dort sitzen, wo einer ohne hingehört.
proof-termination-extra = Dieselbe Aufzeichnung noch einmal: dominante Pegel eines Busses mit zwei Abschlüssen.

cause-ground-offset = Die Masse eines Teilnehmers ist gegen die der anderen verschoben
cause-ground-offset-plain = Ein Steuergerät hat eine schlechte Masseverbindung; die anderen verstehen es dadurch schlecht.
cause-ground-offset-ruled-out = Eine verschobene Masse
repair-ground-offset-1 = Zuerst die Masse des Aufzeichnungsgeräts prüfen; dann bei eingeschalteten Verbrauchern die Spannung zwischen der Masse des Teilnehmers und dem Minuspol der Batterie messen.
repair-ground-offset-2 = Den Massepunkt reinigen und festziehen oder seine Leitung instand setzen.
proof-ground-offset = Dieselbe Aufzeichnung noch einmal: Alle Sender liegen auf einer Höhe.

cause-node-silent = Ein Steuergerät verstummt
cause-node-silent-plain = Ein Steuergerät hört auf, seine Botschaften zu senden, obwohl die anderen weitersenden.
cause-node-silent-ruled-out = Ein stummes Steuergerät
repair-node-silent-1 = Im Schaltplan feststellen, welcher Teilnehmer die fehlenden Kennungen sendet.
repair-node-silent-2 = Seine Versorgung und Masse unter Last messen, während er verstummt, dann seinen Stecker und seinen Abzweig des Busses.
repair-node-silent-3 = Den Teilnehmer erst ersetzen, wenn Versorgung, Masse und Bus an seinem eigenen Stecker in Ordnung sind.
proof-node-silent = Dasselbe Protokoll noch einmal, mindestens so lang: Keine Kennung verstummt.

cause-node-disturbing = Ein Steuergerät stört den Bus
cause-node-disturbing-plain = Ein Steuergerät zerstört die Botschaften der anderen oder verdrängt sie.
cause-node-disturbing-ruled-out = Ein Steuergerät, das den Bus stört
repair-node-disturbing-1 = Während der Aufzeichnung einen Teilnehmer nach dem anderen abstecken; mit dem richtigen enden die Fehler.
repair-node-disturbing-2 = Bitrate, Software, Versorgung und Stecker dieses Teilnehmers prüfen und ihn ersetzen, wenn sie in Ordnung sind.
proof-node-disturbing = Dieselbe Aufzeichnung noch einmal: Keine Botschaft ist gestört.

next-record-can-lines = CAN High und CAN Low gemeinsam gegen Masse aufzeichnen, mit mindestens acht Abtastwerten je Bit (4 MS/s bei 500 kbit/s), Zündung ein.
next-record-can-faster = CAN High und CAN Low zusammen aufzeichnen, mit mindestens acht Werten je Bit der Datenphase (40 MS/s bei 5 Mbit/s).
next-record-can-probes = Prüfen, ob jeder Tastkopf Kontakt hat und an der richtigen Leitung sitzt, und noch einmal aufzeichnen.
next-log-can-bus = Die Botschaften dieses Busses mindestens eine Minute lang protokollieren und Bitrate und erwartete Kennungen angeben.
next-disconnect-can-nodes = Die Teilnehmer dieses Busses nacheinander abstecken und jedes Mal aufzeichnen.
next-measure-can-resistance = Nach einigen Minuten mit abgeklemmter Batterie den Widerstand zwischen den Leitungen messen, und den jeder Leitung gegen Masse und Versorgung.
next-measure-can-ground = Bei eingeschalteten Verbrauchern die Spannung zwischen der Masse des Teilnehmers und dem Minuspol der Batterie messen.
next-measure-can-node-supply = Versorgung und Masse des stummen Teilnehmers an seinem eigenen Stecker gemeinsam mit dem Bus aufzeichnen.

reason-can-errors-unclear = Eine Botschaft war gestört oder nicht lesbar; eine allein sagt nichts.
reason-can-too-slow = Die Aufzeichnung hat zu wenige Werte je Bit, um einen Rahmen zu lesen.
reason-can-data-phase = Die Datenphase der CAN-FD-Rahmen ist schneller, als die Aufzeichnung zeigt; ein Fehler darin wäre nicht zu sehen gewesen.
reason-can-other-bus = Die Leitungen gehören zu einem Bus anderer Art, dessen Fehler hier nicht beurteilt werden.
reason-can-probe-off = Einer der beiden Tastköpfe hatte keinen Kontakt.
reason-can-several-stop = Mehrere Kennungen verstummten nacheinander, wie beim Ausschalten der Zündung.
why-no-can-traffic = keine Botschaften auf den Leitungen
why-too-few-senders = zu wenige Sender
why-no-bus-log = kein Protokoll des Busses

labour-measure-can-bus = CAN-Bus messen
labour-repair-can-wiring = Leitungen des CAN-Busses instand setzen
labour-repair-can-node = Teilnehmer des CAN-Busses instand setzen oder ersetzen

system-can-bus = CAN-Datenbus
subject-can-high = CAN High
subject-can-low = CAN Low
subject-frame-identifier = Kennungen des Protokolls
subject-frame-length = Längen der protokollierten Botschaften
subject-frame-data-n = Daten der protokollierten Botschaften, Wort { $n }
method-can-lines = Die Flanken der Differenzspannung bei ihrem halben Hub, mit Hysterese, werden auf das am besten passende Bitraster gelegt; Botschaften werden Bit für Bit gelesen, mit Stopfbits, CRC, Bestätigung und Ende. Pegel sind Mediane abseits der Flanken. Der Abschlusswiderstand wird aus den dominanten Pegeln einzeln sendender Teilnehmer geschätzt; seine Unsicherheit ist die Streuung, die Datenblätter den Treibern zugestehen. Der Zustand der Leitungen zeigt sich daran, was jede von ihnen in dominanten und rezessiven Bits tut.
method-can-log = Die Buslast zählt die Bits jeder Botschaft mit ihren Stopfbits. Die Zykluszeit einer Kennung ist der Median ihrer Abstände, wo die meisten übereinstimmen; ein Aussetzer zählt ab fünf Zyklen, während andere Kennungen weitersenden. Eine Flut ist eine Kennung, die um ein Vielfaches häufiger kommt als zuvor.

# Ursachenblätter

sheet-can-one-wire-bits = Bits einiger Teilnehmer bewegen beide Leitungen gleich: Sie kommen nur über eine Leitung an
sheet-can-lines-move-apart = jedes Bit führt die Leitungen auseinander; der Bruch eines Abzweigs, dessen Teilnehmer nichts sendet, ist nicht zu sehen
sheet-can-open-source = Ermessen; Werkstatthandbuch Subaru Outback 2013: Leitungen können offen sein, obwohl der Kreis 56 bis 64 Ohm misst
sheet-can-other-wire-fault = ein anderer Zustand der Leitungen erklärt das Gesehene
sheet-can-at-ground = beide Leitungen liegen im rezessiven Zustand an Masse, während Teilnehmer sie treiben
sheet-can-short-source = Ermessen; Datenblatt TJA1055, Tabelle 4, führt den Zustand auf
sheet-can-quiet-at-ground = beide Leitungen liegen ohne Bewegung an Masse, obwohl das Fahrzeug wach ist
sheet-can-levels-right = eine kurzgeschlossene Leitung kann die rezessiven und dominanten Pegel eines gesunden Busses nicht zeigen
sheet-can-at-supply = beide Leitungen liegen über jedem Pegel, den ein Teilnehmer ihnen geben kann
sheet-can-held-together = Teilnehmer versuchen zu senden, und die Leitungen lassen sich nicht trennen
sheet-can-parted = jedes Bit führt die Leitungen auseinander
sheet-can-one-reversed = einige Bits legen CAN Low über CAN High, andere sind richtig herum: Ein Teilnehmer ist verpolt angeschlossen
sheet-can-all-reversed = alle Bits legen CAN Low über CAN High: Leitungen oder Tastköpfe sind an der Messstelle vertauscht
sheet-can-right-way-round = kein Bit legt CAN Low über CAN High
sheet-can-levels-high = die Teilnehmer führen die Leitungen weiter auseinander, als sie es gegen zwei Abschlüsse können
sheet-can-falls-slowly = der Bus entlädt sich für jeden Abschluss viel zu langsam
sheet-can-load-right = die dominanten Pegel sind die eines Busses mit beiden Abschlüssen
sheet-can-load-more = die Teilnehmer sind mit mehr als zwei Abschlüssen belastet
sheet-can-levels-low = die Teilnehmer können die Leitungen nicht so weit auseinanderführen wie gegen zwei Abschlüsse
sheet-can-load-less = die Teilnehmer sind mit weniger als zwei Abschlüssen belastet
sheet-can-one-node-off = beide Leitungen eines Senders sind um dieselbe Spannung verschoben
sheet-can-all-off = beide Leitungen liegen in jedem Zustand um dieselbe Spannung abseits der halben Versorgung
sheet-can-nodes-agree = alle Sender liegen auf einer Höhe
sheet-can-wires-move-levels = ein anderer Zustand der Leitungen verschiebt die Pegel
sheet-can-falls-silent = ein zyklisch sendender Teilnehmer verstummt, während die anderen weitersenden
sheet-can-stops = ein zyklisch sendender Teilnehmer hört auf, während die anderen weitersenden
sheet-can-never-seen = Kennungen, die auf diesem Bus sein müssen, kommen nie
sheet-can-unacknowledged = ein Teilnehmer sendet, und niemand bestätigt: Die anderen sind nicht am Bus
sheet-can-periods-kept = jede zyklische Kennung hielt ihre Zykluszeit bis zum Ende
sheet-can-cut-off = der Zustand der Leitungen trennt Teilnehmer ab
sheet-can-spoils-frames = auf einem gesunden Leitungspaar werden Botschaften gestört
sheet-can-floods = eine Kennung verdrängt die anderen
sheet-can-holds-dominant = der Bus wird ohne Ende getrieben
sheet-can-no-errors = keine Botschaft war gestört
sheet-can-no-flood = keine Kennung verdrängt die anderen
sheet-can-wires-spoil = der Zustand der Leitungen stört Botschaften
sheet-can-termination-spoils = ein falscher Abschluss stört Botschaften
sheet-can-ground-spoils = ein Teilnehmer mit verschobener Masse stört Botschaften, ohne selbst defekt zu sein
sheet-engine-ground = eine schlechte Motormasse hebt die Steuergeräte am Motor an

# Quellen der Grenzwerte.
sheet-source-can-recessive = Datenblätter TCAN1042-Q1 (SLLSES9C) und TCAN1044-Q1 (SLLSF17): rezessiver Ausgang ohne Last, wie in ISO 11898-2
sheet-source-can-dominant = Datenblätter TCAN1042-Q1 (SLLSES9C) und TCAN1044-Q1 (SLLSF17): dominanter Ausgang, wie in ISO 11898-2
sheet-source-can-differential = Datenblätter TCAN1042-Q1 (SLLSES9C) und TCAN1044-Q1 (SLLSF17): dominante Differenzspannung an 45 bis 70 Ohm
sheet-source-can-symmetry = Datenblatt TCAN1042-Q1 (SLLSES9C): Summe beider Leitungen im dominanten Zustand 0,9 bis 1,1 der Versorgung, die sich beide Leitungen im rezessiven Zustand teilen
sheet-source-can-common-mode = Datenblätter TCAN1042-Q1 (SLLSES9C) und TCAN1044-Q1 (SLLSF17): beide Leitungen rezessiv zwischen 2 und 3 V
sheet-source-can-offset = das Doppelte der Symmetrie, die Datenblätter einem Treiber zugestehen (TCAN1042-Q1: 0,9 bis 1,1 der Versorgung, 0,25 V bei 5 V); der Faktor ist gängige Praxis
sheet-source-can-termination = Werkstatthandbücher Lexus GS 2007 und RX400h: Schleifenwiderstand eines intakten Busses; die Schätzung aus Pegeln hat ihre eigene Unsicherheit
sheet-source-can-frame-errors = gängige Praxis, ohne Quelle: ein intakter Bus zeigt keine Fehlerbotschaften
sheet-source-can-node-gap = gängige Praxis, ohne Quelle: Empfänger warten mehrere Perioden ab, und ein neu startender Teilnehmer fehlt bis zu 0,3 s
sheet-source-can-least = Überlegung: eine Botschaft dauert einen Bruchteil einer Millisekunde; ob genug aufgezeichnet sind, beurteilen die Messungen selbst

# Cautions
driver-data-line = Anzeigen, Licht, Lenk- und Bremshilfe hängen an dieser Datenleitung und können unterwegs ausfallen. Fahren Sie nur, wenn die Werkstatt zustimmt. Halten Sie an sicherer Stelle an, wenn eine rote Leuchte angeht.
    .word = WARNING
    .title = Funktionen können ausfallen
    .source = { source-practice }
