system-speed-sensor = Speed sensors

# Rotation
sensor-speed = The { $subject-name } reads { NUMBER($value, maximumFractionDigits: 1) } rpm.
tooth-rate = The { $subject-name } gives { NUMBER($value, maximumFractionDigits: 1) } pulses a second; its number of teeth is not known, so this is no speed.
tooth-pattern = The ring of the { $subject-name } has { $value } positions a turn, { $missing } of them without a tooth (pattern { $pattern }, over { $cycles } cycles).
tooth-pattern-other = The ring of the { $subject-name } is stated to have { $stated } positions; its pulses show { $value } a turn, { $missing } of them without a tooth (pattern { $pattern }).
pick-up-engine = The pulses of the { $subject-name } are no rotation: through a change of the engine's speed they stay at { NUMBER($order, maximumFractionDigits: 2) } per turn of the engine, and their size does not grow with their rate as a coil's must.
pick-up-unclear = The pulses of the { $subject-name } may be its ring or pick-up from the running engine: nothing in this recording tells the two apart.
sensor-unreadable = For { NUMBER($value, maximumFractionDigits: 1) } s the signal of the { $subject-name } has pulses that are no readable train of teeth.

# Ring
tooth-fault-none = Every tooth of the ring of the { $subject-name } was seen at its place, over { $turns } turns.
tooth-fault-none-seen = Over { $positions } teeth in a row the { $subject-name } shows none that is missing, doubled or displaced.
tooth-fault = The ring of the { $subject-name } is damaged at { $value ->
    [one] one place
   *[other] { $value } places
 } of a turn, the same on each of { $turns } turns: missing { $missing }, broken off { $broken }, doubled { $doubled }, displaced { $displaced }.
tooth-fault-plain = On every turn, the toothed ring of the { $subject-name } shows damage at { $value ->
    [one] one place
   *[other] { $value } places
 }.
tooth-fault-unstated = The ring of the { $subject-name } has { $missing ->
    [one] a place
   *[other] { $missing } places
 } without a tooth on each of { $turns } turns. It may be made so, or teeth may be missing: its number of missing teeth is not stated.
tooth-fault-unequal = The teeth of the { $subject-name } come at unequal pitches, alike on every turn; none of them is so far off that it can be named.
tooth-fault-not-tested = The single teeth of the { $subject-name } could not be judged in this recording.
ring-runout-amplitude = Over a turn the signal of the { $subject-name } grows and shrinks by { NUMBER($value, maximumFractionDigits: 1) } %.
ring-runout-pitch = Over a turn the teeth of the { $subject-name } come sooner and later by { NUMBER($value, maximumFractionDigits: 2) } % of a pitch.

# Amplitude
sensor-amplitude = At 100 rpm the { $subject-name } gives { NUMBER($value, maximumSignificantDigits: 3) } V.
sensor-amplitude-low = At 100 rpm the { $subject-name } gives only { NUMBER($value, maximumSignificantDigits: 3) } V: too little to be seen at low speed.
sensor-amplitude-beside = At 100 rpm the { $subject-name } gives { NUMBER($value, maximumSignificantDigits: 3) } V, only { $share } % of what the { $other-name } gives.
sensor-amplitude-among = At 100 rpm the { $subject-name } gives { NUMBER($value, maximumSignificantDigits: 3) } V, only { $share } % of what the weakest sensor on another axle gives (the { $other-name }).
sensor-amplitude-apart = At 100 rpm the { $subject-name } gives { NUMBER($value, maximumSignificantDigits: 3) } V, { $share } % of what the { $other-name } gives; but by the number of teeth the two turn at quite different speeds, so that their rings may not be alike.
sensor-amplitude-clamped = The signal of the { $subject-name } runs against a limit of the recorder or of the control unit's input, so that its height is not known.
sensor-level-low = The low level of the { $subject-name } is { NUMBER($value, maximumSignificantDigits: 3) } { $unit }.
sensor-level-high = The high level of the { $subject-name } is { NUMBER($value, maximumSignificantDigits: 3) } { $unit }.

