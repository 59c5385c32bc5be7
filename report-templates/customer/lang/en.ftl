### Every sentence of the customer's report, in English (Fluent syntax, projectfluent.org).
### A translation is a copy of this file under another language's name (de.ftl, es.ftl) with the
### right-hand sides put into that language; keys, arguments and the `.word` attributes stay as they are.
### Numbers come in as numbers: NUMBER($x, maximumFractionDigits: 1) rounds, and the decimal sign is
### the language's own.

# findings
# One message per observation; the key is the `message` that a plugin gives.
# Besides the plugin's own arguments a sentence may use $subject-name (the subject in words: "second input shaft"),
# $file, $value, $uncertainty, $unit, $start_s, $end_s, $duration_s, $charge_as, $low and $high (the limit).

finding-generic = { $kind-name } on { $subject-name }: { $value }{ $limit }.
finding-generic-plain = { $kind-name } on { $subject-name }.
finding-generic-limit = , expected { $range }
finding-generic-range-between = { $low } to { $high }
finding-generic-range-above = at least { $low }
finding-generic-range-below = at most { $high }

# Actuator current
actuation-clutch = Clutch actuation: { NUMBER($value, maximumFractionDigits: 1) } A at its peak, over after { NUMBER($duration_s, maximumFractionDigits: 2) } s.
actuation-small = Small actuation: { NUMBER($value, maximumFractionDigits: 1) } A at its peak, over after { NUMBER($duration_s, maximumFractionDigits: 2) } s, the size of a gear motor's.
actuation-unscaled = Actuation, over after { NUMBER($duration_s, maximumFractionDigits: 2) } s (the clamp's scale is not known, so no amperes).
actuation-stall = Stalled attempt: the current climbs to { NUMBER($value, maximumFractionDigits: 1) } A and stays near its peak for { NUMBER($hold_s, maximumFractionDigits: 2) } s; what it drives does not move.
actuation-stall-unscaled = Stalled attempt: the current stays near its peak for { NUMBER($hold_s, maximumFractionDigits: 2) } s (the clamp's scale is not known, so no amperes).
actuation-absent = The controller wakes at { NUMBER($woke_s, maximumFractionDigits: 1) } s and works, but no clutch actuator draws its current in the { NUMBER($listened_s, maximumFractionDigits: 0) } s that follow.
actuation-absent-unwatched = No clutch actuator draws its current; the start of the attempt was not recorded, so the controller may not have tried.
actuation-absent-own-line = The { $subject-name } shows nothing while the other clutch actuator works; the controller may not have meant it to.
attempts = { $value ->
    [one] One attempt ends in a stall.
   *[other] { $value } attempts end in a stall.
 }
gave-up = After the last stall, at { NUMBER($end_s, maximumFractionDigits: 1) } s, the control unit tries no more.

# Shaft motion
turning-at-rest = The { $subject-name } turns steadily for { NUMBER($steady_s, maximumFractionDigits: 1) } s with the engine running, the selector in P or N and no clutch applied: its clutch does not let go.
turning-drives = The { $subject-name } turns; with the selector in a driving position it may.
turning-vehicle-moves = The { $subject-name } turns while the vehicle moves, as it should.
turning-engine-off = The { $subject-name } turns while the engine is off: it is turned from the wheels, no clutch can drive it.
turning-commanded = The { $subject-name } turns after a clutch application, as it should.
turning-coasting = The { $subject-name } turns for a moment without keeping its speed: it is carried along and coasts down.
turning-slow = The { $subject-name } turns slowly; the drag of oil and bearings can do that.
turning-conditions-unknown = The { $subject-name } turns, but it is not known whether the engine ran or where the selector stood: turning alone proves nothing.
turning-command-unknown = The { $subject-name } turns with the selector in P or N; without the feed current it cannot be told whether a clutch was applied on purpose.
turning-output = The { $subject-name } turns: the vehicle moves.
shaft-speed = The { $subject-name } turns at { NUMBER($value, maximumFractionDigits: 0) } rpm (median).
shaft-at-rest = The { $subject-name } stands still during the whole recording.
shaft-at-rest-engine-off = The { $subject-name } stands still; the engine was off, so that a dragging clutch could not have turned it.
shaft-at-rest-engine-unknown = The { $subject-name } stands still; it is not known whether the engine ran, so a dragging clutch is not ruled out by it.
shaft-at-rest-vr = The { $subject-name } gives no pulses. A coil sensor is silent at rest, and at very low speed too.
shaft-at-rest-creep = The { $subject-name } does not turn; single tooth edges show that it creeps or that one tooth stands before the sensor.
rotation-refused-undersampled = Pulses of the { $subject-name } are not taken for a speed: only { $detail } samples a tooth, any speed could be a false one.
rotation-refused-dithering = Pulses of the { $subject-name } are not taken for rotation: they scatter by { $detail } % from one to the next, like one tooth edge that trembles before the sensor.
rotation-refused-small-swing = Pulses of the { $subject-name } are not taken for rotation: they swing by only { $detail } V, too little for the sensor's own signal.
rotation-refused-spikes = Pulses of the { $subject-name } are not taken for rotation: they are spikes of { $detail } % of the period, not teeth.
rotation-refused-too-regular = Pulses of the { $subject-name } are not taken for rotation: their rate varies by only { $detail } %, steadier than any engine; an electrical source is likelier.
rotation-refused-too-quick = Pulses of the { $subject-name } are not taken for rotation: the speed would change by { $detail } rpm within a second, faster than the shaft's inertia allows.
rotation-refused-current = Pulses of the { $subject-name } are not taken for rotation: they keep time with the { $detail-name }, as electrical pick-up does.
rotation-refused-copy = Pulses of the { $subject-name } are not taken for rotation: they are a small copy of another channel ({ $detail }).

# Supply
supply-sag = Under the hardest actuation the supply falls by { NUMBER($value, maximumFractionDigits: 2) } V, to { NUMBER($extreme_v, maximumFractionDigits: 1) } V.
ground-drop = Under the hardest actuation the ground rises by { NUMBER($value, maximumFractionDigits: 2) } V.
feed-resistance = Resistance of the path at { $subject-name }: { NUMBER($milliohm, maximumFractionDigits: 1) } milliohm, from how the voltage follows the current over { NUMBER($swing_a, maximumFractionDigits: 0) } A.
fuse-duty = In its hardest second the feed carries { NUMBER($rms_a, maximumFractionDigits: 0) } A effective, { NUMBER($value, maximumFractionDigits: 0) } % of the fuse's rating.

# Gear train
gear-ratio = The { $subject-name } turns { NUMBER($value, maximumFractionDigits: 3) } times for one turn of the output shaft.
gear-ratio-named = The { $subject-name } turns { NUMBER($value, maximumFractionDigits: 3) } times for one turn of the output shaft: gear { $gear }.
wrong-gear = The { $subject-name } turns { NUMBER($value, maximumFractionDigits: 3) } times for one turn of the output shaft, a ratio that none of its gears has (nearest: gear { $nearest }): another gear set or final drive, a wrong tooth count, or swapped sensors.
shift = Gear change in { NUMBER($duration_s, maximumFractionDigits: 2) } s.
slip = With the gear held, the engine turns { NUMBER($value, maximumFractionDigits: 0) } rpm ({ NUMBER($percent, maximumFractionDigits: 0) } %) faster than the { $subject-name } that its clutch should lock to it.
slip-none = With the gear held, the engine and the { $subject-name } turn alike (within { NUMBER($value, maximumFractionDigits: 0) } rpm).
double-engagement = The output slows by { NUMBER($value, maximumFractionDigits: 0) } % within { NUMBER($duration_s, maximumFractionDigits: 2) } s, from the application of one clutch to the release of the other: both carry at once.

# Sensor health
sensor-dead = The sensor of the { $subject-name } shows nothing while the engine drives the vehicle through that shaft.
sensor-silent = The sensor of the { $subject-name } shows nothing at all while the vehicle drives and changes gear, which it does through either shaft in turn.
sensor-dropouts = The sensor of the { $subject-name } breaks off { $value } times ({ NUMBER($lost_s, maximumFractionDigits: 1) } s in all) and goes on at the same speed: the shaft turned on, the signal did not.
sensor-contact = The sensor of the { $subject-name } loses contact { $value } times ({ NUMBER($lost_s, maximumFractionDigits: 1) } s in all) and goes on at the same speed: a plug, a wire or a joint opens.
sensor-missing-teeth = The wheel of the { $subject-name } has { $value ->
    [one] one gap
   *[other] { $value } gaps
 } where teeth belong, at the same place on each of { $turns } turns.
sensor-doubled-teeth = { $value ->
    [one] One tooth
   *[other] { $value } teeth
 } of the { $subject-name } count twice, at the same place on each of { $turns } turns: a notch, a chip or metal on the wheel.
tooth-wheel-gap = The wheel of the { $subject-name } has { $positions } positions, { $value } of them without a tooth. Many wheels are made so; if this one is not, teeth are missing.
crosstalk = The wire of the { $subject-name } carries { NUMBER($share_percent, maximumFractionDigits: 0) } % of the signal of the { $from-name }: electrical pick-up, no rotation.

# Conditions of a recording
condition-engine-running = The engine runs from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (certainty { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-not-running = The engine does not run from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (certainty { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-cranking = The engine is being started from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (certainty { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-unknown = Whether the engine runs from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s is not sure enough: { condition-clue } (certainty { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-no-drive = The selector stands in { $selector }: no gear is meant to drive (certainty { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-drive = The selector stands in { $selector }, a driving position (certainty { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-drive-likely = Nobody said where the selector stood; the vehicle moves, so a driving position is likely (certainty { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-unknown = Nobody said where the selector stood, and nothing in the recording tells.
condition-commanded = { $value ->
    [0] No clutch is applied by command in this recording.
    [one] One clutch application by command is seen; for { NUMBER($total_s, maximumFractionDigits: 1) } s a shaft may turn because of it.
   *[other] { $value } clutch applications by command are seen; for { NUMBER($total_s, maximumFractionDigits: 1) } s in all a shaft may turn because of them.
 }
condition-commanded-unknown = The feed current was not recorded: whether a clutch was applied by command is not known.
condition-clue = { $basis ->
    [stated] as stated
    [engine-speed-turns] its own speed sensor turns
    [engine-speed-cranks] its own speed sensor turns at a starter's speed
    [engine-speed-stands] its own speed sensor stands still
    [starter] the starter pulls the supply down
    [starter-later] the starter is engaged only later
    [charged-after-start] after the start the supply is charged
    [not-charged-after-start] after the start the supply is not charged
    [charged] the supply is charged, as by an alternator or a battery charger
    [resting] the supply only rests
    [ripple] the supply carries an alternator's ripple
   *[other] nothing tells
 }{ $agree ->
    [0] {""}
    [one] ; one more sign agrees
   *[other] ; { $agree } more signs agree
 }{ $against ->
    [0] {""}
    [one] ; one speaks against it
   *[other] ; { $against } speak against it
 }

# Signal quality
quality-too-short = The recording is only { NUMBER($value, maximumFractionDigits: 2) } s long.
quality-missing = { NUMBER($value, maximumFractionDigits: 0) } % of the values of the { $subject-name } are missing.
quality-clipped = The { $subject-name } runs against the top of the measuring range: its peaks are cut off.
quality-reversed = The { $subject-name } points downwards: the clamp was put on the wrong way round.
quality-offset = The { $subject-name } rests at { NUMBER($value, maximumFractionDigits: 1) } A: the clamp was not set to zero, or something else draws current.
quality-undersampled = The { $subject-name } was sampled too slowly: { NUMBER($value, maximumFractionDigits: 1) } samples a tooth.
quality-could-alias = The { $subject-name } was sampled too slowly to exclude a false speed: at idle speed a tooth would have { NUMBER($value, maximumFractionDigits: 1) } samples.
quality-doubled-edges = The signal of the { $subject-name } has { $value } doubled edges. They were left out; the speed is to be trusted only after a look at the signal.
quality-folded = The signal of the { $subject-name } goes beyond the recorder's range and comes out at its other end ({ $value } samples, taken as over range): record it with a wider range before trusting its shape.
quality-teeth-unknown = The number of teeth at the { $subject-name } is not known, so its pulses give no speed.
scale-unknown = The scale of the clamp at the { $subject-name } is not known, so its readings are no amperes.
engine-contradicted = What was written of the engine does not agree with the recording.

# Codes
code-supported = The code { $code } fits what was measured.
code-contradicted = The code { $code } is reported as present, but what it claims was measured and is in order.
code-not-tested = The code { $code } was neither borne out nor contradicted by the recording.
code-history = The code { $code } is an old entry; it says nothing of today's measurements.
code-not-known = What the code { $code } claims is not something that this recording could be held against.

# Kinds of observation, for headings and for the neutral sentence.
kind-actuation = Actuator movement
kind-actuation-stall = Actuator driven against a stop
kind-actuation-absent = Actuator that should have moved and did not
kind-attempts = Number of learning attempts
kind-gave-up = Learning abandoned by the control unit
kind-shaft-turning = Shaft turning
kind-shaft-at-rest = Shaft at rest
kind-shaft-turning-at-rest = Shaft turning where it must stand still
kind-shaft-speed = Shaft speed
kind-gear-ratio = Gear ratio
kind-slip = Clutch slip
kind-shift = Gear change
kind-supply-sag = Supply voltage under load
kind-feed-resistance = Resistance of the supply path
kind-fuse-duty = Load on the fuse
kind-sensor-fault = Speed sensor signal
kind-signal-quality = Quality of the recording
kind-ground-drop = Ground voltage under load
kind-rotation-refused = Pulses that are no rotation
kind-double-engagement = Two gears at once
kind-scale-unknown = Clamp without a known scale
kind-wrong-gear = Ratio that no gear has
kind-crosstalk = Pick-up between wires
kind-tooth-wheel = Toothed wheel
kind-condition-engine = Engine during the recording
kind-condition-selector = Selector during the recording
kind-condition-commanded = Commanded clutch applications
kind-condition-contradicted = Stated condition that the recording contradicts
kind-code-not-tested = Trouble code not tested by the recording
kind-code-contradicted = Trouble code that the recording contradicts
kind-code-supported = Trouble code that the recording supports

# Marks in a picture: a few words, the value follows after a comma.
mark-actuation = drive
mark-actuation-stall = driven against a stop
mark-actuation-absent = no current
mark-gave-up = learning abandoned
mark-shaft-turning = turning
mark-shaft-at-rest = at rest
mark-shaft-turning-at-rest = turns, must stand still
mark-shaft-speed = turning
mark-slip = slips
mark-shift = gear change
mark-supply-sag = voltage sags
mark-sensor-fault = sensor signal faulty
mark-ground-drop = ground rises
mark-rotation-refused = no rotation
mark-double-engagement = two gears at once
mark-signal-quality = recording not usable

# Subjects: what a channel measures.
subject-supply-current = gearbox feed current
subject-supply-voltage = gearbox supply voltage
subject-ground-voltage = ground voltage drop
subject-input-shaft-1 = first input shaft
subject-input-shaft-2 = second input shaft
subject-output-shaft = output shaft
subject-engine-speed = engine speed
subject-actuator-current-1 = clutch 1 actuator current
subject-actuator-current-2 = clutch 2 actuator current
subject-gear-motor-current-1 = gear motor 1 current
subject-gear-motor-current-2 = gear motor 2 current
subject-selector = selector position
subject-other = other channel
subject-whole = the whole recording

# units

unit-rpm = rpm

# causes
# cause-NAME: what is wrong, as a headline. -plain: one sentence for the owner.
# -ruled-out: its name in "what it is not"; the cause sheet's reason follows in brackets.

cause-clutch-1-drag = Clutch 1 does not release
cause-clutch-1-drag-plain = Clutch 1 keeps driving its shaft in the gearbox although it should be open. The gearbox cannot learn where the clutch begins to grip, and it may pull the vehicle when it should not.
cause-clutch-1-drag-ruled-out = Clutch 1 dragging

cause-clutch-2-drag = Clutch 2 does not release
cause-clutch-2-drag-plain = Clutch 2 keeps driving its shaft in the gearbox although it should be open. The gearbox cannot learn where the clutch begins to grip, and it may pull the vehicle when it should not.
cause-clutch-2-drag-ruled-out = Clutch 2 dragging

cause-clutch-1-slip = Clutch 1 slips
cause-clutch-1-slip-plain = Clutch 1 does not hold the engine's torque: the engine turns faster than the shaft that the clutch should lock to it.
cause-clutch-1-slip-ruled-out = Clutch 1 slipping

cause-clutch-2-slip = Clutch 2 slips
cause-clutch-2-slip-plain = Clutch 2 does not hold the engine's torque: the engine turns faster than the shaft that the clutch should lock to it.
cause-clutch-2-slip-ruled-out = Clutch 2 slipping

cause-clutch-actuator-jam = A clutch actuator is jammed
cause-clutch-actuator-jam-plain = One of the two motors that work the clutches is driven hard and cannot move its clutch.
cause-clutch-actuator-jam-ruled-out = A jammed clutch actuator

cause-clutch-actuator-1-jam = The actuator of clutch 1 is jammed
cause-clutch-actuator-1-jam-plain = The motor that works clutch 1 is driven hard and cannot move: its current climbs and stays high.
cause-clutch-actuator-1-jam-ruled-out = A jammed actuator of clutch 1

cause-clutch-actuator-2-jam = The actuator of clutch 2 is jammed
cause-clutch-actuator-2-jam-plain = The motor that works clutch 2 is driven hard and cannot move: its current climbs and stays high.
cause-clutch-actuator-2-jam-ruled-out = A jammed actuator of clutch 2

cause-gear-actuator-jam = A gear actuator is jammed
cause-gear-actuator-jam-plain = A motor that shifts the gears is driven hard and cannot move: its current climbs and stays high.
cause-gear-actuator-jam-ruled-out = A jammed gear actuator

cause-actuation-jam = A mechanism inside the gearbox is jammed
cause-actuation-jam-plain = The gearbox drives one of its motors hard and the part cannot move. Measured at the common feed, the current does not tell which motor it is.
cause-actuation-jam-ruled-out = A jammed mechanism

cause-actuator-open-circuit = An actuator is not connected
cause-actuator-open-circuit-plain = The control unit tries to move an actuator, and no current flows: the wiring, the plug or the motor is interrupted.
cause-actuator-open-circuit-ruled-out = An actuator that is not connected

cause-supply-weak = The gearbox's electrical supply is weak
cause-supply-weak-plain = The voltage at the gearbox falls too far when it draws current, so its motors do not get the power they need. The gearbox itself may be sound.
cause-supply-weak-ruled-out = A weak electrical supply

cause-shaft-sensor-1-fault = The speed sensor of the first input shaft is faulty
cause-shaft-sensor-1-fault-plain = The signal of the speed sensor is not one that a turning or a resting shaft can give: the sensor, its plug or its wiring is at fault.
cause-shaft-sensor-1-fault-ruled-out = A faulty speed sensor of the first input shaft

cause-shaft-sensor-2-fault = The speed sensor of the second input shaft is faulty
cause-shaft-sensor-2-fault-plain = The signal of the speed sensor is not one that a turning or a resting shaft can give: the sensor, its plug or its wiring is at fault.
cause-shaft-sensor-2-fault-ruled-out = A faulty speed sensor of the second input shaft

cause-double-engagement = Two gears are engaged at once
cause-double-engagement-plain = Both shafts of the gearbox are tied to the wheels at the same time, which they must never be.
cause-double-engagement-ruled-out = Two gears at once

cause-relearn-not-completed = The learning procedure was not completed
cause-relearn-not-completed-plain = The parts move as they should, but the control unit stopped the learning procedure before its end. Nothing in the recording speaks for opening the gearbox.
cause-relearn-not-completed-ruled-out = A learning procedure that merely was not finished

# reasons
# Why a verdict went no further, or what it rests on.

reason-margin = The leading explanation is well ahead of every other one.
reason-second-fault = A second fault, with evidence of its own, was found as well; it stands among the findings.
reason-margin-too-small = Two explanations fit the recording about equally well.
reason-weight-too-small = The evidence is not heavy enough to decide on.
reason-required-missing = An observation that is needed to be sure was not recorded.
reason-no-evidence = The recording shows nothing that tells the explanations apart.
reason-at-limit = A measured value lies so near its limit that its uncertainty leaves open on which side.
reason-healthy = Everything that was recorded is as it should be.
reason-roles-unsure = It is not certain what the channels of the recording measured.
reason-nothing-read = No recording could be read.
reason-repair-proven = The recording after the repair is healthy where the one before was not.
reason-repair-not-proven = The recording after the repair still shows the fault, or does not show the same operation.
reason-too-short = The recording is too short to show an actuation with the rest before and after it.
reason-clipped = The current runs against the top of the measuring range, so its true height is not known.
reason-reversed = The current clamp was put on the wrong way round.
reason-offset = The current clamp was not set to zero before the recording.
reason-undersampled = A speed sensor was sampled too slowly, so any speed could be a false one.
reason-edges = A speed sensor's signal goes beyond the recorder's range or has doubled edges, so its speed is not to be relied on.
reason-teeth-unknown = The vehicle moves, but a wheel's number of teeth is not known, so the speeds cannot be compared.
reason-scale-unknown = The clamp's scale is not known, so the actuations cannot be judged by their size.
reason-missing = Too many values are missing from the recording.
reason-engine-contradicted = What was written of the engine does not agree with the recording.
reason-conditions-unknown = A shaft turns, but engine and selector are not known; turning alone proves nothing.
reason-command-unknown = A shaft turns, but the feed current that would show a clutch application was not recorded.

# next
# What to record or state next.

next-record-own-actuator-current = Clamp the current of each clutch actuator on its own wire, and record the same operation again.
next-record-supply-current = Record the current through the gearbox's fuse during the whole learning procedure.
next-record-both-shafts = Record both input-shaft speed sensors together with the feed current.
next-record-engine-running-park = Record both input shafts for at least 30 seconds with the engine running and the selector in P, and write both into job.toml.
next-record-whole-relearn = Record the learning procedure from before its start until after it ends.
next-record-supply-voltage = Record the voltage at the gearbox's own plug, between supply and ground, while it draws its highest current.
next-record-ground-voltage = Record the voltage drop from the gearbox's ground to the battery's negative pole while it draws its highest current.
next-record-engine-speed = Record the engine speed sensor together with both input shafts.
next-record-output-shaft = Record the output shaft's speed sensor together with both input shafts.
next-record-higher-rate = Record again with at least ten samples per tooth of the speed sensors.
next-record-again = Make the same recording again, with every probe checked first.
next-record-longer = Record at least ten seconds, from before the attempt until after it.
next-repeat-cold-and-warm = Make the same recording cold and warm.
next-measure-actuator-resistance = With the ignition off and the plug apart, measure the resistance of each clutch actuator's winding and of its wiring.
next-clamp-range = Set the clamp and the recorder to a wider range (60 A or more) and record again.
next-clamp-direction = Turn the clamp round, so that current into the gearbox reads positive, and record again.
next-clamp-zero = Set the clamp to zero with no wire in it, close to the cable, and record again.
next-record-range = Set the recorder's range for the speed sensor wider and record again.
next-state-teeth = Write the number of teeth of each speed sensor's wheel into job.toml; a filled-in file lies beside this report.
next-clamp-scale = Write the clamp's amperes per volt into job.toml; a filled-in file lies beside this report.
next-state-selector = Write the selector position during the recording into job.toml.
next-state-engine = Write into job.toml whether the engine was running during the recording.
next-state-channels = Write into job.toml what each channel measured; a filled-in file lies beside this report.
next-check-sensor-wiring = Check the speed sensor's plug and wiring, then make the same recording again.
next-look-at-wheel = Look at the sensor's wheel through the sensor's bore, a whole turn of it: a broken or notched tooth, metal that clings to it.

# cautions
# The signal word follows the definitions of ANSI Z535.4 and ISO 3864-2: DANGER will cause death or
# serious injury, WARNING could, CAUTION could cause minor or moderate injury, NOTICE is about property.
# `.word` is the machine's word and stays in English; signal-word-* is what is printed. `.source` is printed too.

source-practice = common practice, no published source

signal-word-danger = DANGER
signal-word-warning = WARNING
signal-word-caution = CAUTION
signal-word-notice = NOTICE

caution-rolling = The vehicle can start to roll without warning: a clutch may close by itself, and a gearbox that is in neutral or removed has no park lock. Chock the wheels, set the parking brake, and raise driven wheels only on stands.
    .word = WARNING
    .title = Vehicle may roll
    .source = { source-practice }
caution-running-engine = Exhaust gas kills in closed rooms. Run the engine only with exhaust extraction or in the open.
    .word = DANGER
    .title = Exhaust gas
    .source = carbon monoxide limits of OSHA (50 ppm) and NIOSH (35 ppm, ceiling 200 ppm), from memory
caution-rotating-parts = Fans, belts, shafts and clutches catch hands, hair and cables. Attach or move a probe only when the engine stands still, and route every lead clear of moving parts.
    .word = WARNING
    .title = Rotating parts
    .source = { source-practice }
caution-actuator-movement = Actuators can move by themselves when the vehicle wakes up, at ignition and during learning. Disconnect their supply before reaching into the mechanism.
    .word = WARNING
    .title = Parts move by themselves
    .source = { source-practice }
caution-spring-force = Clutch and actuator springs hold their force while dismounted. Release and fit them only with the maker's tool and procedure.
    .word = WARNING
    .title = Spring force
    .source = { source-practice }
caution-lifting = A gearbox is heavy and unbalanced. Support the vehicle on stands and strap the gearbox to a jack rated for it.
    .word = WARNING
    .title = Heavy load
    .source = { source-practice }
caution-jumper-lead = A jumper lead without a fuse can burn wiring and hands. Fuse it no higher than the circuit it feeds, never bridge a fuse, never feed a control unit's output.
    .word = WARNING
    .title = Jumper leads
    .source = { source-practice }
caution-high-voltage = Orange cables carry a voltage that kills. Only trained and authorised persons may make such a vehicle safe and work on it.
    .word = DANGER
    .title = High voltage
    .source = ISO 6469-3, voltage class B (above 60 V DC or 30 V AC), from memory
caution-high-voltage-unknown = Nobody has stated whether this vehicle has a high-voltage system. Look for orange cables first: they carry a voltage that kills, and only trained and authorised persons may make such a vehicle safe and work on it.
    .word = DANGER
    .title = High voltage in hybrids
    .source = ISO 6469-3, voltage class B (above 60 V DC or 30 V AC), from memory
caution-airbag = Airbags and belt tensioners can fire. Before working near them disconnect the battery and wait the time that the maker states; never measure an igniter circuit with an ohmmeter.
    .word = WARNING
    .title = Airbags
    .source = makers' procedures for restraint systems, from memory
caution-hot-parts = A clutch that has slipped and the exhaust burn the skin for a long time after. Let them cool.
    .word = CAUTION
    .title = Hot parts
    .source = { source-practice }
caution-clutch-dust = Clutch dust harms the lungs and may contain asbestos. Use an enclosure with a HEPA vacuum or the low-pressure wet method; never brush it dry or blow it out with compressed air.
    .word = WARNING
    .title = Clutch dust
    .source = 29 CFR 1910.1001 Appendix F, work practices for clutch and brake work
caution-battery = Batteries give off explosive gas, contain acid and deliver very high currents. No flame or spark; disconnect the ground side first; protect the eyes.
    .word = WARNING
    .title = Battery
    .source = { source-practice }
caution-scope-ground = A grounded lead of a recording instrument can short a supply. Use isolated or differential inputs, or check first that the point is at ground.
    .word = CAUTION
    .title = Instrument ground
    .source = { source-practice }
caution-road-test = Whoever drives must not read instruments. Take a second person along for the recording.
    .word = WARNING
    .title = Road test
    .source = { source-practice }

# sheets
# The reasons that the built-in cause sheets give. The English text must be the sheet's own, letter by letter: by it the
# translation is found. A shop's own sheet speaks for itself.

sheet-judgement = judgement
sheet-weak-code-source = one weak public source for the code; judgement
sheet-open-cannot-turn = an open clutch cannot turn its shaft for seconds at a steady speed
sheet-drag-would-turn = a dragging clutch would have turned its shaft while the engine ran
sheet-did-not-turn = the shaft was recorded and did not turn where it must not
sheet-controller-fails = the controller tried to move the clutch and could not, as a clutch that does not open makes it
sheet-other-shaft-rests = under the same conditions the other shaft stands: engine and selector are as stated
sheet-sensor-may-lie = a faulty sensor may show what is not there
sheet-module-stuck = the module reports this clutch stuck engaged
sheet-slips = in a held gear the engine turns faster than the shaft that the closed clutch drives
sheet-turn-alike = in a held gear the engine and the shaft turn alike
sheet-module-slip = the module reports slip of this clutch
sheet-own-stall = this actuator draws its stall current and does not move
sheet-own-moved = this actuator moved without a stall
sheet-drag-behind = its clutch drags: the mechanism behind the actuator may be what does not move
sheet-gear-stall = a gear motor draws its stall current and does not move
sheet-gear-no-stall = the gear motors were recorded and did not stall
sheet-gear-stalled = a gear motor stalled
sheet-module-gear = the module reports the gear actuation
sheet-feed-stall = the feed shows the stall current of a mechanism that cannot move; one clamp on the feed does not say which
sheet-something-stalls = something on the feed draws its stall current and does not move
sheet-feed-no-stall = the feed was recorded and no actuator stalled
sheet-moved-freely = the actuators were seen to move freely
sheet-drew-nothing = the controller woke and worked, and the clutch actuators drew nothing
sheet-drew-nothing-start = no clutch actuator drew current, though the start of the attempt was not recorded
sheet-one-draws-nothing = one clutch actuator draws nothing on its own line while the other works
sheet-drew-current = a clutch actuator drew its current
sheet-into-stall = current flows into a stall
sheet-module-open = the module measured the circuit open
sheet-supply-loses = under the actuators the supply loses more than its wiring should
sheet-supply-held = under the actuators the supply held
sheet-ground-rises = under the actuators the ground rises more than its wiring should
sheet-slope = the slope of voltage against current is the resistance of the feed, and it is too high
sheet-module-supply = the module reports its supply
sheet-sensor-breaks = the sensor is silent or breaks off while its shaft must be turning
sheet-sensor-whole = the sensor was recorded and its train has no holes
sheet-module-sensor = the module reports this sensor
sheet-slows-hard = the output slows hard from the application of one clutch to the release of the other
sheet-never-slowed = the drive was recorded and its output never slowed so
sheet-module-two-gears = the module reports more than one gear engaged
sheet-shaft-stands = an input shaft stands: nothing is dragged along
sheet-not-learned = the module says that the clutch position was not learned
sheet-fault-stops = a fault was measured that stops the relearn
sheet-drag-explains = a dragging clutch explains the attempt
sheet-drag-explains-stall = a dragging clutch explains the attempt that stalls

sheet-wheel-every-turn = a tooth is missing or counts twice at the same place on every turn: the wheel, or what clings to it

# methods
# How each plugin measures; for the technician's report.

method-actuator-current = An actuation begins and ends at 15 % of its peak above the quiescent current. A stall stays within 70 % of its peak for at least 0.4 s. Charge is the integral of the current above the quiescent one. The uncertainty joins the clamp's accuracy and the noise.
method-shaft-motion = Speed is the median over tooth periods, by the number of teeth; its uncertainty joins sampling and scatter. Turning counts as abnormal only with the engine running, the selector in P or N, no clutch application in the feed current, a steady speed for 2 s and a real tooth train. Refused as rotation: undersampled, trembling edge, small swing, spikes, a clock's regularity, a copy of another channel.
method-supply = Resistance is the least-squares slope of voltage against current over all events, each against its own surroundings; its uncertainty joins the standard error of the fit and the clamp's accuracy. No opening time of a fuse is claimed.
method-gear-train = Ratio is input speed by output speed while a gear is held. Slip is engine speed less shaft speed in a held gear; moving off is left out. A gear change lasts from the engine's first departure by 2 % from the ratio it held until it first comes within 5 % of the other shaft; no standard defines this time.
method-sensor-health = A hole is a gap of at least four periods with the same speed before and after. A sensor is dead when the engine holds a ratio to the output that the other shaft does not explain, or when it is silent through a drive with a gear change.
method-signal-quality = Every channel with a role is held against what spoils a conclusion: too short, clipped, clamp reversed or not zeroed, undersampled or able to show a false speed at idle, values missing, scale or tooth count unknown, stated conditions contradicted.
method-conditions = Engine and selector are taken from what was stated, held against every sign in the recording: the engine's own sensor, the starter's pull, charging, the alternator's ripple. Clutch applications by command are read from the feed current. The signs are weighed in decibans from even odds; below 20 to 1 the state counts as unknown.
method-codes = Each code's claim is held against the measured findings. A code is contradicted only when its status says that the test failed in this or the last cycle; an old entry says nothing for or against.

# repairs
# repair-NAME-1 .. n: the steps. opens-NAME: what is opened and why. destroyed-NAME: parts that opening
# uses up. proof-NAME: the recording that proves the repair.

repair-clutch-1-drag-1 = Remove the gearbox from the engine and open the clutch housing.
repair-clutch-1-drag-2 = Inspect clutch 1, its release bearing, its lever and the actuator's travel; measure wear and freedom of movement against the maker's limits.
repair-clutch-1-drag-3 = Replace what is out of limits, and set the clutch to the maker's procedure.
repair-clutch-1-drag-4 = Refit the gearbox and carry out the learning procedure.
proof-clutch-1-drag = The same recording again: engine running, selector in P, both input shafts at rest, and the learning procedure completed.
opens-clutch-1-drag = The gearbox is removed and its clutch housing opened, because clutch 1 cannot be seen or measured from outside.
destroyed-clutch-1-drag = Seals, gaskets, single-use bolts and retaining rings of the clutch housing and the gearbox mounting.

repair-clutch-2-drag-1 = Remove the gearbox from the engine and open the clutch housing.
repair-clutch-2-drag-2 = Inspect clutch 2, its release bearing, its lever and the actuator's travel; measure wear and freedom of movement against the maker's limits.
repair-clutch-2-drag-3 = Replace what is out of limits, and set the clutch to the maker's procedure.
repair-clutch-2-drag-4 = Refit the gearbox and carry out the learning procedure.
proof-clutch-2-drag = The same recording again: engine running, selector in P, both input shafts at rest, and the learning procedure completed.
opens-clutch-2-drag = The gearbox is removed and its clutch housing opened, because clutch 2 cannot be seen or measured from outside.
destroyed-clutch-2-drag = Seals, gaskets, single-use bolts and retaining rings of the clutch housing and the gearbox mounting.

repair-clutch-1-slip-1 = Check the clutch's learned values and repeat the learning procedure before anything is opened.
repair-clutch-1-slip-2 = If the slip remains, remove the gearbox, open the clutch housing and measure clutch 1 for wear, oil and heat damage.
repair-clutch-1-slip-3 = Replace what is out of limits, refit, and carry out the learning procedure.
proof-clutch-1-slip = The same drive recorded again: with the clutch closed, shaft and engine turn at the same speed.
opens-clutch-1-slip = The gearbox is removed and its clutch housing opened, because clutch 1 cannot be seen or measured from outside.
destroyed-clutch-1-slip = Seals, gaskets, single-use bolts and retaining rings of the clutch housing and the gearbox mounting.

repair-clutch-2-slip-1 = Check the clutch's learned values and repeat the learning procedure before anything is opened.
repair-clutch-2-slip-2 = If the slip remains, remove the gearbox, open the clutch housing and measure clutch 2 for wear, oil and heat damage.
repair-clutch-2-slip-3 = Replace what is out of limits, refit, and carry out the learning procedure.
proof-clutch-2-slip = The same drive recorded again: with the clutch closed, shaft and engine turn at the same speed.
opens-clutch-2-slip = The gearbox is removed and its clutch housing opened, because clutch 2 cannot be seen or measured from outside.
destroyed-clutch-2-slip = Seals, gaskets, single-use bolts and retaining rings of the clutch housing and the gearbox mounting.

repair-clutch-actuator-jam-1 = Record each clutch actuator's own current to find which of the two is jammed.
repair-clutch-actuator-jam-2 = Remove that actuator from outside and move the clutch lever by hand with the maker's tool: a stiff lever is a clutch fault, a free one an actuator fault.
repair-clutch-actuator-jam-3 = Replace the jammed part and carry out the learning procedure.
proof-clutch-actuator-jam = The same recording again: every drive is short, its current falls again, and the learning procedure completes.

repair-clutch-actuator-1-jam-1 = Remove the actuator of clutch 1 from outside and move the clutch lever by hand with the maker's tool: a stiff lever is a clutch fault, a free one an actuator fault.
repair-clutch-actuator-1-jam-2 = Replace the jammed part and carry out the learning procedure.
proof-clutch-actuator-1-jam = The same recording again: every drive of actuator 1 is short, its current falls again, and the learning procedure completes.
opens-clutch-actuator-1-jam = The gearbox is removed and its clutch housing opened, because the jammed lever or bearing of clutch 1 lies inside.
destroyed-clutch-actuator-1-jam = Seals, gaskets, single-use bolts and retaining rings of the clutch housing and the gearbox mounting.

repair-clutch-actuator-2-jam-1 = Remove the actuator of clutch 2 from outside and move the clutch lever by hand with the maker's tool: a stiff lever is a clutch fault, a free one an actuator fault.
repair-clutch-actuator-2-jam-2 = Replace the jammed part and carry out the learning procedure.
proof-clutch-actuator-2-jam = The same recording again: every drive of actuator 2 is short, its current falls again, and the learning procedure completes.
opens-clutch-actuator-2-jam = The gearbox is removed and its clutch housing opened, because the jammed lever or bearing of clutch 2 lies inside.
destroyed-clutch-actuator-2-jam = Seals, gaskets, single-use bolts and retaining rings of the clutch housing and the gearbox mounting.

repair-gear-actuator-jam-1 = Remove the gear actuator from outside, as far as the maker allows it, and check the shift mechanism for free travel.
repair-gear-actuator-jam-2 = Replace the jammed part and carry out the learning procedure.
proof-gear-actuator-jam = The same recording again: every gear is selected in one short drive, and the learning procedure completes.
opens-gear-actuator-jam = The gearbox housing is opened, because the shift mechanism lies inside.
destroyed-gear-actuator-jam = Gearbox oil, housing sealant, seals and single-use bolts.

repair-actuation-jam-1 = Find the jammed mechanism first: record each motor's own current during the same operation.
repair-actuation-jam-2 = Nothing is to be opened until that recording names the mechanism.
proof-actuation-jam = The same recording again: every drive is short, its current falls again, and the learning procedure completes.

repair-actuator-open-circuit-1 = Measure the actuator's circuit from the control unit to the motor with the plugs off: continuity, contact pressure, corrosion.
repair-actuator-open-circuit-2 = Repair the wiring or the plug, or replace the actuator when its own winding is interrupted.
repair-actuator-open-circuit-3 = Carry out the learning procedure.
proof-actuator-open-circuit = The same recording again: current flows at every drive, and the learning procedure completes.

repair-supply-weak-1 = Charge and test the battery.
repair-supply-weak-2 = Measure the voltage drop of the gearbox's feed and ground under load, joint by joint, and repair the joint that drops.
repair-supply-weak-3 = Carry out the learning procedure again before the gearbox is judged.
proof-supply-weak = The same recording again: the voltage at the gearbox holds up at its highest current.

repair-shaft-sensor-1-fault-1 = Check the sensor's plug, wiring, supply and air gap.
repair-shaft-sensor-1-fault-2 = Replace the sensor if they are sound, and carry out the learning procedure.
proof-shaft-sensor-1-fault = The same recording again: a clean, steady tooth signal from sensor 1.

repair-shaft-sensor-2-fault-1 = Check the sensor's plug, wiring, supply and air gap.
repair-shaft-sensor-2-fault-2 = Replace the sensor if they are sound, and carry out the learning procedure.
proof-shaft-sensor-2-fault = The same recording again: a clean, steady tooth signal from sensor 2.

repair-double-engagement-1 = Do not drive the vehicle.
repair-double-engagement-2 = Check the shift mechanism and its actuators; find which gear stays engaged.
repair-double-engagement-3 = Replace the failed part and carry out the learning procedure.
proof-double-engagement = The same recording again: in neutral the two input shafts turn freely of each other.
opens-double-engagement = The gearbox housing is opened, because the shift forks lie inside.
destroyed-double-engagement = Gearbox oil, housing sealant, seals and single-use bolts.

repair-relearn-not-completed-1 = Meet the conditions of the maker's learning procedure: battery, temperature, selector, doors, brake.
repair-relearn-not-completed-2 = Repeat the procedure and record it from start to end.
proof-relearn-not-completed = A recording of the learning procedure that ends by itself, with no abandoned attempt.

# report
# Headings and furniture.

report-title = Diagnostic report
report-title-job = Diagnostic report, job { $job }
report-title-technician = Technician's report
report-title-technician-job = Technician's report, job { $job }
report-day = { $day } { $month ->
    [1] January
    [2] February
    [3] March
    [4] April
    [5] May
    [6] June
    [7] July
    [8] August
    [9] September
    [10] October
    [11] November
   *[12] December
 } { $year }
report-page = Page { $page } of { $pages }
report-draft = DRAFT: not yet reviewed by a person
report-draft-short = DRAFT
report-reviewed = Reviewed by { $name } on { $time }
report-examined-by = Examined by
report-date = Date
report-job = Job
report-customer = Customer
report-workshop = Workshop
report-vehicle = Vehicle
report-vin = Vehicle number
report-plate = Plate
report-odometer = Odometer
report-complaint = Complaint
report-registration = Registration
report-no-shop = Name of the workshop
report-cut-short = (continued in the record)
report-notes = Complaint in full

state-established = Established
state-probable = Probable
state-open = Not decided
state-nothing-found = No fault found
state-mended = Repair proven
state-not-mended = Repair not proven

report-answer = What failed
report-answer-repair = What the repair did
report-answer-open = The recordings do not decide what failed
report-answer-open-plain = More than one explanation is still possible. Opening the gearbox on this evidence would be a guess; the steps below will decide it.
report-answer-nothing = The recordings show no fault
report-answer-nothing-plain = Everything that could be measured worked as it should during the recording. A fault that did not occur then cannot be seen.
report-answer-mended = The repair worked
report-answer-mended-plain = What was wrong in the recording before the repair is as it should be in the recording made after it.
report-answer-not-mended = The repair is not proven
report-answer-not-mended-plain = The recording made after the repair does not show that every fault seen before it is gone.
report-probable-plain = This is the likeliest explanation, but it is not certain enough to open the gearbox on. The steps below will make it certain.

report-how-sure = How sure
report-how-sure-line = { $words } evidence: { $db } decibans, { $margin } ahead of the next explanation.
report-how-sure-line-alone = { $words } evidence: { $db } decibans, and nothing else that explains the same findings.
report-scale = A deciban measures how much the evidence weighs: every 10 make the findings ten times likelier under this explanation than without it. Words after Kass and Raftery (1995): below 3 to 1 not worth more than a mention, from 3 to 1 positive, from 20 to 1 strong, from 150 to 1 very strong.
report-scale-alt = Weight of evidence in decibans: { $list }.
report-weight = { $db ->
    [one] { $db } deciban
   *[other] { $db } decibans
 }
report-scale-item = { $cause } { $db }
report-band-mention = mention
report-band-positive = positive
report-band-strong = strong
report-band-very-strong = very strong
report-word-against = No
report-word-mention = Slight
report-word-positive = Positive
report-word-strong = Strong
report-word-very-strong = Very strong
report-decibans = decibans
report-why = Why
report-why-open = Why it is not decided

report-known = What is known
report-unknown = What is not known
report-unknown-causes = Still possible: { $list }.
report-not = What it is not
report-not-because = { $cause } ({ $reason }).
report-not-more = { $count ->
    [one] One more explanation was ruled out; see below.
   *[other] { $count } more explanations were ruled out; see below.
 }
report-do = What to do
report-do-teardown = Open the gearbox and repair it, after authorisation (see { $section }).
report-do-proof = Prove the repair: { $proof }
report-do-not-open = Do not open the gearbox on this evidence.
report-do-nothing = Nothing needs to be opened or replaced on this evidence.
report-next = What to record next
report-next-more = { $count ->
    [one] One more step; see below.
   *[other] { $count } more steps; see below.
 }
report-next-nothing = If the complaint comes back, make the same recording while it is present.
report-cost = What it costs
report-cost-estimate = Estimate for the repair
report-cost-next = The next recording, by time
report-cost-next-rate = { $rate } an hour
report-cost-done = Diagnosis and work done

report-with-tax = with tax

report-evidence = The evidence
report-evidence-whole = Whole recording
report-evidence-detail = Detail, { $from } s to { $to } s
report-evidence-time = Time (s)
report-evidence-good = known good
report-evidence-good-peak = known good peak
report-evidence-alt = { $count ->
    [one] One trace
   *[other] { $count } traces, one above the other,
 } of { $file } over { $duration } s: { $rows }. { $marks }
report-evidence-alt-row = { $label } between { $low } and { $high } { $unit }
report-evidence-alt-mark = Marked from { $from } s to { $to } s: { $label }.
report-evidence-caption-normal = { $file }: nothing out of the ordinary in what was recorded.

report-before-after = Before and after
report-before = Before
report-after = After
report-outcome = Outcome
report-not-seen = not seen any more
report-observation = Observation
outcome-mended = Mended
outcome-unchanged = As before
outcome-worse = Worse
outcome-not-comparable = Cannot be compared

report-ruled-out = What was ruled out, and how
report-against = Against it: { $finding }
report-considered = Considered, neither proven nor ruled out
report-codes = Trouble codes and what they mean here
report-codes-note = A trouble code says what a control unit could not do. It does not say which part failed.
report-code = Code
report-code-module = Module
report-code-status = Status
report-code-here = Here
report-code-unjudged = Neither supported nor contradicted by the recordings.
code-status-active = failing now
code-status-pending = pending
code-status-confirmed = confirmed
code-status-permanent = permanent
code-status-history = earlier, not now
code-status-not-tested = not tested since clearing
code-status-none = not stated

report-cautions-note = Signal words as ANSI Z535.4 and ISO 3864-2 define them: DANGER will cause death or serious injury if it is not avoided, WARNING could, CAUTION could cause minor or moderate injury, NOTICE is about property.
report-source-shop = from the workshop's own sheet
report-cautions = Safety for those who do the work
report-repair = The repair, and how it will be proven
report-steps = Steps
report-proof = Proof

report-estimate = Cost
report-estimate-note = Labour only; the workshop quotes parts and materials.
report-work = Work
report-hours = Hours
report-rate = Rate
report-amount = Amount
report-line-state = State
line-billable = done
line-estimate = estimate
report-estimate-example = The hours come from the built-in example catalogue, which is invented: they are no time guide.
report-total-net = Net
report-total-tax = Tax
report-total-estimate = Total estimate
report-total-done = Total done

report-authorise-teardown = Authorisation to open the gearbox
report-authorise-repair = Authorisation of the repair
report-auth-why = What is opened, and why
report-auth-what = What is done
report-auth-price-opening = Price of opening
report-auth-price-closing = Price of reassembly
report-auth-price-both = Opening and reassembly, with tax
report-auth-price-total = Whole estimate
report-auth-destroyed = Parts used up by opening
report-auth-undo = Can it be undone
report-auth-undo-text = The gearbox can be reassembled, but not always to its former condition: a part that has failed may not work again once it is disturbed.
report-auth-time = Longest time to reassemble
report-auth-storage = Keeping the opened vehicle
report-auth-limit-percent = { $amount } (the estimate and { $percent } %)
report-auth-how = How it is authorised
report-auth-how-signed = signed here
report-auth-how-telephone = by telephone
report-auth-how-message = by e-mail or message
report-auth-legal-source = Supplied by the workshop. Source: { $source }; as of { $day }.
report-auth-decline = If you decline
report-auth-decline-text = The gearbox stays closed and the vehicle as it is. The fault remains; this report's findings are yours to take elsewhere.
report-auth-decline-repair-text = The vehicle stays as it is and the fault remains; this report's findings are yours to take elsewhere.
report-auth-limit = Do not exceed without asking me
report-auth-parts = Replaced parts
report-auth-parts-return = return to me
report-auth-parts-keep = may be disposed of
report-auth-yes = I authorise this work
report-auth-no = I decline this work
report-auth-customer = Customer's name
report-auth-signature = Signature
report-auth-date = Date and time
report-auth-shop = For the workshop
report-auth-legal = Terms of the workshop
report-auth-deferral = This report is technical evidence. The estimate and authorisation forms that local law asks for, and work by licensed persons where it is required, come first. An unsigned report authorises nothing.

report-record = The record
report-record-files = Files
report-record-file = File
report-record-use = Use
report-record-hash = SHA-256
report-file-read = read
report-file-set-aside = set aside
report-record-conditions = Conditions of each recording
report-record-engine = Engine
report-record-selector = Selector
report-record-phase = Phase
report-record-rate = Rate
report-record-duration = Duration
report-record-not-stated = not stated
report-stated-by = { $value } ({ $source })
phase-before = before the repair
phase-after = after the repair
engine-running = engine running
engine-off = engine off
engine-cranking = engine cranking
selector-in = selector in { $letter }
report-record-channels = Channels and calibration
report-record-channel = Channel
report-record-role = Taken for
report-record-how = How known
report-record-calibration = Calibration
role-by-unknown = not known
role-by-job-file = job.toml
role-by-guess = guessed, certainty { $percent } %: { $reason }
report-calibrated = recorded × { $scale } + { $offset } gives { $unit }
report-calibrated-scale = recorded × { $scale } gives { $unit }
report-not-calibrated = not calibrated
report-record-findings = Findings, limits and their sources
report-record-finding = Finding
report-record-value = Value
report-record-limit = Limit
report-record-source = Source
grade-normal = normal
grade-abnormal = abnormal
grade-unusable = not usable
grade-unreadable = not readable
grade-not-tested = not tested
report-record-sources = Sources of the limits
report-record-english = Messages of the program and the sources of limits are given in English.
report-record-findings-left = { $count ->
    [one] One further finding, normal, stands in case.json.
   *[other] { $count } further findings stand in case.json.
 }
report-record-weights = Weights of evidence
report-record-weight = Weight
report-record-reason = Reason
report-record-weights-note = In decibans. Weights called judgement are experts' estimates without a data basis, and are kept small.
report-record-not-run = Checks that did not run
report-record-check = Check
report-record-plugins = Checks that ran
report-record-version = Version
report-record-problems = Oddities of the files
report-record-place = Place
report-record-text = Characters that could not be printed
report-record-text-note = These texts contain characters that the report's font does not have; each is printed as □.

# The technician's report.
report-tech-explanations = Every explanation, with what speaks for and against it
report-tech-for = For
report-tech-against = Against
report-tech-is-verdict = the verdict
report-tech-ruled-out = ruled out
report-tech-explained-away = what speaks for it counts for a narrower explanation
report-tech-missing = required and not seen: { $list }
report-tech-blocked = held back by: { $list }
report-tech-not-recorded = not recorded: { $list }
report-tech-not-seen = rests on what was not seen
report-tech-would-change = Would become
report-tech-if-seen = If it were seen that
report-tech-would-rule-out = the explanation would be ruled out
report-tech-would-weaken = it would stay open
report-tech-would-make-probable = it would become probable
report-tech-would-establish = it would have the weight of an established cause
report-tech-effect = Effect
report-tech-measurements = Every measurement
report-tech-uncertainty = Values with their standard uncertainty (k = 1, JCGM 100), which is rounded to its second digit.
report-tech-subject = Of
report-tech-time = Time (s)
report-tech-whole-job = The whole job
report-tech-methods = How it was measured
report-tech-method-unknown = Not known to this report; ask whoever made this check.

# order
# Complaint, cause and correction: the three parts of a repair order, plain and short, for the billing system.

order-heading-complaint = Complaint
order-heading-cause = Cause
order-heading-correction = Correction
order-complaint = Customer states: { $text }
order-complaint-unstated = The customer's complaint was not written down.
order-complaint-codes = Trouble codes: { $codes }.
order-cause-established = { $cause }: established by measurement.
order-cause-probable = { $cause }: probable, not certain enough to act on.
order-cause-open = Cause not determined yet.
order-cause-nothing = No fault found in what was recorded.
order-cause-next = To be recorded next: { $next }
order-correction-authorised = Done or authorised: { $work }.
order-correction-offered = Offered, not authorised: { $work }.
order-correction-none = No work done or authorised.
order-correction-proven = The recording after the repair shows the fault mended.
order-correction-not-proven = The recording after the repair does not prove the fault mended.
order-draft = DRAFT for the billing system, made from the diagnosis. Not an invoice issued.
