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

kind-signal-quality = Quality of the recording
kind-scale-unknown = Clamp without a known scale
kind-condition-engine = Engine during the recording
kind-condition-selector = Selector during the recording
kind-condition-commanded = Commanded clutch applications
kind-condition-contradicted = Stated condition that the recording contradicts
kind-code-not-tested = Trouble code not tested by the recording
kind-code-contradicted = Trouble code that the recording contradicts
kind-code-supported = Trouble code that the recording supports
kind-feed-resistance = Resistance of the supply path
kind-inrush-current = Inrush current

mark-signal-quality = recording not usable

subject-supply-voltage = supply voltage
subject-ground-voltage = ground voltage drop
subject-engine-speed = engine speed
subject-other = other channel

reason-too-short = The recording is too short to show an actuation with the rest before and after it.
reason-clipped = The current runs against the top of the measuring range, so its true height is not known.
reason-reversed = The current clamp was put on the wrong way round.
reason-offset = The current clamp was not set to zero before the recording.
reason-undersampled = A speed sensor was sampled too slowly, so any speed could be a false one.
reason-edges = A speed sensor's signal goes beyond the recorder's range or has doubled edges, so its speed is not to be relied on.
reason-missing = Too many values are missing from the recording.

next-record-higher-rate = Record again with at least ten samples per tooth of the speed sensors.
next-record-longer = Record at least ten seconds, from before the attempt until after it.
next-clamp-range = Set the clamp and the recorder to a wider range (60 A or more) and record again.
next-clamp-direction = Turn the clamp round, so that current into the unit reads positive, and record again.
next-clamp-zero = Set the clamp to zero with no wire in it, close to the cable, and record again.
next-record-range = Set the recorder's range for the speed sensor wider and record again.
next-state-teeth = Write the number of teeth of each speed sensor's wheel into job.toml; a filled-in file lies beside this report.
next-state-teeth-plain = Complete the notes on the recordings.
next-clamp-scale = Write the clamp's amperes per volt into job.toml; a filled-in file lies beside this report.
next-clamp-scale-plain = Complete the notes on the recordings.
next-state-selector = Write the selector position during the recording into job.toml.
next-state-selector-plain = Complete the notes on the recordings.
next-state-engine = Write into job.toml whether the engine was running during the recording.
next-state-engine-plain = Complete the notes on the recordings.
next-check-sensor-wiring = Check the speed sensor's plug and wiring, then make the same recording again.

caution-rolling = The vehicle can roll or set off without warning. A clutch can close by itself, and a gearbox that is in neutral, without power or removed has no park lock. Chock the wheels, set the parking brake, and let nobody stand in front of or behind the vehicle.
    .word = WARNING
    .title = Vehicle may roll
    .source = { source-practice }
caution-running-engine = Exhaust gas kills in closed rooms without being noticed. Run the engine only with exhaust extraction or in the open, and keep a carbon-monoxide alarm at hand.
    .word = DANGER
    .title = Exhaust gas
    .source = { source-practice }
caution-rotating-parts = Fans, belts, shafts and clutches catch hands, hair, sleeves and cables. Attach or move a probe only with the ignition off and the key away from the vehicle: a fan can start by itself. Route every lead clear of moving and hot parts.
    .word = WARNING
    .title = Rotating parts
    .source = { source-practice }
caution-actuator-movement = Actuators can move when the vehicle wakes up, at ignition, when a door opens and during learning, and can crush fingers. Cut their supply before reaching into the mechanism.
    .word = WARNING
    .title = Parts move by themselves
    .source = { source-practice }
caution-jumper-lead = A jumper lead without a fuse can burn wiring and hands. Fuse it no higher than the circuit it feeds, never bridge a fuse, never feed a control unit's output.
    .word = WARNING
    .title = Jumper leads
    .source = { source-practice }
caution-high-voltage = The high-voltage system of this vehicle can kill. Its cables are orange; a 48-volt system is not marked so and can burn and arc. Only persons qualified for it by the law of the place may isolate it, lock it out, wait as long as the maker states and check that no voltage is left. Nothing is opened, unplugged or probed before that.
    .word = DANGER
    .title = High voltage
    .source = ISO 6469-3 (orange cables) and national rules for electrical work, neither read; { source-practice } for the steps
caution-high-voltage-unknown = Nobody has stated whether this vehicle is a hybrid or an electric one. Find out first: type plate, papers, orange cables. A 48-volt system is not marked orange. If it has such a system, only persons qualified for it by the law of the place may isolate it, wait as long as the maker states and check that no voltage is left.
    .word = DANGER
    .title = Hybrid or electric?
    .source = ISO 6469-3 (orange cables) and national rules for electrical work, neither read; { source-practice } for the steps
caution-airbag = Airbags and belt tensioners can fire. Before working near them, disconnect the battery and wait the time that the maker states; never measure an igniter circuit with an ohmmeter.
    .word = WARNING
    .title = Airbags
    .source = { source-practice }