# Polarity
sensor-polarity-usual = The { $subject-name } is connected the usual way round: its signal rises through the gap of its ring ({ $gaps } gaps).
sensor-polarity-reversed = The { $subject-name } seems to be connected the wrong way round: its signal falls through the gap of its ring ({ $gaps } gaps), where by common practice it rises.
cam-phase = The camshaft's edge comes { NUMBER($value, maximumFractionDigits: 1) } degrees of the crankshaft after the mark of its ring, over { $turns } turns, scattering by { NUMBER($scatter, maximumFractionDigits: 1) } degrees (all edges: { $all }).
cam-phase-off = The camshaft's edge comes { NUMBER($value, maximumFractionDigits: 1) } degrees of the crankshaft after the mark of its ring, which is not where the limits sheet says (all edges: { $all }).
cam-phase-off-plain = The camshaft does not turn in step with the crankshaft as it should.

# Interruptions
sensor-dropout-none = The { $subject-name } lost no pulse while its shaft turned.
sensor-dropout-once = The { $subject-name } breaks off once ({ NUMBER($lost_s, maximumFractionDigits: 2) } s) and goes on in phase; once may be a knocked probe.
sensor-dropout-twice = The { $subject-name } breaks off twice ({ NUMBER($lost_s, maximumFractionDigits: 2) } s in all) and goes on in phase: the shaft turned on, the signal did not.
sensor-breaks-off = The { $subject-name } breaks off { $value } times ({ NUMBER($lost_s, maximumFractionDigits: 2) } s in all) and goes on in phase: the shaft turned on, the signal did not.
sensor-gone-silent = The { $subject-name } gives no pulse for { NUMBER($value, maximumFractionDigits: 1) } s while the { $witness-name } shows that its wheel turns.
sensor-silent-several = The { $subject-name } gives no pulse for { NUMBER($value, maximumFractionDigits: 1) } s while { $witnesses } other wheels turn, among them that of the { $witness-name }.
sensor-silent-standing = The { $subject-name } gives no pulse for { NUMBER($value, maximumFractionDigits: 1) } s while the { $witness-name } goes on, and another wheel gives none either. On a lift, wheels that nothing drives stand still: this proves no fault.
sensor-silent-driven = The { $subject-name } gives no pulse for { NUMBER($value, maximumFractionDigits: 1) } s while the engine turns, as the { $witness-name } shows.
sensor-silent-at-times = The { $subject-name } ceases from speed and is silent for { NUMBER($value, maximumFractionDigits: 1) } s while the { $witness-name } goes on.
sensor-no-pulse = The { $subject-name } gives no pulse, and nothing proves that its shaft turned or that the channel would have shown it: a shaft at rest, a dead sensor and a lead that is not connected look alike.
sensor-no-pulse-alive = The { $subject-name } draws the current of a living sensor and gives no pulse; nothing proves that its shaft turned.

# Pair
speed-difference = The wheels of the { $subject-name } and of the { $other-name } differ by { NUMBER($value, maximumFractionDigits: 2) } %; that of the { $faster-name } is the faster.

kind-sensor-speed = Speed at a sensor
kind-tooth-rate = Tooth rate
kind-tooth-pattern = Pattern of the ring
kind-no-rotation = Pulses that are no rotation
kind-sensor-unreadable = Pulses that cannot be read
kind-tooth-fault = Teeth of the ring
kind-ring-runout = Run-out of the ring
kind-sensor-amplitude = Height of the sensor's signal
kind-sensor-polarity = Polarity of the sensor
kind-cam-phase = Phase of the camshaft
kind-sensor-dropout = Interruptions of the sensor
kind-sensor-silent = Sensor without a pulse
kind-speed-difference = Difference of two wheels

