# Start and run
motor-inrush = Switched on, the motor draws { NUMBER($value, maximumFractionDigits: 1) } A at its peak.
motor-runs = Running steadily the motor draws { NUMBER($value, maximumFractionDigits: 2) } A{ $share_percent ->
    [0] {""}
   *[other] , { NUMBER($share_percent, maximumFractionDigits: 0) } % of its stall current
 }.
motor-runs-raised = Running steadily the motor draws { NUMBER($value, maximumFractionDigits: 2) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % of its stall current: more than usual.
motor-runs-hard = Running, the motor draws { NUMBER($value, maximumFractionDigits: 1) } A, { NUMBER($share_percent, maximumFractionDigits: 0) } % of its stall current: something brakes it hard.
motor-runs-beyond-sheet = Running, the motor draws { NUMBER($value, maximumFractionDigits: 2) } A, which is not what the limits sheet says of its kind.
motor-runs-alone = Running steadily the motor draws { NUMBER($value, maximumFractionDigits: 2) } A.
motor-draws-nothing = With { NUMBER($volts, maximumFractionDigits: 1) } V on its terminals the motor draws nothing.
motor-draws-nothing-flat = With { NUMBER($volts, maximumFractionDigits: 1) } V on the motor the current channel shows nothing at all, not even noise: it may not have been connected.
motor-resistance-start = Winding and brushes have { NUMBER($value, maximumFractionDigits: 0) } milliohms: the start begins at { NUMBER($current_a, maximumFractionDigits: 1) } A.
motor-resistance-stall = Standing, the motor has { NUMBER($value, maximumFractionDigits: 0) } milliohms.
motor-start = The motor gathers speed with a time constant of { NUMBER($value, maximumFractionDigits: 3) } s; at speed its back-EMF is { NUMBER($back_emf_percent, maximumFractionDigits: 0) } % of the voltage.
motor-stall = For { NUMBER($value, maximumFractionDigits: 2) } s the motor draws { NUMBER($current_a, maximumFractionDigits: 1) } A and does not turn.
motor-stall-plain = The motor was switched on and did not turn.
motor-stall-current-only = For { NUMBER($value, maximumFractionDigits: 2) } s the motor draws { NUMBER($current_a, maximumFractionDigits: 1) } A and shows no sign of turning; its voltage was not recorded.
motor-stall-later = The motor turned at first; then it draws { NUMBER($current_a, maximumFractionDigits: 1) } A for { NUMBER($value, maximumFractionDigits: 2) } s and stands: it met an obstacle, or the end of what it moves.
motor-stall-later-plain = The motor turned and then stopped although it was switched on.
motor-stall-unclear = For { NUMBER($value, maximumFractionDigits: 2) } s the motor draws { NUMBER($current_a, maximumFractionDigits: 1) } A; this recording does not tell whether it turned.

# Speed and commutation
motor-speed = The motor turns at { NUMBER($value, maximumFractionDigits: 0) } rpm, by the ripple of its { $bars } bars.
motor-speed-low = The motor turns at only { NUMBER($value, maximumFractionDigits: 0) } rpm, by the ripple of its { $bars } bars.
commutation-rate = The commutation leaves a ripple of { NUMBER($value, maximumFractionDigits: 0) } Hz; with the number of bars in job.toml that is a speed.
commutation-gap = The current breaks down by { NUMBER($depth_percent, maximumFractionDigits: 0) } % { $value ->
    [one] once
   *[other] { $value } times
 } a turn, over { $turns } turns: a bar, its winding or a brush does not carry.
commutation-gap-plain = At the same place of every turn the motor's current breaks off.
commutation-gap-none = Over { NUMBER($turns, maximumFractionDigits: 0) } turns no bar leaves a gap of more than { $depth_percent } % in the current.
commutation-gap-not-tested = The ripple of the commutation is not clear enough to see a gap in it.
commutation-gap-unclear = The current breaks down { NUMBER($hz, maximumFractionDigits: 0) } times a second; whether the motor or a switched supply does that is not told by the recording.
commutation-uneven = Over { NUMBER($turns, maximumFractionDigits: 0) } turns the current swings by { NUMBER($swing_percent, maximumFractionDigits: 0) } % at { NUMBER($hz, maximumFractionDigits: 0) } Hz, once or twice a turn: one bar, its winding or a brush carries otherwise than the others. No load varies so much within a turn.
commutation-uneven-plain = At one place of each turn the motor's winding or brushes do not carry as they should.
commutation-uneven-unclear = The current swings by { NUMBER($swing_percent, maximumFractionDigits: 0) } % at { NUMBER($hz, maximumFractionDigits: 0) } Hz and its multiples; whether that is the ripple of a sound motor or one bar that carries badly is not told by the recording.
commutation-rate-unclear = The current swings { NUMBER($hz, maximumFractionDigits: 0) } times a second: the ripple of a motor at { NUMBER($rpm, maximumFractionDigits: 0) } rpm, or one bar of a quicker one that carries badly; the recording does not tell which.

# Load over the turn
load-even = Within a turn the load varies by no more than { NUMBER($value, maximumFractionDigits: 0) } % of its mean.
load-uneven = Once a turn the load rises and falls by { NUMBER($value, maximumFractionDigits: 0) } % of its mean: the motor, or what it drives, is tight at one place.
load-uneven-plain = Once in each turn the motor works against more resistance than in the rest of it.
load-uneven-unclear = Once a turn the load varies by { NUMBER($value, maximumFractionDigits: 0) } % of its mean: more than usual, and too little to call it a tight spot.
load-not-tested = A load that varies within the turn by up to { NUMBER($least_percent, maximumFractionDigits: 0) } % would not have been seen.

# Wiring
wiring-resistance = The wiring to the motor has { NUMBER($value, maximumFractionDigits: 0) } milliohms: { NUMBER($drop_v, maximumFractionDigits: 2) } V at { NUMBER($current_a, maximumFractionDigits: 1) } A.
wiring-resistance-high = The wiring to the motor has { NUMBER($value, maximumFractionDigits: 0) } milliohms, too many: { NUMBER($drop_v, maximumFractionDigits: 1) } V are lost at { NUMBER($current_a, maximumFractionDigits: 1) } A.
wiring-resistance-high-plain = On the way to the motor { NUMBER($drop_v, maximumFractionDigits: 1) } V of the supply are lost.

# Three phases
electrical-rate = The phase currents alternate at { NUMBER($value, maximumFractionDigits: 1) } Hz.
phases-alike = The phases carry alike: { NUMBER($u_a, maximumFractionDigits: 1) }, { NUMBER($v_a, maximumFractionDigits: 1) } and { NUMBER($w_a, maximumFractionDigits: 1) } A effective.
phases-unequal = The phases carry unequally: { NUMBER($u_a, maximumFractionDigits: 1) }, { NUMBER($v_a, maximumFractionDigits: 1) } and { NUMBER($w_a, maximumFractionDigits: 1) } A effective.
phase-missing = Phase { $missing } carries nothing; the other two carry the same current to and fro.
phases-unclear = The phase currents do not add up to nothing: a clamp is off, reversed or has another factor, so the phases cannot be compared.
link-ripple = The inverter's current varies by { NUMBER($value, maximumFractionDigits: 0) } % of its mean.
link-ripple-single-phase = The inverter's current falls to nothing { NUMBER($hz, maximumFractionDigits: 0) } times a second: it feeds only two wires of the motor.

# Kinds of finding
kind-running-current = Running current
kind-motor-resistance = Motor resistance
kind-motor-start = Run-up
kind-motor-stall = Stall
kind-motor-speed = Motor speed
kind-commutation-rate = Commutation rate
kind-commutation-gap = Gap in the commutation
kind-load-variation = Load over the turn
kind-wiring-resistance = Wiring resistance
kind-electrical-rate = Electrical rate
kind-phase-imbalance = Phase imbalance
kind-link-ripple = Ripple of the link current

# Channels, system
subject-motor-current = motor current
subject-motor-voltage = motor voltage
subject-phase-current-u = current of phase u
subject-phase-current-v = current of phase v
subject-phase-current-w = current of phase w
subject-link-current = link current
system-dc-motor = Electric motor

# Causes
cause-motor-tight = The motor turns too hard
cause-motor-tight-plain = The motor works against a resistance that should not be there: a worn bearing, a clogged pump or fan, a stiff drive.
cause-motor-tight-ruled-out = A stiff motor
cause-motor-jammed = The motor is jammed
cause-motor-jammed-plain = The motor gets its current and does not turn; it, or what it drives, is stuck.
cause-motor-jammed-ruled-out = A jammed motor
cause-commutator-fault = The motor's commutator or a brush is faulty
cause-commutator-fault-plain = At one place of each turn the motor gets no current; it may stand there one day and not start again.
cause-commutator-fault-ruled-out = A faulty commutator
cause-motor-wiring-resistance = The wiring to the motor resists
cause-motor-wiring-resistance-plain = A part of the voltage is lost on its way to the motor, in a plug, a relay, a joint or a ground.
cause-motor-wiring-resistance-ruled-out = Resistance in the wiring of the motor
cause-motor-open-circuit = The motor's circuit is open
cause-motor-open-circuit-plain = The motor is switched on and no current flows: its winding, brushes, plug or ground is interrupted.
cause-motor-open-circuit-ruled-out = An open circuit of the motor
cause-motor-phase-missing = A phase of the motor carries no current
cause-motor-phase-missing-plain = One of the three wires of the motor carries nothing: the motor trembles, gives little torque and heats up.
cause-motor-phase-missing-ruled-out = A missing phase

# Repairs and their proof
repair-motor-tight-1 = Compare with a known-good motor of the same kind, unloaded and loaded.
repair-motor-tight-2 = Uncouple what it drives: the current tells whether the motor or its load is stiff. Repair or replace that part.
proof-motor-tight = The same recording again: a smaller running current at a higher speed.
repair-motor-jammed-1 = Disconnect the supply, and find what holds the motor: turn it or what it drives by hand.
repair-motor-jammed-2 = Free or replace what is stuck; a motor that stood under current for long has a burnt winding and is replaced.
proof-motor-jammed = The same recording again: the current falls from its inrush to the running current.
repair-commutator-fault-1 = Check that the plug and the supply do not break off at the same rate.
repair-commutator-fault-2 = Replace the motor, or its brushes and armature where the maker offers them.
proof-commutator-fault = The same recording again: an even ripple without gaps over many turns.
repair-motor-wiring-resistance-1 = Measure the drop under load joint by joint: fuse, relay, plug, wire, ground.
repair-motor-wiring-resistance-2 = Repair the joint that drops; a relay with burnt contacts is replaced.
proof-motor-wiring-resistance = The same recording again: nearly all of the voltage reaches the motor.
repair-motor-open-circuit-1 = With the plug off measure the resistance of the winding, turning the shaft by hand: it must not break off.
repair-motor-open-circuit-2 = Repair plug, wire or ground, or replace the motor when its winding or brushes are interrupted.
proof-motor-open-circuit = The same recording again: current flows when the motor is switched on.
repair-motor-phase-missing-1 = Switch the inverter off and wait as the maker states; then measure each winding and each wire from plug to plug.
repair-motor-phase-missing-2 = Repair the wire or plug; if they are whole, the motor (open winding) or the inverter (dead half-bridge) is replaced.
proof-motor-phase-missing = The same recording again: three equal phase currents.

# Steps to take next
next-record-motor-start = Record current and voltage of the motor at its plug, from before it is switched on until a second after it runs, at 10,000 samples a second or more.
next-record-motor-supply = Record the voltage at the source (battery or fuse) together with voltage and current at the motor.
next-record-motor-known-good = Make the same recording of a known-good motor of the same kind, and put its current and speed into a limits sheet.
next-record-phases = Clamp all three phase wires of the motor with the same factor, and record them together while it runs.
next-measure-motor-winding = With the plug off measure the resistance of the winding, and make sure that the clamp was on the wire.
next-turn-motor-by-hand = With its supply disconnected turn the motor by hand through a whole turn and feel for a tight place; then turn what it drives on its own.
next-state-motor-bars = State the number of the commutator's bars (motor_bars in job.toml), so that one bar can be told from the ripple of all.

# Why a cause was not tested
why-motor-never-ran = no start was recorded that could be read until the motor runs steadily
why-motor-never-driven = the motor was never switched on
why-no-commutation-seen = the ripple of its commutation was not seen clearly enough
why-no-voltage-at-source = the voltage was not recorded at both ends of the wiring
why-phases-not-balanced = its phase currents were not recorded so that they can be compared

# What held the verdict open
reason-commutation-unclear = The current repeats with the turn, and it is not told whether a bar or the ripple of a sound motor does that.
reason-load-unclear = The load varies within the turn by more than usual, and it is not told whether that is a fault.

# Labour
labour-test-motor = Test of an electric motor by recording
labour-repair-motor-wiring = Repair the wiring of a motor
labour-replace-motor = Replace a motor

# Cautions
caution-motor-starts = Pumps and fans can start by themselves, also with the ignition off. Disconnect their supply before reaching in.
    .word = WARNING
    .title = Motor may start
    .source = { source-practice }
caution-hot-motor = A motor that has stood under current, its plug and its wires may be hot enough to burn.
    .word = CAUTION
    .title = Hot parts
    .source = { source-practice }
driver-motor-stops = What this motor drives can stop at any time. If it is a fuel pump, a cooling fan, the steering or the brakes, do not drive.
    .word = WARNING
    .title = Can stop without warning
    .source = { source-practice }
driver-motor-hot = A motor that turns hard or not at all gets hot and can burn. Switch it off, and do not try it again and again.
    .word = WARNING
    .title = Gets hot
    .source = { source-practice }

# Methods
method-motor-run = From the start the current falls exponentially (V = R i + k w, J dw/dt = k i - T); extrapolated to the switching on it gives the resistance. A stall stays at 82 % of the inrush or more for 0.2 s and shows neither ripple nor back-EMF.
method-motor-speed = Ripples a turn are the least common multiple of brushes (two) and bars. The strongest line may be a low order of the turn; then the line that it is a low order of counts. A gap must come at every turn and more slowly while the motor gathers speed, or raise the voltage of the source. Lines at the rate of the turn or twice it that no load can make, since the rotor's inertia divides a load's by sqrt(1 + (2 pi f tau)^2), are those of a bar; smaller ones once a turn give the variation of the load.
method-wiring-resistance = Resistance is the slope of the difference of the two voltages over the current where the current swings, else their quotient.
method-three-phase = Effective values of whole periods; imbalance is the largest deviation from their mean. A phase is missing only where the other two carry the same current to and fro (Kirchhoff).

# Reasons of the cause sheet
sheet-motor-held-up = while it runs, the motor draws more than half of what it draws standing: something brakes it
sheet-motor-beyond-known-good = the motor draws another current than a known-good of its kind
sheet-motor-raised = the motor draws more of its stall current than usual
sheet-motor-stalls-later = the motor turned, and then the current rose to its inrush and shows no commutation: it met an obstacle, or the end of what it moves
sheet-motor-runs-freely = the motor runs at a small part of its stall current
sheet-motor-slow = the motor turns more slowly than its sheet says
sheet-motor-stands-current = the current stays at its inrush and shows no commutation; without its voltage a driver that limits the current is not excluded
sheet-motor-stands = the current stays at its inrush and shows no commutation: the motor is driven and does not turn
sheet-motor-turned = the motor turned
sheet-bar-missing = at the same place of every turn the current breaks down: a bar, its winding or a brush does not carry
sheet-bars-whole = every bar carries alike over many turns
sheet-motor-tight-spot = once a turn the motor works against a heavier load: it is tight at one place
sheet-motor-feed-drops = between the source and the motor the voltage drops with the current, and by too much
sheet-motor-feed-holds = nearly all of the source's voltage reached the motor
sheet-motor-draws-nothing = the motor has its voltage and draws nothing
sheet-motor-draws = the motor drew current
sheet-phase-carries-nothing = one phase carries nothing, and the other two carry the same current to and fro
sheet-link-pulses = the inverter's current falls to nothing twice a period, as single-phase power does
sheet-phases-differ = the phases carry unequal currents
sheet-phases-alike = all three phases carry alike
sheet-link-even = the inverter's current holds still, as three even phases let it
sheet-motor-supply = a motor at too low a voltage is slow and draws another current

# Sources of the limits, letter by letter as limits.toml has them.
sheet-source-motor-half-stall = judgement: a motor gives its highest power at half of its stall current (textbook: V = R i + k w), and none is made to run above it; between the two it counts as raised
sheet-source-motor-free = judgement: without its load a motor has only its own friction to turn against
sheet-source-motor-connection = common practice, no source: a drop of more than 0.5 V over one connection under load is usually a fault
sheet-source-motor-standing = judgement: a motor that stands draws two to four times what it draws running
sheet-source-motor-phases = judgement: a controller keeps the currents of a whole motor alike; clamps differ by 1 to 3 %
sheet-source-motor-link = judgement: single-phase power goes to nothing twice a period, and its first line is 133 % (a rectified sine) to 200 % (its square) of the mean peak to peak; that of three even phases keeps below 20 %
sheet-source-motor-least = judgement: a start and some tenths of a second of steady running
sheet-source-motor-load = judgement: a load that is heavier by more than this at one place of the turn is felt by hand; below the lower value couplings and bearings explain it
sheet-source-motor-largest = judgement: starters are the largest motors with brushes
sheet-source-motor-batteries = batteries of electric vehicles have up to 900 V; common practice, no source
