kind-coil-resistance = Coil resistance
kind-coil-inductance = Coil inductance
kind-armature-move-time = Armature movement
kind-armature-silent = Armature without movement
kind-hold-current = Hold current
kind-chopper-rate = Chopper frequency
kind-flyback-voltage = Switch-off voltage
kind-dwell-time = On-time
kind-current-limit = Current limit
kind-driver-drop = Voltage left by the driver
kind-coil-no-current = No current
kind-coil-steady-current = Current without a pause

coil-resistance = The coil's circuit has { $value } ohm; the reference is { $reference } ohm.
coil-resistance-alone = The coil's circuit has { $value } ohm; nothing is stated to compare it with.
coil-resistance-unequal = The coil's circuit has { $value } ohm and that of the only other one { $reference } ohm: one of the two is off, and two alone do not tell which.
coil-resistance-low = The coil's circuit has only { $value } ohm; { $reference } ohm are stated.
coil-resistance-high = The coil's circuit has { $value } ohm; { $reference } ohm are stated.
coil-resistance-unclear = The coil's circuit has { $value } ohm; against the stated { $reference } ohm that is too close to the limit to tell.
coil-resistance-unsettled = The current does not settle within an actuation; the circuit has at most { $most } ohm.
coil-resistance-below-others = The coil's circuit has only { $value } ohm; the others have { $reference } ohm.
coil-resistance-above-others = The coil's circuit has { $value } ohm; the others have { $reference } ohm.
coil-inductance = Before its armature moves the coil has { $value } mH.
coil-inductance-unequal = The coil has { $value } mH and the only other one { $reference } mH: one of the two is off, and two alone do not tell which.
coil-inductance-below-others = Before its armature moves the coil has only { $value } mH; the others have { $reference } mH.
armature-move-time = The armature arrives { $value } ms after switch-on (mean of { $actuations } actuations).
armature-late = The armature arrives { $value } ms after switch-on; those of the others after { $reference } ms.
armature-late-plain = In the { $subject-name } the movement comes later than in the others.
armature-silent = The current rises without the notch of a moving armature (mean of { $actuations } actuations).
armature-silent-beside-others = The current rises without the notch that the other coils show.
armature-silent-beside-others-plain = In the { $subject-name } nothing moves when it is switched on; the others show their movement.
armature-unclear = The current shows no notch where other coils show one, but the recording is too coarse to call it missing.
armature-none = An ignition coil has no armature.
armature-late-weak = The armature arrives { $value } ms after switch-on, those of the others after { $reference } ms; but this coil gets less current than they.
armature-unequal = The armature arrives { $value } ms after switch-on, that of the only other coil after { $reference } ms: two alone do not tell which is usual.
armature-silent-weak = No movement of the armature is seen; but this coil gets less current than the others.
hold-current = After a peak of { $peak } A the driver holds { $value } A.
current-without-pause = A current of { $value } A on average flows without a pause.
chopper-rate = The driver chops the current at { $value } Hz.
flyback-voltage = At switch-off the driven side rises to { $value } V.
dwell-time = The coil is switched on for { $value } ms ({ $actuations } actuations).
current-limit = The driver limits the current to { $value } A after { $reached_ms } ms.
driver-drop = Switched on, the driven side lies at { $value } V.
driver-drop-high = Switched on, the driven side still lies at { $value } V.
no-current-driven = The driver pulled the driven side to ground { $pulls } times, and no current flowed.
no-current-not-driven = No current flowed, and the driven side stayed at { $level } V: the driver never pulled it to ground.
no-current-dead-feed = No current flowed, and the driven side lay at { $level } V: the supply does not reach it through the coil.
no-current-beside-others = No current flowed while { $working } other coils worked.
no-current-unwitnessed = No current flowed, and nothing shows that the coil was switched on.
coil-always-on = A current of { $value } A flows without a pause, and the driven side stays at { $level } V.