mark-sensor-speed = turns
mark-tooth-rate = turns
mark-no-rotation = no rotation
mark-tooth-fault = tooth
mark-ring-runout = run-out
mark-sensor-amplitude = height
mark-sensor-polarity = polarity
mark-sensor-dropout = breaks off
mark-sensor-silent = no pulse

subject-wheel-speed-n = sensor of wheel { $n }
subject-crank-sensor = crankshaft sensor
subject-cam-sensor = camshaft sensor
subject-speed-sensor-n = speed sensor { $n }

# Causes
cause-sensor-dead = A speed sensor gives no signal
cause-sensor-dead-plain = One of the speed sensors gives no signal although what it watches is turning: the sensor, its plug or its wiring is interrupted or shorted.
cause-sensor-dead-ruled-out = A speed sensor without a signal
cause-sensor-intermittent = A speed sensor loses contact
cause-sensor-intermittent-plain = The signal of a speed sensor breaks off again and again while the wheel or shaft turns on: a plug, a wire or the sensor itself makes bad contact.
cause-sensor-intermittent-ruled-out = A speed sensor that loses contact
cause-tooth-ring-damaged = The toothed ring of a speed sensor is damaged
cause-tooth-ring-damaged-plain = The toothed ring that a speed sensor reads is damaged at one place, which shows on every turn. The sensor itself does what it should.
cause-tooth-ring-damaged-ruled-out = A damaged toothed ring
cause-ring-runout-high = The toothed ring of a speed sensor does not run true
cause-ring-runout-high-plain = The toothed ring that a speed sensor reads sits off its centre or wobbles, so that its signal changes over every turn.
cause-ring-runout-high-ruled-out = A toothed ring that does not run true
cause-air-gap-large = A speed sensor sits too far from its ring
cause-air-gap-large-plain = The signal of a speed sensor is too weak for its speed: the distance between the sensor and its toothed ring is too large, or the sensor is worn out. At low speed its signal is lost.
cause-air-gap-large-ruled-out = A speed sensor too far from its ring
cause-sensor-polarity-reversed = The two wires of a speed sensor are interchanged
cause-sensor-polarity-reversed-plain = The two wires of a speed sensor seem to be interchanged, so that the control unit reads each tooth a little too early or too late.
cause-sensor-polarity-reversed-ruled-out = Interchanged wires of a speed sensor
cause-pick-up = What a speed sensor shows is interference
cause-pick-up-plain = The line of a speed sensor picks up interference from the running engine and shows a speed although nothing turns there: its shielding, its twisted wires or a ground is at fault.
cause-pick-up-ruled-out = Interference on a speed sensor's line

# Repairs
repair-sensor-dead-1 = Check first that the recorder's lead sat on the sensor's signal; then plug, supply, ground and both wires of the sensor up to the control unit.
repair-sensor-dead-2 = If they are sound, look at sensor and ring, and replace the sensor.
proof-sensor-dead = The same recording again: the sensor gives pulses whenever the other one does.
repair-sensor-intermittent-1 = Move plug and harness by hand while recording, and find the place at which the signal breaks off.
repair-sensor-intermittent-2 = Repair plug or wiring there; replace the sensor if the signal breaks off at the sensor itself.
proof-sensor-intermittent = The same recording again, the harness moved by hand: no pulse is lost.
repair-tooth-ring-damaged-1 = Look at the whole ring, a turn of it: a tooth that is broken, chipped or bent, rust that lifts it, metal that clings to it. Clean it first.
repair-tooth-ring-damaged-2 = Replace the ring, or the bearing or shaft that carries it, if cleaning does not help.
proof-tooth-ring-damaged = The same recording again: every tooth at its place on every turn.
repair-ring-runout-high-1 = Measure the run-out of the ring and the play of its bearing with a dial gauge against the maker's limits.
repair-ring-runout-high-2 = Clean the seat and fit the ring again, or replace the ring or the bearing.
proof-ring-runout-high = The same recording again: the signal is even over the turn.
repair-air-gap-large-1 = Measure the gap between sensor and ring where it can be reached, and clean sensor, seat and ring of rust and metal.
repair-air-gap-large-2 = Measure the resistance of the coil against that of the other side; replace the sensor if the gap is right.
proof-air-gap-large = The same recording again: both sides give alike at the same speed.
repair-sensor-polarity-reversed-1 = Compare the two wires at the sensor's plug and at the control unit with the maker's wiring diagram before anything is changed: some makers take the other polarity.
repair-sensor-polarity-reversed-2 = If they are interchanged, set them right where the last repair was made.
proof-sensor-polarity-reversed = The same recording again: the signal rises through the gap.
repair-pick-up-1 = Check the sensor's shield, its twisted pair and its way past alternator, ignition and motors; check the grounds of engine and body.
repair-pick-up-2 = Check with the sensor unplugged: what stays on the line comes from elsewhere. Repair shield or ground.
proof-pick-up = The same recording again with the engine running and the wheel at rest: no pulses.