caution-battery = Batteries give off explosive gas, hold acid and deliver very high currents. No flame or spark; protect the eyes; take rings and watches off; disconnect the ground side first. Let the vehicle go to sleep before you disconnect, and wait for the airbags. Charge a lithium battery only with a charger made for it.
    .word = WARNING
    .title = Battery
    .source = { source-practice }
caution-scope-ground = A ground lead of a recording instrument on a point that is not ground shorts the battery: it burns, and the instrument with it. Use isolated or differential inputs, or check first that the point is at ground.
    .word = WARNING
    .title = Instrument ground
    .source = { source-practice }
caution-road-test = Whoever drives must not read instruments. Take a second person along, stow the equipment so that it cannot fly about, and keep to the law of the road.
    .word = WARNING
    .title = Road test
    .source = { source-practice }
caution-self-start = The engine of a hybrid or a vehicle with stop-start can start by itself, also with the hood open. Switch the ignition off and take the key away before you reach into the engine bay.
    .word = WARNING
    .title = Engine may start by itself
    .source = { source-practice }
caution-under-vehicle = A vehicle on a jack alone kills. Work under it only on a lift whose locks are engaged or on rated stands on firm ground, and never while it runs in gear.
    .word = WARNING
    .title = Under the vehicle
    .source = { source-practice }
caution-protection = Wear eye protection and gloves that fit, and hearing protection near a running engine. Keep a fire extinguisher at hand.
    .word = CAUTION
    .title = Eyes, hands, ears
    .source = { source-practice }
driver-rough-engine = If the engine shakes or its warning lamp flashes, do not drive. Fuel that does not burn overheats the exhaust and can set it on fire.
    .word = WARNING
    .title = Rough engine
    .source = { source-practice }

method-signal-quality = Every channel with a role is held against what spoils a conclusion: too short, clipped, clamp reversed or not zeroed, undersampled or able to show a false speed at idle, values missing, scale or tooth count unknown, stated conditions contradicted.
method-conditions = Engine and selector are taken from what was stated, held against every sign in the recording: the engine's own sensor, the starter's pull, charging, the alternator's ripple. Clutch applications by command are read from the feed current. The signs are weighed in decibans from even odds; below 20 to 1 the state counts as unknown.
method-codes = Each code's claim is held against the measured findings. A code is contradicted only when its status says that the test failed in this or the last cycle; an old entry says nothing for or against.

# Scales that no such unit can have

implausible-scale = The { $subject-name } shows { NUMBER($value, maximumSignificantDigits: 3) } { $unit }, which no such unit can show: the scale of the probe is doubtful.
kind-implausible-scale = Doubtful scale
reason-implausible-scale = A calibrated value is one that no such unit can show, so the scale of a probe is doubtful.
next-check-scale = Check the factor of the probe against what is printed on it and against the recorder's setting, correct it in job.toml, and do the job again.
next-clear-supply-first = First put battery, charging and their cables right; then make this recording again.
next-clear-ripple-first = First put the alternator right; then make this recording again.
next-check-scale-plain = Check the scale of the clamp, and record again.
method-plausibility = Medians and highest pulses of calibrated channels are held against what such a unit can show at all; beyond it the scale of the probe is doubted.
implausible-time = The { $subject-name } keeps its highest current for { NUMBER($value, maximumFractionDigits: 0) } s, longer than any control unit lets it: the unit of the recording's time is doubtful.
reason-implausible-time = A motor draws its stall current for longer than any control unit lets it, so the unit of the recording's time is doubtful.

# Work
labour-diagnosis = Recording and diagnosis
labour-proof = Repeat the recording to prove the repair

# Sources of the limits, letter by letter as limits.toml has them.
sheet-source-practice = common practice, no source
sheet-source-clamp = common practice, no source: direct-current clamps of the trade, standard uncertainty of the reading
sheet-source-idle = common practice, no source: warm idle of passenger-car engines, with cold start
sheet-source-least = judgement: one actuation with the rest before and after it
sheet-source-small-pulses = judgement: smaller pulses are a controller's own
sheet-source-clamp-zero = judgement: the zero of a clamp that was set drifts by less
sheet-source-stall-hold = common practice, no source: a healthy actuation is over in 0.1 to 0.3 s
sheet-source-stall-share = judgement: a stalled motor keeps its current, a moving one loses most of it to its back-EMF
sheet-source-creep = judgement: slower is creep
sheet-source-creep-rate = judgement: slower is creep, where the tooth count is not known
sheet-source-hall = common practice, no source: three-wire Hall sensors switch between ground and a pull-up of 5 or 12 V
sheet-source-acceleration = reasoning: 250 N m on a shaft with its disc of 0.02 kg m2
sheet-source-loop-low = common practice, no source: two-wire sensors with a current interface give 7 mA within 20 % at their low level
sheet-source-loop-high = common practice, no source: two-wire sensors with a current interface give 14 mA within 20 % at their high level