cause-coil-open = The coil's circuit is interrupted
cause-coil-open-plain = No current reaches the coil: its winding, its plug or its wiring is interrupted.
cause-coil-open-ruled-out = An interrupted coil
repair-coil-open-1 = With the plug off, measure the resistance of the coil itself.
repair-coil-open-2 = Replace the coil if it is interrupted; otherwise find the break in feed, plug or wire to the control unit.
proof-coil-open = The same recording again: current flows at every actuation.

cause-coil-shorted-turns = The coil has shorted turns
cause-coil-shorted-turns-plain = Part of the coil's winding is bridged: it draws too much current and pulls too weakly.
cause-coil-shorted-turns-ruled-out = Shorted turns in the coil
repair-coil-shorted-turns-1 = With the plug off, measure the resistance of the coil itself and compare it with the maker's value at its temperature.
repair-coil-shorted-turns-2 = Replace the coil, and check its driver for the overload that it carried.
proof-coil-shorted-turns = The same recording again: the current settles where the maker's resistance lets it.

cause-armature-sticking = The moving part of a valve or relay sticks
cause-armature-sticking-plain = It does not move, or moves late, although it gets its current.
cause-armature-sticking-ruled-out = A sticking valve or relay
repair-armature-sticking-1 = Exchange the coil's part with its neighbour and record again: the fault must move with the part.
repair-armature-sticking-2 = Clean or replace the part that sticks.
proof-armature-sticking = The same recording again: all coils show the notch at the same time.

cause-coil-wiring-resistance = The coil's circuit has too much resistance
cause-coil-wiring-resistance-plain = A plug, a wire or a ground joint on the way to the coil holds part of the voltage back.
cause-coil-wiring-resistance-ruled-out = Too much resistance in the coil's wiring
repair-coil-wiring-resistance-1 = Measure the voltage drop of feed, plug and driven wire while current flows, joint by joint.
repair-coil-wiring-resistance-2 = Repair the joint that drops; replace the coil only when it measures too high by itself.
proof-coil-wiring-resistance = The same recording again: the current settles where the maker's resistance lets it.

cause-driver-fault = The coil's driver does not work
cause-driver-fault-plain = The output of the control unit that should switch the coil does not switch it as it must.
cause-driver-fault-ruled-out = A faulty driver
repair-driver-fault-1 = Check the control unit's supply, ground and the conditions under which it switches this coil.
repair-driver-fault-2 = Bridge the driven wire to ground through a fused test lamp, where the maker allows it: if the coil works, wire and coil are sound.
repair-driver-fault-3 = Repair or replace the control unit only after wire and coil were proven.
proof-driver-fault = The same recording again: the driven side comes down to ground at every actuation.

next-record-coil-current = Record the current of the coil with a clamp of fitting range, at least 20 samples a millisecond, over several actuations.
next-record-coil-voltage = Record the driven side of the coil against ground and the supply together with the current.
next-record-coil-faster = Record the coil's current with at least 50 samples a millisecond and over at least ten actuations.
next-record-coil-siblings = Record the currents of all coils of this kind on the engine in one recording.
next-measure-coil-resistance = With the plug off, measure the resistance of the coil, and note its temperature.
next-measure-coil-driver = Check supply and ground of the control unit, and whether the conditions for switching this coil are met.
next-state-coil-ohm = State the coil's resistance at 20 degrees Celsius as the maker gives it (coil_ohm).

caution-fuel = Fuel under pressure sprays and burns. Release the pressure before a line is opened, keep sparks away, and protect eyes and skin.
    .word = DANGER
    .title = Fuel
    .source = { source-practice }
caution-ignition-voltage = Ignition voltages can kill. Never touch a running ignition circuit, and never run a coil without its load.
    .word = DANGER
    .title = Ignition voltage
    .source = { source-practice }
caution-hot-engine = Engine, exhaust and valves burn the skin. Let them cool before you reach in.
    .word = CAUTION
    .title = Hot engine
    .source = { source-practice }