# Next
next-record-second-witness = Record this sensor together with another one that must turn with it (all wheels while the vehicle drives, crankshaft and camshaft while the engine turns).
next-record-sensor-turning = Record the sensor while its wheel or shaft turns, from rest to speed and back, for at least ten seconds.
next-record-sensor-again = Record the sensor again with at least ten samples per tooth and a range that fits its signal.
next-move-harness = Record again for a minute while moving plug and harness by hand.
next-look-at-ring = Look at the ring of teeth through the sensor's bore, a whole turn of it.
next-compare-other-wheel = Record the sensor of the other side of the same axle together with this one, at one speed.
next-check-polarity = Compare the sensor's two wires with the maker's wiring diagram.
next-check-valve-timing = Check the valve timing by the maker's marks: chain or belt, tensioner, and the sensor wheels on their shafts.
next-change-speed = Record the engine's speed together with the sensor, and change it by a half while the wheel or shaft rests: pick-up changes with it, rotation does not.
next-state-missing-teeth = Write into job.toml how many teeth the ring lacks by design ([unit] missing_teeth, 0 for none).

# Why
why-no-pulse = the sensor gave no pulse and nothing shows that its shaft turned
why-too-little-turning = its shaft turned for too short a time
why-too-few-turns = too few turns, or too few samples a tooth, to judge single teeth
why-no-coil = the height of the signal tells nothing of the gap with this kind of sensor, or its scale or tooth count is not known
why-no-gap = only a coil before a ring with a gap shows its polarity

# Reasons
reason-sensor-not-seen = A sensor gives no pulse, and nothing in the recording proves that its shaft turned.
reason-wheels-may-stand = Several wheels give no pulse while others turn. On a lift, wheels that nothing drives stand still.
reason-sensor-unreadable = The pulses of a sensor cannot be read as a train of teeth.
reason-may-be-pick-up = The pulses of a sensor may be pick-up from the running engine.
reason-cam-phase-off = The camshaft lies elsewhere against the crankshaft than the limits sheet says.
reason-gap-unstated = A ring lacks teeth at a place at which it may have been made without.
reason-pitches-unequal = The teeth of a ring come at unequal pitches, and the recording does not tell which of them is off.
reason-broke-off-once = A sensor broke off once, which may have been the probe.
reason-near-the-limit = A measured value lies so near its limit that it is neither good nor bad.
reason-wheels-apart = One sensor gives less than the other of its axle, but the two wheels turn at quite different speeds: the number of teeth may not be right for both.

caution-brake-dust = Brake dust harms the lungs and may contain asbestos. Never blow it off with compressed air; wipe it wet or use a vacuum with a HEPA filter.
    .word = WARNING
    .title = Brake dust
    .source = 29 CFR 1910.1001 Appendix F, work practices for clutch and brake work
driver-speed-unknown = The brakes' anti-lock help and the stability control can fail, or act when they should not. If the sensor is one of the engine or the gearbox, the drive can stop. Drive slowly, keep your distance, and go only to the workshop.
    .word = WARNING
    .title = Drive with care
    .source = { source-practice }

