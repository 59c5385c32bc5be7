# Battery and starter
rest-voltage = At rest the battery has { NUMBER($value, maximumFractionDigits: 2) } V.
rest-voltage-low = At rest the battery has only { NUMBER($value, maximumFractionDigits: 2) } V: it is less than half charged. Its health cannot be told from that.
cranking-voltage = While the starter turns the engine the battery keeps at least { NUMBER($value, maximumFractionDigits: 2) } V (inrush: { NUMBER($inrush_v, maximumFractionDigits: 2) } V).
cranking-voltage-low = While the starter turns the engine the battery falls to { NUMBER($value, maximumFractionDigits: 2) } V (inrush: { NUMBER($inrush_v, maximumFractionDigits: 2) } V).
inrush-current = The start draws { NUMBER($value, maximumFractionDigits: 0) } A at its peak.
cranking-current = Turning the engine steadily, the starter draws { NUMBER($value, maximumFractionDigits: 0) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % of what it would draw standing.
cranking-current-raised = Turning the engine, the starter draws { NUMBER($value, maximumFractionDigits: 0) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % of what it would draw standing: more than usual.
cranking-current-high = Turning the engine, the starter draws { NUMBER($value, maximumFractionDigits: 0) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % of what it would draw standing: something brakes it hard.
cranking-current-stalled = The starter draws { NUMBER($value, maximumFractionDigits: 0) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % of what it would draw standing: it hardly turns the engine, or not at all.
cranking-current-alone = Turning the engine steadily, the starter draws { NUMBER($value, maximumFractionDigits: 0) } A.
battery-resistance = The battery has { NUMBER($value, maximumFractionDigits: 1) } milliohms, from how its voltage follows the starting current.
battery-resistance-size-unknown = The battery has { NUMBER($value, maximumFractionDigits: 1) } milliohms: more than that of a car, and usual for a small one. Its rating is not stated.
battery-resistance-cold = The battery has { NUMBER($value, maximumFractionDigits: 1) } milliohms: too much for its rating in the warm, and what it may have in the cold.
battery-resistance-high = The battery has { NUMBER($value, maximumFractionDigits: 1) } milliohms, too much for { $bound ->
    [rating] its rated cold-cranking current
   *[other] any car battery
 }.
ground-resistance = From the engine to the battery the ground has { NUMBER($value, maximumFractionDigits: 2) } milliohms: { NUMBER($drop_v, maximumFractionDigits: 2) } V at { NUMBER($current_a, maximumFractionDigits: 0) } A.
ground-resistance-high = From the engine to the battery the ground has { NUMBER($value, maximumFractionDigits: 1) } milliohms, too many: { NUMBER($drop_v, maximumFractionDigits: 2) } V are lost at { NUMBER($current_a, maximumFractionDigits: 0) } A.
ground-resistance-high-plain = While the engine was cranked, { NUMBER($drop_v, maximumFractionDigits: 1) } V of the battery's voltage were lost between engine and battery. A sound connection loses a tenth of that.
starter-feed-resistance = From the battery to the starter the feed has { NUMBER($value, maximumFractionDigits: 2) } milliohms: { NUMBER($drop_v, maximumFractionDigits: 2) } V at { NUMBER($current_a, maximumFractionDigits: 0) } A.
starter-feed-resistance-high = From the battery to the starter the feed has { NUMBER($value, maximumFractionDigits: 1) } milliohms, too many: { NUMBER($drop_v, maximumFractionDigits: 2) } V are lost at { NUMBER($current_a, maximumFractionDigits: 0) } A.
starter-feed-resistance-high-plain = While the engine was cranked, { NUMBER($drop_v, maximumFractionDigits: 1) } V of the battery's voltage were lost on the way to the starter. A sound cable loses a tenth of that.
cranking-speed = The starter turned the engine at { NUMBER($value, maximumFractionDigits: 0) } rpm.
cranking-speed-low = The starter turned the engine at only { NUMBER($value, maximumFractionDigits: 0) } rpm.
compression-rate = Compression strokes follow each other at { NUMBER($value, maximumFractionDigits: 2) } a second; with the number of cylinders in job.toml that is a speed.
compression-rate-low = Compression strokes follow each other at only { NUMBER($value, maximumFractionDigits: 2) } a second: the engine is turned slowly.
relative-compression-even = The weakest cylinder compresses to { NUMBER($value, maximumFractionDigits: 0) } % of the best, over { $cycles } cycles: they are even.
relative-compression-low = The weakest of { $cylinders } cylinders compresses to only { NUMBER($value, maximumFractionDigits: 0) } % of the best, over { $cycles } cycles.
relative-compression-unclear = The weakest cylinder compresses to { NUMBER($value, maximumFractionDigits: 0) } % of the best, which is too uncertain to tell.
relative-compression-short = The engine was cranked for too few cycles ({ $cycles }) to compare its cylinders.

# Charging
charging-voltage = With the engine running the voltage is { NUMBER($value, maximumFractionDigits: 2) } V.
charging-voltage-low = With the engine running the voltage is only { NUMBER($value, maximumFractionDigits: 2) } V. Charge management may intend that for a while.
charging-voltage-low-discharging = With the engine running the voltage is only { NUMBER($value, maximumFractionDigits: 2) } V, and the battery gives { NUMBER($current_a, maximumFractionDigits: 0) } A.
charging-voltage-none = With the engine running the voltage is only { NUMBER($value, maximumFractionDigits: 2) } V: the alternator does not charge.
charging-voltage-high = With the engine running the voltage is { NUMBER($value, maximumFractionDigits: 2) } V, too high.
charging-voltage-at-times = With the engine running the voltage is { NUMBER($value, maximumFractionDigits: 2) } V most of the time, and in a part of the recording it is held as it should be: the alternator can charge.
ripple-even = The alternator leaves a ripple of { NUMBER($value, maximumFractionDigits: 3) } V at { NUMBER($hz, maximumFractionDigits: 0) } Hz with six equal periods: its phases carry alike.
ripple-order-missing = The alternator leaves a ripple of { NUMBER($value, maximumFractionDigits: 2) } V that repeats at { NUMBER($hz, maximumFractionDigits: 0) } Hz: a diode or a phase does not carry.
ripple-speed-unknown = A ripple of { NUMBER($value, maximumFractionDigits: 2) } V repeats at { NUMBER($hz, maximumFractionDigits: 0) } Hz. Without the engine speed it cannot be told whether all phases carry.
ripple-too-coarse = A ripple of { NUMBER($value, maximumFractionDigits: 2) } V was sampled too slowly to tell its true rate.
ripple-large = A ripple of { NUMBER($value, maximumFractionDigits: 2) } V repeats at { NUMBER($hz, maximumFractionDigits: 0) } Hz. That is much; the engine speed at a higher sample rate would tell whether a diode or a phase has failed.
ripple-not-alternator = A ripple of { NUMBER($value, maximumFractionDigits: 2) } V at { NUMBER($hz, maximumFractionDigits: 0) } Hz is not that of an alternator; something that is switched electronically can leave it.
ripple-not-recorded = The ripple was not recorded: the record is too short or was sampled too slowly.
ripple-none = No ripple of more than { NUMBER($least_v, maximumFractionDigits: 3) } V is on the voltage.

# Key-off
key-off-current = After key-off { NUMBER($value, maximumFractionDigits: 3) } A remain ({ NUMBER($ah_a_day, maximumFractionDigits: 1) } Ah a day{ $days ->
    [0] {""}
   *[other] ; after about { NUMBER($days, maximumFractionDigits: 0) } days the battery no longer starts the engine
 }).
key-off-current-high = { NUMBER($since_off_min, maximumFractionDigits: 0) } minutes after key-off { NUMBER($value, maximumFractionDigits: 2) } A still remain: { NUMBER($ah_a_day, maximumFractionDigits: 1) } Ah a day{ $days ->
    [0] {""}
   *[other] ; after about { NUMBER($days, maximumFractionDigits: 0) } days the battery no longer starts the engine
 }.
key-off-current-high-early = { NUMBER($since_off_min, maximumFractionDigits: 0) } minutes after key-off { NUMBER($value, maximumFractionDigits: 2) } A still remain ({ NUMBER($ah_a_day, maximumFractionDigits: 1) } Ah a day{ $days ->
    [0] {""}
   *[other] ; after about { NUMBER($days, maximumFractionDigits: 0) } days the battery no longer starts the engine
 }). Some vehicles take up to 40 minutes to fall asleep.
key-off-current-not-final = { NUMBER($value, maximumFractionDigits: 2) } A still flow when the recording ends; the last step came too late to say whether that stays.
key-off-current-backwards = The vehicle is switched off, and { NUMBER($value, maximumFractionDigits: 2) } A are read as if the battery were charged: a charger is connected, or the clamp is turned round or was not set to zero.
key-off-stage = Stage of the shut-down at { NUMBER($value, maximumFractionDigits: 2) } A.
sleep-time = The last step of the shut-down comes { NUMBER($value, maximumFractionDigits: 0) } s after { $off_seen ->
    [true] key-off
   *[other] the start of the recording
 }.
wake-ups = { $value ->
    [0] Once asleep the vehicle stays asleep.
    [one] Once asleep the vehicle wakes once, for { NUMBER($longest_s, maximumFractionDigits: 0) } s.
   *[other] Once asleep the vehicle wakes { $value } times, for up to { NUMBER($longest_s, maximumFractionDigits: 0) } s.
 }
wake-ups-draining = Once asleep the vehicle wakes { $value } times and draws { NUMBER($mean_a, maximumFractionDigits: 2) } A on the average.

# Kinds of finding
kind-rest-voltage = Rest voltage
kind-cranking-voltage-low = Lowest cranking voltage
kind-cranking-current = Cranking current
kind-battery-resistance = Battery resistance
kind-ground-resistance = Ground resistance
kind-cranking-speed = Cranking speed
kind-compression-rate = Compression rate
kind-relative-compression = Relative compression
kind-charging-voltage = Charging voltage
kind-ripple = Alternator ripple
kind-key-off-current = Key-off current
kind-key-off-stage = Stage of the shut-down
kind-sleep-time = Time to sleep
kind-wake-ups = Wake-ups

# Channels, system
subject-battery-voltage = battery voltage
subject-battery-current = battery current
subject-starter-current = starter current
subject-alternator-current = alternator current
subject-feed-voltage-drop = voltage drop of the feed
system-start-and-charge = Battery, starter and alternator

# Causes
cause-battery-weak = The battery is weak
cause-battery-weak-plain = The battery can no longer deliver the current that a start takes; its voltage gives way.
cause-battery-weak-ruled-out = A weak battery
cause-ground-resistance-high = Too much resistance in the ground between engine and battery
cause-ground-resistance-high-plain = The starting current loses voltage on its way back to the battery: a strap, a joint or a clamp is corroded or loose.
cause-ground-resistance-high-ruled-out = Resistance in the engine ground
cause-feed-resistance-high = Too much resistance between battery and starter
cause-feed-resistance-high-plain = The starting current loses voltage on its way to the starter: a cable, a joint or a contact is corroded, burnt or loose.
cause-feed-resistance-high-ruled-out = Resistance in the starter feed
cause-starter-drag = The starter or the engine turns too hard
cause-starter-drag-plain = The starter draws far more current than it should while it turns the engine slowly: the starter itself, or something that it has to turn, is stiff.
cause-starter-drag-ruled-out = A starter that turns too hard
cause-cylinder-low-compression = A cylinder of the engine has low compression
cause-cylinder-low-compression-plain = One cylinder of the engine does not build up pressure as the others do, so the engine runs unevenly.
cause-cylinder-low-compression-ruled-out = Low compression in one cylinder
cause-alternator-phase-fault = A diode or a phase of the alternator has failed
cause-alternator-phase-fault-plain = The alternator works with only a part of its windings: it gives less current, heats up and disturbs other devices.
cause-alternator-phase-fault-ruled-out = A failed diode or phase of the alternator
cause-undercharging = The battery is not charged enough
cause-undercharging-plain = With the engine running the alternator does not bring the voltage up, so the battery empties while driving.
cause-undercharging-ruled-out = Too little charging
cause-overcharging = The battery is charged with too high a voltage
cause-overcharging-plain = The voltage with the engine running is higher than any regulator should let it be; that boils the battery and shortens the life of lamps and control units.
cause-overcharging-ruled-out = Too high a charging voltage
cause-key-off-drain = Something keeps drawing current after key-off
cause-key-off-drain-plain = The parked vehicle draws more current than it should, so that the battery is empty after some days.
cause-key-off-drain-ruled-out = A current that drains the parked vehicle

# Repairs and their proof
repair-battery-weak-1 = Charge the battery fully, let it rest, and repeat the recording of a start: a battery that was only empty passes.
repair-battery-weak-2 = Clean and tighten the terminals, and measure the drop from post to clamp.
repair-battery-weak-3 = Replace the battery with one of the same kind and rating, and register it where the vehicle wants that.
proof-battery-weak = The same recording of a start again: the voltage holds up under the same current.
repair-ground-resistance-high-1 = Measure the drop joint by joint while cranking: block to strap, strap to body, body to battery.
repair-ground-resistance-high-2 = Clean, tighten or replace the joint or strap that drops.
proof-ground-resistance-high = The same recording again: the drop of the ground is small at the same current.
repair-feed-resistance-high-1 = Measure the drop joint by joint while cranking: post to clamp, cable, fuse link, solenoid contacts.
repair-feed-resistance-high-2 = Clean, tighten or replace the joint, cable or solenoid that drops.
proof-feed-resistance-high = The same recording again: the drop of the feed is small at the same current.
repair-starter-drag-1 = Turn the engine by hand with the spark plugs or injectors out, and turn the belt drive without its belt: a stiff engine or auxiliary is found that way.
repair-starter-drag-2 = Check the oil grade, then remove and bench-test or replace the starter.
proof-starter-drag = The same recording again: less current at a higher cranking speed.
repair-cylinder-low-compression-1 = Measure the pressure of each cylinder with a gauge, and find the weak one.
repair-cylinder-low-compression-2 = Find where it leaks (valves, rings, gasket) with a leak-down test, and repair that.
proof-cylinder-low-compression = The same recording of the starter's current again, with all cylinders even.
repair-alternator-phase-fault-1 = Check the alternator's plug, output joint and ground.
repair-alternator-phase-fault-2 = Replace the rectifier or the alternator.
proof-alternator-phase-fault = The same recording again with the same load: a small, even ripple at six times the electrical rate.
repair-undercharging-1 = Check belt, alternator plug, output joint, fuse link and ground, and the drop of the output line under load.
repair-undercharging-2 = Read what the charge management commands; a low voltage can be intended.
repair-undercharging-3 = Replace the regulator or the alternator when it does not follow its command.
proof-undercharging = The same recording again: the voltage rises to its regulated value and current flows into the battery.
repair-overcharging-1 = Check the regulator's sense line and ground: a voltage that it does not see it cannot hold down.
repair-overcharging-2 = Replace the regulator or the alternator, and test the battery afterwards.
proof-overcharging = The same recording again: the voltage stays within the regulated range.
repair-key-off-drain-1 = Let the vehicle fall asleep undisturbed, and measure the drop across each fuse to find the circuit that draws.
repair-key-off-drain-2 = Find in that circuit the consumer or the control unit that stays awake, and what wakes it (door, switch, bus), and repair it.
proof-key-off-drain = The same recording again, long enough: the vehicle falls asleep and little current remains.

# Steps to take next
next-record-cranking = Record battery voltage and the battery's current during a start, from a second before it; crank for five seconds without starting to compare the cylinders.
next-record-cranking-longer = Record the battery's current while the engine is cranked for five seconds without starting: fewer turns do not compare its cylinders.
next-record-path-drops = Record the drops from the engine block to the battery minus and from the battery plus to the starter together with the starting current.
next-state-battery-rating = Read the cold-cranking current on the battery's label and write it into [unit] as battery_cca_a.
next-charge-and-repeat = Charge the battery fully, let it rest for some hours at workshop temperature, and record a start again.
next-turn-engine-by-hand = Turn the engine by hand and compare with another of its kind: it tells a stiff engine from a stiff starter.
next-measure-cylinder-pressure = Measure the pressure of each cylinder with a gauge: the starter's current says that one is weak, not which.
next-record-charging = Record the battery voltage with the engine running at a raised idle and low beam on, at 10,000 samples a second or more, for two seconds.
next-record-charging-engine-speed = Record the engine speed sensor together with the battery voltage, with its number of teeth in job.toml.
next-record-charging-loaded = Record battery voltage and the battery's current with the engine at a raised idle and large consumers switched on.
next-record-key-off = Clamp the battery's current, turn the key off, close and lock the vehicle, and record for at least 40 minutes.
next-record-key-off-longer = Record the key-off current again for 40 minutes or the time that the maker states.
next-turn-battery-clamp = Disconnect any charger, set the clamp to zero with no wire in it, put it on so that current out of the battery reads positive, and record the key-off current again.

# Why a cause was not tested
reason-battery-may-be-cold = The resistance of the battery lies between what its rating allows in the warm and in the cold.
reason-battery-size-unknown = What the battery may have depends on its size, and its rating is not stated.
reason-charged-at-times = The voltage is low for a part of the recording and held in another: a large load, charge management or a loose contact.
reason-ripple-large = The voltage ripples more than usual while charging, and the recording does not tell why.
reason-current-backwards = With the vehicle switched off current seems to flow into the battery.
why-never-cranked-with-current = no start was recorded together with its current
why-no-drop-recorded = its voltage drop was not recorded during a start
why-too-few-cycles = the engine was cranked for too few turns
why-no-ripple-to-judge = no ripple was recorded that tells its phases apart
why-engine-never-ran = the battery voltage was not recorded with the engine running
why-not-watched-until-asleep = the vehicle was not watched until it sleeps

# Labour
labour-test-start-and-charge = Test of battery, starter and alternator by recording
labour-replace-battery = Replace the battery
labour-repair-cable = Repair a cable or ground joint
labour-replace-starter = Replace the starter
labour-replace-alternator = Replace the alternator
labour-find-drain = Find what draws current after key-off

# Cautions
caution-engine-may-start = While it is cranked the engine may start. Prevent that as the maker states, keep the selector in P or N, and keep hands clear of belts and fans.
    .word = WARNING
    .title = Engine may start
    .source = { source-practice }
driver-no-start = The engine may not start again. Switch it off only where the vehicle can stay. Do not try again and again: starter and cables get hot.
    .word = CAUTION
    .title = May not start
    .source = { source-practice }
driver-not-charged = The battery is not charged as it must be. Lights, steering help and the engine can fail on the road. Drive no farther than the next workshop, and switch off what you do not need.
    .word = WARNING
    .title = Power can fail
    .source = { source-practice }
driver-overcharged = The voltage is too high. The battery can boil and give off gas that explodes. Keep flames and sparks away from it.
    .word = WARNING
    .title = Do not drive
    .source = { source-practice }

# Methods
method-start-attempt = A start begins where the current passes half of its inrush. Steady cranking is from 0.45 s after that. Battery resistance is the least-squares slope of voltage over current across the inrush.
method-path-resistance = Resistance is the least-squares slope of the drop over the current during the whole attempt; an offset of either channel does not matter.
method-cranking-compression = The humps of the current are sorted by their place in the cycle of two turns; each height is above the lower trough beside it. Which cylinder is weak is not told by the current.
method-charging = Charging voltage is the median with the engine running.
method-alternator-ripple = The phase of the strongest line gives the alternator's turning; amplitudes are taken at its orders and their sixths. Six diodes of equal phases leave six periods to the electrical one; what repeats more slowly tells of an unequal phase.
method-key-off-current = The record is split into plateaus; a rise that comes back is a wake-up, the lowest plateau is what remains. Days until no start: 40 % of the charge over what is drawn a day.

# Reasons of the cause sheet
sheet-battery-resists = the voltage falls with the current more than a sound battery of its size lets it
sheet-battery-holds = the voltage holds up under the starter as that of a sound battery does
sheet-cranks-low = while cranking the voltage falls below what is usual
sheet-rests-low = the battery rests at a voltage of less than half charge; that says nothing of its health
sheet-ground-drops = between engine and battery the drop follows the current, and it is too high for its current
sheet-ground-carries = the ground path carried the starting current with a small drop
sheet-feed-drops = between battery and starter the drop follows the current, and it is too high for its current
sheet-feed-carries = the feed carried the starting current with a small drop
sheet-starter-stands = the starter draws what it draws standing: it does not turn the engine
sheet-draws-much = while it turns, the starter draws more than half of what it would draw standing: something holds it
sheet-draws-more = while it turns, the starter draws more of its stall current than usual
sheet-draws-usual = the starter draws what one that turns freely does
sheet-cranks-slowly = the engine is turned slowly
sheet-cranks-well = the engine is turned at a usual speed
sheet-battery-not-it = the battery is not what slows it
sheet-battery-explains = a weak battery explains a slow start
sheet-path-explains = resistance in cable or ground explains a slow start
sheet-hump-low = a cylinder that does not compress loads the starter less, at the same place of every cycle
sheet-humps-even = all cylinders load the starter alike
sheet-orders-below = the ripple repeats at the electrical rate or twice it, not at six times: a diode or a phase is missing or shorted
sheet-orders-whole = the ripple has six equal periods to the electrical one
sheet-charges-low-too = the alternator does not hold the voltage
sheet-charges-nothing = with the engine running the voltage is lower than any charge management holds it
sheet-charges-low = with the engine running the voltage stays below what an alternator holds
sheet-battery-feeds = with the engine running the battery feeds the vehicle
sheet-charges = the alternator charges
sheet-phase-explains = a missing phase explains a low voltage
sheet-charges-high = with the engine running the voltage stays above what any regulator holds
sheet-charges-no-more = the regulator holds the voltage down
sheet-remains-high = long after key-off more current remains than the sleeping vehicle needs
sheet-remains-high-early = the current has stayed high for longer than any stage before; a few vehicles take longer still
sheet-wakes = the vehicle wakes again and again, and on the average draws more than a sleeping one
sheet-sleeps = the vehicle fell asleep, and little remains
sheet-no-ripple = the voltage lies still: nothing is rectified

# Sources of the limits, letter by letter as limits.toml has them.
sheet-source-battery-rest = about half charged: 12.24 V at 26.7 degC, flooded battery after hours of rest (BCI figures read in a public copy)
sheet-source-battery-cranking = 9.6 V while cranking (Chrysler Crossfire 2004, cold cranking test, read in a public copy); a cold battery has less
sheet-source-starter-half-stall = judgement: a motor gives its highest power at half of its stall current, and a starter that turns freely draws less; between the two it counts as raised
sheet-source-compressions = judgement: three cylinders at 130 rpm; engines with more compress more often
sheet-source-battery-own = judgement: 5.45 V over 545 A, the rating of a small car's battery; write battery_cca_a into [unit] for the battery's own bound
sheet-source-battery-fall = SAE J537, read in public copies: at -18 degC a battery keeps 7.2 V for 30 s at its rated current, a fall of 5.45 V from 12.65 V; 0.85 of it for a battery at workshop temperature and for the first instants (judgement)
sheet-source-battery-fall-cold = SAE J537, read in public copies: at -18 degC a battery keeps 7.2 V for 30 s at its rated current, a fall of 5.45 V from 12.65 V
sheet-source-ground-army = 0.20 V per 100 A for a whole circuit (US Army TM 10-3930-671-24, p. F-303)
sheet-source-cylinders = common practice, no source: cylinders within a quarter of the best one
sheet-source-charging = regulated at 13.2 to 14.3 V at 60 degC and 14.0 to 15.1 V at -20 degC (Mitsubishi Attrage 2018, read in a public copy); charge management may intend less for a while
sheet-source-ripple = common practice, no source: published figures differ by a factor of ten; the orders decide, not the height
sheet-source-key-off = 5 to 50 mA normal (Jeep Compass 2021, read in a public copy)
sheet-source-key-off-wait = 40 to 65 mA after 40 minutes or more, about 300 mA before 10 minutes (Mazda 6 2021, read in a public copy)
sheet-source-key-off-watch = over 100 mA for 2 to 5 minutes (Saturn Aura 2008, read in a public copy)
sheet-source-key-off-stage = judgement: shorter than this a stage may end at any moment
sheet-source-ripple-least = judgement: some hundred periods of the alternator's ripple
sheet-source-no-start = no start once 40 % of the charge is gone (a bulletin of General Motors, read in a public copy)
sheet-source-sac-starter-largest = judgement: starters draw some hundred amperes, those of trucks up to two thousand
sheet-source-sac-alternator-largest = judgement: the largest alternators of buses give some hundred amperes
sheet-source-sac-batteries = batteries of 6, 12 and 24 V, with margin for a deep fall and for overcharging; common practice, no source
sheet-source-sac-no-larger-drop = no drop is larger than the voltage of the vehicle's battery, 24 V at most; common practice, no source
