# Actuator current
actuation-clutch = Clutch actuation: { NUMBER($value, maximumFractionDigits: 1) } A at its peak, done after { NUMBER($duration_s, maximumFractionDigits: 2) } s.
actuation-small = Small actuation: { NUMBER($value, maximumFractionDigits: 1) } A at its peak, done after { NUMBER($duration_s, maximumFractionDigits: 2) } s, the size of a gear motor's.
actuation-unscaled = Actuation, done after { NUMBER($duration_s, maximumFractionDigits: 2) } s (the clamp's scale is not known, so no amperes).
actuation-stall = Stalled attempt: the current climbs to { NUMBER($value, maximumFractionDigits: 1) } A and stays near its peak for { NUMBER($hold_s, maximumFractionDigits: 2) } s; what it drives does not move.
actuation-stall-plain = A motor was driven hard for { NUMBER($hold_s, maximumFractionDigits: 1) } s and did not move.
actuation-stall-unscaled = Stalled attempt: the current stays near its peak for { NUMBER($hold_s, maximumFractionDigits: 2) } s (the clamp's scale is not known, so no amperes).
actuation-absent = The controller wakes at { NUMBER($woke_s, maximumFractionDigits: 1) } s and works, but no clutch actuator draws its current in the { NUMBER($listened_s, maximumFractionDigits: 0) } s that follow; a pulse of { NUMBER($detectable, maximumSignificantDigits: 2) } { $detectable_unit } would have been seen.
actuation-absent-plain = The control unit was awake and worked, but no clutch motor drew current.
actuation-absent-unwatched = No clutch actuator draws its current; the start of the attempt was not recorded, so the controller may not have tried. A pulse of { NUMBER($detectable, maximumSignificantDigits: 2) } { $detectable_unit } would have been seen.
actuation-absent-own-line = The { $subject-name } shows nothing while the other clutch actuator works (from { NUMBER($detectable, maximumSignificantDigits: 2) } { $detectable_unit } on a pulse would have been seen); the controller may not have meant it to, or the clamp is not on that wire.
actuation-absent-own-line-plain = One clutch motor drew no current while the other one worked.
attempts = { $value ->
    [one] One attempt ends in a stall.
   *[other] { $value } attempts end in a stall.
 }
attempts-plain = { $value ->
    [one] The control unit tried once and did not succeed.
   *[other] The control unit tried { $value } times and did not succeed.
 }
gave-up = After the last stall, at { NUMBER($end_s, maximumFractionDigits: 1) } s, the control unit tries no more.
gave-up-plain = Then the control unit gave up and tried no more.

# Shaft motion
turning-at-rest = The { $subject-name } turns steadily for { NUMBER($steady_s, maximumFractionDigits: 1) } s with the engine running, the selector in P or N and no clutch applied.
turning-at-rest-plain = With the engine running and the selector in P or N, the { $subject-name } turned at { NUMBER($value, maximumFractionDigits: 0) } rpm for { NUMBER($steady_s, maximumFractionDigits: 0) } s. It should stand still.
turning-drives = The { $subject-name } turns; with the selector in a driving position it may.
turning-vehicle-moves = The { $subject-name } turns while the vehicle moves, as it should.
turning-engine-off = The { $subject-name } turns while the engine is off: it is turned from the wheels, no clutch can drive it.
turning-commanded = The { $subject-name } turns after a clutch application, as it should.
turning-coasting = The { $subject-name } turns for { NUMBER($duration_s, maximumFractionDigits: 1) } s and slows down: it was carried along and coasts.
turning-briefly = The { $subject-name } turns for { NUMBER($duration_s, maximumFractionDigits: 1) } s and keeps no speed for long enough to prove anything.
turning-slow = The { $subject-name } turns slowly; the drag of oil and bearings can do that.
turning-unsteady = The { $subject-name } turns for { NUMBER($duration_s, maximumFractionDigits: 1) } s, longer than a released shaft coasts, and keeps no speed: what turns it is open.
turning-conditions-unknown = The { $subject-name } turns, but it is not known whether the engine ran or where the selector stood: turning alone proves nothing.
turning-command-unknown = The { $subject-name } turns with the selector in P or N; without a feed current that is seen to flow it cannot be told whether a clutch was applied on purpose.
turning-command-possible = The { $subject-name } turns with the selector in P or N, and began or ceased to just after the feed drew a current: its clutch may have been applied on purpose, slowly or in small steps.
turning-output = The { $subject-name } turns: the vehicle moves.
shaft-speed = The { $subject-name } turns at { NUMBER($value, maximumFractionDigits: 0) } rpm (median).
shaft-speed-if-turning = If its pulses are those of a turning wheel, the { $subject-name } turns at { NUMBER($value, maximumFractionDigits: 0) } rpm (median).
shaft-at-rest = The { $subject-name } stands still from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s; { rest-proof }
shaft-at-rest-engine-off = The { $subject-name } stands still from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s; the engine was off, so that a dragging clutch could not have turned it.
shaft-at-rest-engine-unknown = The { $subject-name } stands still from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s; it is not known whether the engine ran, so a dragging clutch is not ruled out by it.
shaft-at-rest-vr = The { $subject-name } gives no pulses from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s. A coil sensor is silent at rest, and at very low speed too; { rest-proof }
shaft-at-rest-creep = The { $subject-name } does not turn from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s; single tooth edges show that it creeps or that one tooth stands before the sensor.
shaft-at-rest-briefly = The { $subject-name } stands still from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s, with the engine running for too short a time of it to rule a dragging clutch out.
shaft-at-rest-in-gear = The { $subject-name } stands still from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s; in gear the wheels may hold it, so a dragging clutch is not ruled out by it.
shaft-rest-in-noise = The { $subject-name } shows no tooth from { NUMBER($start_s, maximumFractionDigits: 1) } to { NUMBER($end_s, maximumFractionDigits: 1) } s, but the noise would hide up to { NUMBER($below_hz, maximumFractionDigits: 0) } teeth a second: whether it stands or turns slowly is not known.
shaft-silent = The channel of the { $subject-name } shows no pulse, and nothing in it proves that it would have shown one: a shaft at rest, a dead sensor and a lead that is not connected look alike. A recording in which the shaft turns would tell.
attribution-contradicted = The actuator of clutch { $actuator } stalls, but it is input shaft { $shaft } that turns. Either leads are swapped, or there are two faults.
attribution-feed = The feed shows no actuation, but the line of input shaft { $shaft } rises and falls a few times, as an actuator's current does. Their leads may be interchanged.
attribution-feed-steps = The current at the feed rises from one sample to the next each time, as a switching sensor's output does and a motor's current cannot. The leads of the feed and of a sensor may be interchanged.
attribution-feed-swings = The current at the feed goes up and down through zero again and again, as a coil sensor's voltage does and the current of a supply cannot. The leads of the feed and of a sensor may be interchanged.
shaft-untested = No recording shows that the channel of the { $subject-name } works: nothing is known of this shaft.
shaft-silent-engine-off = The channel of the { $subject-name } shows no pulse; with the engine off nothing would have turned the shaft, so nothing is known of its sensor.
shaft-motion-too-short = Too little of the { $subject-name } was recorded to tell whether it turns or stands.
rest-proof = { $alive ->
    [pulsed] its sensor gave pulses in this recording
    [toggled] its sensor switched in this recording
    [quiescent] its sensor draws the current of a living one
   *[other] its sensor is alive
 }; above about { NUMBER($unseen, maximumSignificantDigits: 2) } { $unseen_unit ->
    [rpm] rpm
   *[other] Hz
 } turning would have been seen.
rotation-refused-undersampled = Pulses of the { $subject-name } are not taken for a speed: only { $detail } samples a tooth, any speed could be a false one.
rotation-refused-dithering = Pulses of the { $subject-name } are not taken for rotation: they scatter by { $detail } % from one to the next, like one tooth edge that trembles before the sensor.
rotation-refused-small-swing = Pulses of the { $subject-name } are not taken for rotation: they swing by only { $detail } V, too little for the sensor's own signal.
rotation-refused-spikes = Pulses of the { $subject-name } are not taken for rotation: they are spikes of { $detail } % of the period, not teeth.
rotation-refused-too-regular = Pulses of the { $subject-name } are not taken for rotation: their rate varies by only { $detail } %, steadier than any engine; an electrical source is likelier.
rotation-refused-too-quick = Pulses of the { $subject-name } are not taken for rotation: the speed would change by { $detail } rpm within a second, faster than the shaft's inertia allows.
rotation-refused-irregular = Pulses of the { $subject-name } are not taken for rotation: { $detail } % of them are missing or doubled without a pattern.
rotation-refused-hum = Pulses of the { $subject-name } are not taken for rotation: they are mains hum at { $detail } Hz.
rotation-refused-noise = Whether the { $subject-name } turns cannot be read: noise would hide teeth up to { $detail } a second.
rotation-refused-steady = Pulses of the { $subject-name } are not taken for rotation: at a steady engine speed they could as well be picked up from the engine or the alternator. A change of engine speed would tell.
rotation-refused-current = Pulses of the { $subject-name } are not taken for rotation: they keep time with the { $detail-name }, as electrical pick-up does.
rotation-refused-copy = Pulses of the { $subject-name } are not taken for rotation: they are a small copy of the { $detail-name }.

# Supply
supply-sag = Under the hardest actuation the supply falls by { NUMBER($value, maximumFractionDigits: 2) } V, to { NUMBER($extreme_v, maximumFractionDigits: 1) } V.
supply-sag-unscaled = Under the hardest actuation the supply falls by { NUMBER($value, maximumFractionDigits: 2) } V, to { NUMBER($extreme_v, maximumFractionDigits: 1) } V; at which current is not known, and a motor that moves should not make it fall so far.
supply-sag-plain = While a motor worked, the supply fell by { NUMBER($value, maximumFractionDigits: 1) } V.
ground-drop = Under the hardest actuation the ground rises by { NUMBER($value, maximumFractionDigits: 2) } V.
ground-drop-plain = While a motor worked, { NUMBER($value, maximumFractionDigits: 1) } V were lost in the ground wire.
feed-resistance = Resistance of the path at { $subject-name }: { NUMBER($value, maximumFractionDigits: 1) } milliohm, from how the voltage follows the current over { NUMBER($swing_a, maximumFractionDigits: 0) } A.
feed-resistance-plain = The wires to the gearbox resist the current too much ({ NUMBER($value, maximumFractionDigits: 0) } milliohm).
fuse-duty = In its hardest second the feed carries { NUMBER($rms_a, maximumFractionDigits: 0) } A RMS, { NUMBER($value, maximumFractionDigits: 0) } % of the fuse's rating.

# Gear train
gear-ratio = The { $subject-name } turns { NUMBER($value, maximumFractionDigits: 3) } times for one turn of the output shaft.
gear-ratio-named = The { $subject-name } turns { NUMBER($value, maximumFractionDigits: 3) } times for one turn of the output shaft: gear { $gear }.
wrong-gear = The { $subject-name } turns { NUMBER($value, maximumFractionDigits: 3) } times for one turn of the output shaft, a ratio that none of its gears has (nearest: gear { $nearest }): another gear set or final drive, a wrong tooth count, or swapped sensors.
shift = Gear change in { NUMBER($duration_s, maximumFractionDigits: 2) } s.
slip = With the gear held, the engine turns { NUMBER($value, maximumFractionDigits: 0) } rpm ({ NUMBER($percent, maximumFractionDigits: 0) } %) faster than the { $subject-name } that its clutch should lock to it.
slip-plain = In one gear the engine turned { NUMBER($value, maximumFractionDigits: 0) } rpm faster than the shaft that its clutch should hold.
slip-none = With the gear held, the engine and the { $subject-name } turn alike (within { NUMBER($value, maximumFractionDigits: 0) } rpm).
double-engagement = The output slows by { NUMBER($value, maximumFractionDigits: 0) } % within { NUMBER($duration_s, maximumFractionDigits: 2) } s, from the application of one clutch to the release of the other: both transmit torque at once.
double-engagement-slight = The output slows by { NUMBER($value, maximumFractionDigits: 0) } % within { NUMBER($duration_s, maximumFractionDigits: 2) } s, from the application of one clutch to the release of the other: less than what proves that both transmit torque at once.
double-engagement-plain = For a moment both clutches gripped at once and slowed the vehicle.

# Sensor health
sensor-dead = The sensor of the { $subject-name } shows nothing while the engine drives the vehicle through that shaft.
sensor-dead-plain = The sensor of the { $subject-name } showed nothing while the vehicle drove through that shaft.
sensor-silent = The sensor of the { $subject-name } shows nothing at all while the vehicle drives and changes gear, which it does through either shaft in turn.
sensor-silent-plain = The sensor of the { $subject-name } showed nothing while the vehicle drove and changed gear.
sensor-dropouts = The sensor of the { $subject-name } breaks off { $value } times ({ NUMBER($lost_s, maximumFractionDigits: 1) } s in all) and goes on at the same speed: the shaft turned on, the signal did not.
sensor-dropouts-plain = The signal of the { $subject-name } broke off { $value } times while the shaft turned on.
sensor-contact = The sensor of the { $subject-name } loses contact { $value } times ({ NUMBER($lost_s, maximumFractionDigits: 1) } s in all) and goes on at the same speed: a plug, a wire or a joint opens.
sensor-contact-plain = The sensor of the { $subject-name } lost contact { $value } times while the shaft turned on.
sensor-missing-teeth = The wheel of the { $subject-name } has { $value ->
    [one] one gap
   *[other] { $value } gaps
 } where teeth belong, at the same place on each of { $turns } turns.
sensor-missing-teeth-plain = The toothed wheel of the { $subject-name } has a fault at one place, which shows on every turn.
sensor-doubled-teeth = { $value ->
    [one] One tooth
   *[other] { $value } teeth
 } of the { $subject-name } count twice, at the same place on each of { $turns } turns: a notch, a chip or metal on the wheel.
sensor-doubled-teeth-plain = The toothed wheel of the { $subject-name } has a fault at one place, which shows on every turn.
tooth-wheel-gap = The wheel of the { $subject-name } has { $positions } positions, { $value } of them without a tooth. Many wheels are made so; if this one is not, teeth are missing.
tooth-wheel-extra = The wheel of the { $subject-name } gives { $value } more pulses a turn than its { $positions } positions, at the same place on each turn. Some wheels are made so; if this one is not, a tooth is notched or metal clings to it.
tooth-wheel-extra-alike = The wheels of both input shafts give { $value } more pulses a turn than their { $positions } positions, at the same place on each turn: they are made so.
tooth-wheel-other = The wheel of the { $subject-name } is stated to have { $stated } positions; its pulses show { $positions } a turn, { $value } of them without a tooth, and the speed is read with these.
crosstalk = The wire of the { $subject-name } carries { NUMBER($share_percent, maximumFractionDigits: 0) } % of the signal of the { $from-name }: electrical pick-up, no rotation.

# Kinds of observation, for headings and for the neutral sentence.
kind-actuation = Actuator movement
kind-actuation-stall = Actuator driven against a stop
kind-actuation-absent = Actuator that should have moved and did not
kind-attempts = Attempts that end in a stall
kind-gave-up = Learning abandoned by the control unit
kind-shaft-turning = Shaft turning
kind-attribution-contradicted = Stall and shaft do not match
kind-shaft-untested = Shaft of which nothing is known
kind-shaft-at-rest = Shaft at rest
kind-shaft-turning-at-rest = Shaft turning where it must stand still
kind-shaft-speed = Shaft speed
kind-gear-ratio = Gear ratio
kind-slip = Clutch slip
kind-shift = Gear change
kind-supply-sag = Supply voltage under load
kind-fuse-duty = Load on the fuse
kind-sensor-fault = Speed sensor signal
kind-ground-drop = Ground voltage under load
kind-rotation-refused = Pulses that are no rotation
kind-double-engagement = Two gears at once
kind-wrong-gear = Ratio that no gear has
kind-crosstalk = Pick-up between wires
kind-tooth-wheel = Toothed wheel

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

# Subjects: what a channel measures.
subject-supply-current = gearbox feed current
subject-input-shaft-1 = first input shaft
subject-input-shaft-2 = second input shaft
subject-output-shaft = output shaft
subject-actuator-current-n = clutch { $n } actuator current
subject-gear-motor-current-n = gear motor { $n } current
subject-selector = selector position

# causes
# cause-NAME: what is wrong, as a headline. -plain: one sentence for the owner.
# -ruled-out: its name in "what it is not"; the cause sheet's reason follows in brackets.
cause-clutch-n-drag = Clutch { $n } does not release
cause-clutch-n-drag-plain = Clutch { $n } does not open. It keeps turning its shaft in the gearbox. So the gearbox cannot learn the clutch's bite point, and the vehicle may creep.
cause-clutch-n-drag-ruled-out = Clutch { $n } does not open

cause-clutch-n-slip = Clutch { $n } slips
cause-clutch-n-slip-plain = Clutch { $n } does not hold. The engine turns faster than the shaft that the clutch should hold.
cause-clutch-n-slip-ruled-out = Clutch { $n } slips

cause-clutch-actuator-jam = A clutch actuator is jammed
cause-clutch-actuator-jam-plain = Two motors work the clutches. One of them is driven hard and cannot move.
cause-clutch-actuator-jam-ruled-out = A jammed clutch actuator

cause-clutch-actuator-n-jam = The actuator of clutch { $n } is jammed
cause-clutch-actuator-n-jam-plain = The motor of clutch { $n } is driven hard and cannot move.
cause-clutch-actuator-n-jam-ruled-out = A jammed actuator of clutch { $n }

cause-gear-actuator-jam = A gear actuator is jammed
cause-gear-actuator-jam-plain = A motor that shifts the gears is driven hard and cannot move.
cause-gear-actuator-jam-ruled-out = A jammed gear actuator

cause-actuation-jam = A mechanism inside the gearbox is jammed
cause-actuation-jam-plain = A motor in the gearbox is driven hard and cannot move. The wire that was measured feeds them all, so it does not show which one.
cause-actuation-jam-ruled-out = A jammed mechanism

cause-actuator-open-circuit = An actuator is not connected
cause-actuator-open-circuit-plain = The control unit tries to move a motor, and no current flows. A wire, a plug or the motor is broken.
cause-actuator-open-circuit-ruled-out = An actuator that is not connected

cause-supply-weak = The gearbox's electrical supply is weak
cause-supply-weak-plain = When the gearbox works, its voltage falls too far. Its motors get too little power. The gearbox itself may be sound.
cause-supply-weak-ruled-out = A weak electrical supply

cause-shaft-sensor-1-fault = The speed sensor of the first input shaft is faulty
cause-shaft-sensor-n-fault-plain = The signal of this speed sensor fits no shaft, turning or not. The sensor, its plug or its wire is at fault.
cause-shaft-sensor-1-fault-ruled-out = A faulty speed sensor of the first input shaft

cause-shaft-sensor-2-fault = The speed sensor of the second input shaft is faulty
cause-shaft-sensor-2-fault-ruled-out = A faulty speed sensor of the second input shaft

cause-double-engagement = Two gears are engaged at once
cause-double-engagement-plain = Both shafts of the gearbox hold the wheels at the same time. That must never happen.
cause-double-engagement-ruled-out = Two gears at once

cause-relearn-not-completed = The learning procedure was not completed
cause-relearn-not-completed-plain = The parts move as they should. The control unit stopped learning before the end. Nothing speaks for opening the gearbox.
cause-relearn-not-completed-ruled-out = A learning procedure that was merely not finished

reason-teeth-unknown = The vehicle moves, but a wheel's number of teeth is not known, so the speeds cannot be compared.
reason-scale-unknown = The clamp's scale is not known, so the actuations cannot be judged by their size.
reason-engine-contradicted = What was written of the engine does not agree with the recording.
reason-conditions-unknown = A shaft turns, but engine and selector are not known; turning alone proves nothing.
reason-attribution-contradicted = Currents and shafts do not belong together as the channels are named: leads may be swapped.
reason-odd-wheel = The wheel of a speed sensor gives one pulse more on every turn: it may be made so, or one of its teeth is damaged.
reason-shaft-untested = The channel of an input shaft shows no pulse in any recording, so nothing is known of that shaft.
reason-shaft-unreadable = The pulses of an input shaft's sensor cannot be read, so it is not known whether that shaft turned.
reason-command-unknown = A shaft turns, but no feed current that is seen to flow, and that would show a clutch application, was recorded.
reason-command-possible = A shaft began or ceased to turn just after an actuator moved; its clutch may have been applied on purpose.
reason-shaft-unsteady = A shaft turns for longer than it could coast, but at no steady speed.
reason-slight-tie-up = In a gear change the output is braked, by less than what two clutches at once are known by.
reason-sag-at-unknown-current = The supply falls by nearly its limit, and the current at which it does is not known.

# next
# What to record or state next.
next-record-own-actuator-current = Clamp the current of each clutch actuator on its own wire, and record the same operation again.
next-record-supply-current = Record the current through the gearbox's fuse during the whole learning procedure.
next-record-both-shafts = Record both input-shaft speed sensors together with the feed current.
next-record-engine-running-park = Record both input shafts for at least 30 seconds with the engine running and the selector in P, and write both into job.toml.
next-check-leads = Check that each clamp and each sensor lead sits on the clutch that it is named after, and make the same recording again.
next-record-engine-running-park-plain = Record both input shafts for half a minute, with the engine running and the selector in P.
next-record-shaft-turning = Check that the lead sits on the sensor's signal, and record it while its shaft turns: during a clutch application, or on the road.
next-change-engine-speed = Record again and raise the engine's speed by a half for some seconds, then let it fall: a shaft and an electrical pick-up then part.
next-record-whole-relearn = Record the learning procedure from before its start until after it ends.
next-record-supply-voltage = Record the voltage at the gearbox's own plug, between supply and ground, while it draws its highest current.
next-record-ground-voltage = Record the voltage drop from the gearbox's ground to the battery's negative pole while it draws its highest current.
next-record-engine-speed = Record the engine speed sensor together with both input shafts.
next-repeat-cold-and-warm = Make the same recording cold and warm.
next-measure-actuator-resistance = With the ignition off and the plug apart, measure the resistance of each clutch actuator's winding and of its wiring.
next-look-at-wheel = Look at the sensor's wheel through the sensor's bore, a whole turn of it: a broken or notched tooth, metal that clings to it.
driver-creep = The vehicle can creep or set off by itself. Never leave it with the engine running: select P, set the parking brake, take the key.
    .word = WARNING
    .title = Do not drive
    .source = { source-practice }
driver-slip = The clutch gets hot, and the drive can fail when you need it most. Do not leave the engine running.
    .word = WARNING
    .title = Do not drive
    .source = { source-practice }
driver-lock = The drive can brake or lock the wheels without warning. Do not leave the engine running.
    .word = DANGER
    .title = Do not drive
    .source = { source-practice }
driver-no-drive = The vehicle may not set off, or may lose its drive on the road. Have it taken to the workshop.
    .word = WARNING
    .title = The drive can fail
    .source = { source-practice }
driver-tow = Tow it only as its handbook says: with the driven wheels off the ground, or on a truck. Without power a gear may stay in, and P may not hold.
    .word = WARNING
    .title = Towing
    .source = { source-practice }

caution-spring-force = Clutch and actuator springs hold their force while dismounted. Release and fit them only with the maker's tool and procedure.
    .word = WARNING
    .title = Spring force
    .source = { source-practice }
caution-stored-pressure = Some units keep oil under high pressure in a store, also with the engine off. Release it by the maker's procedure before a line, a store or an actuator is opened; protect the eyes.
    .word = WARNING
    .title = Stored pressure
    .source = { source-practice }
caution-lifting = A gearbox is heavy, most of its weight lies to one side, and a dual-mass flywheel with clutch adds its own weight. Secure the vehicle on the lift, support the engine before its mounts are opened, and strap the gearbox to a jack rated for it.
    .word = WARNING
    .title = Heavy load
    .source = { source-practice }
caution-hot-parts = A clutch that has slipped, the exhaust and hot oil burn the skin for a long time after. Let them cool.
    .word = CAUTION
    .title = Hot parts
    .source = { source-practice }
caution-clutch-dust = Clutch dust harms the lungs and may contain asbestos. Use an enclosure with a HEPA vacuum or the low-pressure wet method; never brush it dry or blow it out with compressed air.
    .word = WARNING
    .title = Clutch dust
    .source = 29 CFR 1910.1001 Appendix F, work practices for clutch and brake work

sheet-shaft-let-go = its clutch was seen to release this shaft, so the attempt does not fail on a dragging clutch
sheet-circuit-untested = the module reports the actuator's circuit, and no recording tested it
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
sheet-into-stall = an actuator draws its stall current
sheet-module-open = the module measured the circuit open
sheet-module-circuit = the module reports the actuator's circuit
sheet-supply-loses = while the actuators ran, the supply wiring dropped more voltage than it should
sheet-supply-held = the supply voltage held up while the actuators ran
sheet-ground-rises = while the actuators ran, the ground wiring dropped more voltage than it should
sheet-slope = the slope of voltage against current is the resistance of the feed, and it is too high
sheet-module-supply = the module reports its supply
sheet-sensor-breaks = the sensor gives no signal, or its signal breaks off, while its shaft must be turning
sheet-sensor-whole = the sensor was recorded and its pulse train has no gaps
sheet-module-sensor = the module reports this sensor
sheet-slows-hard = the output is braked hard from the application of one clutch to the release of the other
sheet-never-slowed = the drive was recorded, and its output was never braked like that
sheet-module-two-gears = the module reports more than one gear engaged
sheet-shaft-stands = an input shaft stands: nothing is dragged along
sheet-not-learned = the module says that the clutch position was not learned
sheet-fault-stops = a fault was measured that stops the relearn
sheet-drag-explains = a dragging clutch explains the attempt
sheet-drag-explains-stall = a dragging clutch explains the attempt that stalls

sheet-wheel-every-turn = a tooth is missing or counts twice at the same place on every turn: the toothed wheel, or something stuck to it

# methods
# How each plugin measures; for the technician's report.
method-actuator-current = An actuation begins and ends at 15 % of its peak above the quiescent current. A stall stays at or above 70 % of its peak for at least 0.4 s. Charge is the integral of the current above the quiescent one. The uncertainty joins the clamp's accuracy and the noise.
method-shaft-motion = Speed is the median over tooth periods, by the number of teeth; its uncertainty joins sampling and scatter. Turning counts as abnormal only with the engine running, the selector in P or N, no clutch application in the feed current, a steady speed for 2 s and a real tooth train. Refused as rotation: undersampled, trembling edge, small swing, spikes, a clock's regularity, a copy of another channel.
method-supply = Resistance is the least-squares slope of voltage against current over all events, each against its own surroundings; its uncertainty joins the standard error of the fit and the clamp's accuracy. No opening time of a fuse is claimed.
method-gear-train = Ratio is input speed by output speed while a gear is held. Slip is engine speed less shaft speed in a held gear; moving off is left out. A gear change lasts from the engine's first departure by 2 % from the ratio it held until it first comes within 5 % of the other shaft; no standard defines this time.
method-sensor-health = A hole is a gap of at least four periods with the same speed before and after. A sensor is dead when the engine holds a ratio to the output that the other shaft does not explain, or when it is silent through a drive with a gear change.
method-drive-conditions = Selector and commanded clutch applications are read from what was stated and from the feed current; a shaft that turns after a clutch application may do so.
method-recording-checks = The clamp on the feed must rest where a controller rests and point upwards; each sensor must be sampled quickly enough to show idle speed; a moving vehicle needs its tooth counts.
method-attribution = A stalled actuator is held against the shaft that turns where it must not: where they are not of one clutch, leads may be swapped.
method-shafts-untested = A shaft counts as tested only where its channel showed a pulse in some recording of the job.

# repairs
# repair-NAME-1 .. n: the steps. opens-NAME: what is opened and why. destroyed-NAME: parts that opening
# uses up. proof-NAME: the recording that proves the repair.
repair-clutch-n-drag-1 = Remove the gearbox from the engine and open the clutch housing.
repair-clutch-n-drag-2 = Inspect clutch { $n }, its release bearing, its lever and the actuator's travel; measure wear and freedom of movement against the maker's limits.
repair-clutch-n-drag-3 = Replace what is out of limits, and set the clutch to the maker's procedure.
repair-clutch-n-drag-4 = Refit the gearbox and carry out the learning procedure.
proof-clutch-n-drag = The same recording again: engine running, selector in P, both input shafts at rest, and the learning procedure completed.
opens-clutch-n-drag = The gearbox is removed and its clutch housing opened, because clutch { $n } cannot be seen or measured from outside.
destroyed-clutch-n-drag = Seals, gaskets, single-use bolts and retaining rings of the clutch housing and the gearbox mounting.

repair-clutch-n-slip-1 = Check the clutch's learned values and repeat the learning procedure before anything is opened.
repair-clutch-n-slip-2 = If the slip remains, remove the gearbox, open the clutch housing and measure clutch { $n } for wear, oil and heat damage.
repair-clutch-n-slip-3 = Replace what is out of limits, refit, and carry out the learning procedure.
proof-clutch-n-slip = The same drive recorded again: with the clutch closed, shaft and engine turn at the same speed.
opens-clutch-n-slip = The gearbox is removed and its clutch housing opened, because clutch { $n } cannot be seen or measured from outside.
destroyed-clutch-n-slip = Seals, gaskets, single-use bolts and retaining rings of the clutch housing and the gearbox mounting.

repair-clutch-actuator-jam-1 = Record each clutch actuator's own current to find which of the two is jammed.
repair-clutch-actuator-jam-2 = Remove that actuator from outside and move the clutch lever by hand with the maker's tool: a stiff lever is a clutch fault, a free one an actuator fault.
repair-clutch-actuator-jam-3 = Replace the jammed part and carry out the learning procedure.
proof-clutch-actuator-jam = The same recording again: every drive is short, its current falls again, and the learning procedure completes.

repair-clutch-actuator-n-jam-1 = Remove the actuator of clutch { $n } from outside and move the clutch lever by hand with the maker's tool: a stiff lever is a clutch fault, a free one an actuator fault.
repair-clutch-actuator-n-jam-2 = Replace the jammed part and carry out the learning procedure.
proof-clutch-actuator-n-jam = The same recording again: every drive of actuator { $n } is short, its current falls again, and the learning procedure completes.

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

repair-shaft-sensor-n-fault-1 = Check the sensor's plug, wiring, supply and air gap.
repair-shaft-sensor-n-fault-2 = Replace the sensor if they are sound, and carry out the learning procedure.
proof-shaft-sensor-n-fault = The same recording again: a clean, steady tooth signal from sensor { $n }.

repair-double-engagement-1 = Do not drive the vehicle.
repair-double-engagement-2 = Check the shift mechanism and its actuators; find which gear stays engaged.
repair-double-engagement-3 = Replace the failed part and carry out the learning procedure.
proof-double-engagement = The same recording again: in neutral the two input shafts turn freely of each other.

repair-relearn-not-completed-1 = Meet the conditions of the maker's learning procedure: battery, temperature, selector, doors, brake.
repair-relearn-not-completed-2 = Repeat the procedure and record it from start to end.
proof-relearn-not-completed = A recording of the learning procedure that ends by itself, with no abandoned attempt.

# why
# Why a cause was not tested although its channels were recorded.

why-not-at-rest-with-the-engine-running = not recorded with the engine running and the clutch open
why-no-gear-held = no gear was held in any recording
why-never-driven = its motor was never driven
why-never-under-load = the supply was never recorded under load
why-no-pulse-in-any-recording = the sensor gave no pulse in any recording
why-no-gear-change = no gear change was recorded
why-no-code-says-so = no code says so

system-dual-dry-clutch = Automated gearbox with two dry clutches
sheet-vehicle-supply = a weak battery, too little charging or a bad engine ground slows every actuator
sheet-alternator-pick-up = the ripple of a failed alternator diode reaches sensor wires

# Work
labour-first-step = Check the feed and ground of the gearbox and repeat the relearn
labour-teardown = Remove and open the gearbox
labour-clutch = Replace the clutch pack
labour-clutch-actuator = Replace a clutch actuator
labour-gear-actuator = Replace a gear actuator
labour-feed = Repair the feed, ground or actuator wiring
labour-shaft-sensor = Replace an input shaft speed sensor
labour-reassembly = Close and refit the gearbox
labour-relearn = Relearn the gearbox control

# Sources of the limits, letter by letter as limits.toml has them.
sheet-source-ddc-peak = common practice, no source: healthy clutch actuations peak at 13 to 18 A through the feed
sheet-source-ddc-small = judgement: smaller events are the controller's own
sheet-source-ddc-quiescent = common practice, no source: controller and valves at rest draw 0.3 to 2 A
sheet-source-ddc-parked = common practice, no source: an intact gearbox in P with the engine running shows both input shafts at rest; bearing drag may slowly turn a free shaft
sheet-source-ddc-coast = common practice, no source: a released shaft coasts down within about 2 s
sheet-source-ddc-speed-up = judgement: a shaft takes this long to come up to speed after its clutch was applied
sheet-source-ddc-sag = common practice, no source: more than 1 V lost over a feed under load is usually a fault; wider here, since a stalled actuator draws more
sheet-source-ddc-ground = common practice, no source: at most 0.5 V over the whole ground path under load
sheet-source-ddc-feed = common practice, no source: 30 A through 50 milliohm lose 1.5 V, the limit of the supply's sag
sheet-source-ddc-fuse = judgement: read the rating off the vehicle's own fuse and put it here
sheet-source-ddc-fuse-duty = judgement: effective current of the hardest second against the rating; no opening time is claimed
sheet-source-ddc-slip = common practice, no source: a closed clutch does not slip; controlled micro-slip stays below this
sheet-source-ddc-shift = common practice, no source: a gear change takes 0.2 to 0.5 s
sheet-source-ddc-smallest = judgement: the smallest gear motor draws more, and the fuse carries no more than its rating for seconds
sheet-source-ddc-stall = judgement: a motor that cannot turn draws its supply voltage over its winding and wiring, tens of amperes
sheet-source-ddc-cut = judgement: a controller cuts the current of a motor that cannot turn within seconds
sheet-source-ddc-supply = common practice, no source: electronics of 12 V systems work from 6 to 16 V, with margin; ISO 16750-2 was not opened