# Labour
labour-check-sensor-wiring = Check plug and wiring of a speed sensor
labour-replace-speed-sensor = Replace a speed sensor
labour-replace-tooth-ring = Replace a ring of teeth

# Sheets
sheet-silent-beside-one = the other wheel turns and this sensor gives no pulse
sheet-silent-beside-several = what must turn with its shaft turns, and this sensor gives no pulse
sheet-gives-pulses = the sensor gives pulses while its shaft turns
sheet-breaks-off-often = the pulses break off several times and go on in phase: the shaft turned on
sheet-breaks-off-twice = the pulses break off twice and go on in phase: the shaft turned on
sheet-silent-at-times = the pulses cease from speed while what turns with the shaft turns on
sheet-never-breaks-off = no pulse was lost while the shaft turned
sheet-tooth-at-one-place = a tooth is missing, broken, doubled or displaced at the same place on every turn
sheet-teeth-whole = every tooth was seen on every turn
sheet-varies-once-a-turn = the signal grows and shrinks, or its teeth come sooner and later, once a turn in phase with the wheel
sheet-even-over-the-turn = the signal is even over the turn
sheet-weaker-than-its-twin = at the same speed it gives less than half of the sensor on the other side
sheet-weak-alone = its voltage is too small for its speed
sheet-weak-among-others = at the same speed it gives less than two fifths of every other sensor of its kind
sheet-strong-enough = its voltage is large enough for its speed
sheet-crosses-downwards = the signal falls through the gap of the ring, where by common practice it rises
sheet-crosses-upwards = the signal rises through the gap of the ring, as is common
sheet-follows-the-engine = the pulses follow the engine through a change of its speed, and their size does not follow their rate as a coil's must
sheet-is-rotation = the pulses are those of a shaft that turns

# Methods
method-sensor-rotation = Speed is the tooth rate over a revolution by the number of positions, median over each stretch in which it stays within 4 %. Pulses of a coil are pick-up where they keep one ratio to the engine through a change of its speed and their amplitude grows with less than the rate to the power 0.4.
method-tooth-ring = Every place of the ring is averaged over the turns. A tooth counts as missing where it is seen in less than half of them, as broken below 0.6 of its neighbours' amplitude or where the gap holds a rest of its wave, as displaced by a quarter of a pitch. Run-out is the first harmonic over a turn.
method-sensor-amplitude = A coil's amplitude is half of peak to peak, divided by the tooth rate and given at 100 rpm. The levels of a sensor that switches are the modes of its histogram (IEEE Std 181).
method-sensor-polarity = A coil's signal lies at its middle over a gap; whether it comes from below or from above is counted over all gaps.
method-cam-phase = Between the teeth of the crankshaft's ring the angle is interpolated; the edges of the camshaft are collected over all turns from mark to mark, and their median counts.
method-sensor-interruptions = An interruption goes on in phase, or after less than a second at the same speed. Silence counts where another sensor that must turn with this one is above 30 rpm for a second and a sound sensor would have been seen at that speed.
method-sensor-pair = The speeds of both wheels are compared point by point on one time grid; the value is the median.

# Sources of the limits, letter by letter as limits.toml has them.
sheet-source-speed-coil = at 100 rpm; an integrated conditioner for coils arms at 45 mV (data sheet LM1815, TI SNOSBU8F), and a wheel must be seen from walking pace on; judgement
sheet-source-speed-beside = common practice, no source: coils on one axle agree within a third; half the amplitude means a gap wider by a tenth of the pitch
sheet-source-speed-among = common practice, no source: coils before rings of as many teeth agree within a factor of two from axle to axle
sheet-source-speed-field = the field falls off by exp(-2 pi x / pitch): 25 % is a run-out of 4 % of the pitch to either side; common practice, no source
sheet-source-speed-runout = common practice, no source: a ring that sits 2 % of its radius off its centre