reason-armature-weak = One armature arrives late or does not move, and its coil gets less current than the others.
reason-two-coils-unequal = Two coils differ, and nothing tells which of them is as it should be.
reason-resistance-unsettled = The current did not settle within an actuation, so that the stated resistance could not be checked.
reason-armature-unclear = One coil shows no notch, and the recording is too coarse to tell why.
why-coil-not-driven = nothing shows that the coil was switched on
why-coil-no-reference = no resistance to compare with
why-coil-too-coarse = recorded too coarsely to show a movement

labour-measure-coil = Measure a coil's current and voltage
labour-replace-coil = Replace a coil, valve or injector
labour-repair-coil-wiring = Repair the wiring of a coil

system-coil = Coils: injectors, valves, relays, ignition
subject-coil-current = coil current
subject-coil-current-n = current of coil { $n }
subject-coil-voltage = driven side of the coil
method-coil-currents = All actuations of a coil are averaged from switch-on. Resistance is the voltage across the coil by the current at which it settles; inductance is the slope of -ln(1 - iR/V) over time before the armature moves. The armature arrives where the rise, having sagged, turns up again (the notch); a rise without one counts only where the noise would have let it show. Held and limited currents are told from a settled one by how abruptly the rise ends.

# sheets

sheet-coil-driven-without-current = the driver connects the coil to ground and no current flows
sheet-coil-no-voltage-through = the supply does not reach the driven side through the coil
sheet-coil-one-without-current = one coil carries no current while others work: the coil, its wiring or its driver
sheet-coil-driver-idle = the supply reaches the driven side through the coil
sheet-coil-current-flows = current flows at every actuation
sheet-coil-below-stated = the winding has less resistance than it can have at any temperature
sheet-coil-below-others = one coil has less resistance than the others of the same engine
sheet-coil-steeper = the current of one coil rises more steeply than that of the others
sheet-coil-winding-right = the winding has the resistance that it should have
sheet-coil-silent-beside-others = the current of one coil rises without the notch that the others show
sheet-coil-notch-source = judgement; LM1949 data sheet for the notch
sheet-coil-silent = the current rises without a notch although the recording would have shown it
sheet-coil-late = one armature arrives later than the others of the same engine
sheet-coil-none-there = an ignition coil has no armature
sheet-coil-moves = the armature moves at every actuation
sheet-coil-winding-weak = a coil with a wrong resistance pulls too little to move its armature
sheet-coil-above-stated = the circuit has more resistance than coil and wiring can have at any temperature
sheet-coil-above-others = the circuit of one coil has more resistance than those of the others
sheet-coil-drop-at-driver = the driven side does not come down to ground: the driver, or the wiring between
sheet-coil-circuit-right = the circuit has the resistance that it should have
sheet-coil-never-pulls-down = the driven side stays at the supply although the coil should work
sheet-coil-never-lets-go = current flows without a pause and the driven side stays at ground
sheet-coil-pulls-badly = the driver leaves the driven side far above ground
sheet-coil-switches = the driver switches the coil on and off
sheet-coil-pulls-down = the driver connects the coil to ground
sheet-coil-supply = at too low a voltage a coil's current rises slowly and its armature moves late
sheet-coil-driver-weak = a driver that pulls badly leaves too little current to move the armature

# Sources of the limits, letter by letter as limits.toml has them.
sheet-source-coil-copper = copper, 0.393 % per kelvin (IEC 60028): -20 to 105 degrees Celsius against 20; half an ohm of wiring and driver is added to the upper limit (common practice)
sheet-source-coil-among = common practice, no source: coils of one engine at one temperature; manuals allow a spread of 3 ohm in 14 (Chevrolet 3.1 L 2004)
sheet-source-coil-inductance = common practice, no source: coils of one engine
sheet-source-coil-armatures = common practice, no source: armatures of one engine
sheet-source-coil-driver = common practice, no source: a transistor leaves 0.1 to 0.3 V, a Darlington up to 1.2 V
sheet-source-coil-least = reasoning: one actuation lasts milliseconds; how many were recorded is judged by the measurements themselves
