kind-bit-rate = Bit rate
kind-recessive-high = CAN high, recessive
kind-recessive-low = CAN low, recessive
kind-dominant-high = CAN high, dominant
kind-dominant-low = CAN low, dominant
kind-differential-dominant = Dominant differential voltage
kind-symmetry = Symmetry of the levels
kind-common-mode = Common-mode voltage
kind-common-mode-offset = Common-mode offset of one node
kind-wire-condition = Condition of the wires
kind-termination = Termination
kind-ringing = Ringing
kind-frames = Frames
kind-frame-errors = Spoiled frames
kind-identifiers = Identifiers
kind-bus-load = Bus load
kind-node-period = Period of an identifier
kind-node-gap = Silence of an identifier
kind-node-flood = Flood of an identifier

bit-rate = The bus runs at { $value } kbit/s ({ $samples_a_bit } samples a bit).
bit-rate-fd = The bus runs at { $value } kbit/s and switches to { $data_phase } kbit/s in the data phase (CAN FD).
bit-rate-differs = The bus runs at { $value } kbit/s, not at the { $stated } kbit/s that were stated.
sampling-too-slow = With { $sample_rate } kS/s the recording is too slow to read frames; at least { $needed } kS/s are needed.
bit-rate-no-traffic = The recording shows too few bits to find a bit rate.
bit-rate-no-grid = The edges on the lines are those of no frame that could be read.
can-level = CAN { $line } lies at { $value } V in { $state } state.
differential-dominant = In dominant state the lines are { $value } V apart.
symmetry = Together the lines lie at { $value } % of their recessive sum while dominant.
common-mode = The lines lie about { $value } V on average of both.
common-mode-offset = The node that sends { $identifier } lies { $value } V off the others.
wires-sound = Every bit parts both lines and lets them come together again.
wires-reversed = In dominant state CAN low lies above CAN high: lines or probes are exchanged.
wires-reversed-partly = { $share } % of the dominant bits put CAN low above CAN high: a node is connected the wrong way round.
wire-at-ground = CAN { $line } lies at ground ({ $value } V).
wire-at-supply = CAN { $line } lies at the supply ({ $value } V).
wires-together = Nodes try to send, but the two lines stay together.
wire-open = { $pulses } bits moved both lines alike: CAN { $line } is interrupted between the nodes.
wire-open-plain = Some messages arrive over one of the two wires only.
wires-stuck-dominant = The bus is held dominant without a pause.
wires-probe-off = The channel of CAN { $line } shows nothing while the other line works: its probe has no contact.
wires-quiet = Nothing moves on the lines by more than { $detectable } V: the bus is asleep, or nobody sends.
wires-quiet-at-ground = Both lines lie at ground without moving by more than { $detectable } V, although the vehicle is awake.
wires-low-speed-bus = CAN low rests near 5 V and CAN high near ground, and they cross in dominant state: this is a fault-tolerant low-speed bus (ISO 11898-3), whose levels are not judged here.
wires-single-wire-bus = One wire swings between ground and battery voltage: this is a LIN bus or a diagnostic line, and no CAN pair.
wires-unclear = What the lines do fits no single condition.
termination = The dominant levels of { $senders } identifiers suggest { $value } ohm between the lines.
termination-high = The dominant levels of { $senders } identifiers suggest { $value } ohm between the lines: less load than two terminators give.
termination-high-plain = The signals on the data line are larger than its two end resistors let them be.
termination-low = The dominant levels of { $senders } identifiers suggest { $value } ohm between the lines: more load than two terminators give.
termination-unclear = The dominant levels of { $senders } identifiers suggest { $value } ohm between the lines, which is too uncertain to tell.
termination-at-least = The bus discharges so slowly that at least { $value } ohm lie between the lines: no terminator is connected.
ringing = After a recessive edge the lines swing { $value } % below rest and settle within { $settling_ns } ns.
frames = { $value } frames were read with the right check, { $fd } of them CAN FD; { $overload } overload frames.
frames-logged = The log holds { $value } frames.
frame-errors-none = None of { $frames } frames was spoiled.
frame-errors-data-phase = { NUMBER($unread, maximumFractionDigits: 0) } frames of CAN FD switch to a rate that { NUMBER($sample_rate, maximumFractionDigits: 0) } kS/s do not carry: they are counted and not read. { NUMBER($needed, maximumFractionDigits: 0) } kS/s read any data phase.
frame-errors = { $value } frames were spoiled ({ $share } %), most of them in the { $field ->
    [arbitration] arbitration field
    [control] control field
    [data] data field
    [crc] check sum (CRC)
    [acknowledge] acknowledge field
   *[end-of-frame] end of frame
} ({ $error ->
    [error-flag] a node objects with an error flag
    [stuff] stuff rule broken
    [crc] check sum wrong
    [form] fixed bit wrong
   *[acknowledge] nobody acknowledges
}){ $of_identifier ->
    [0] {""}
   *[other] {", "}most often { $identifier }
}.
frame-errors-unacknowledged = { $value } frames were spoiled ({ $share } %), most because nobody acknowledged{ $of_identifier ->
    [0] {""}
   *[other] {", "}most often { $identifier }
}.
frame-errors-coarse = { $value } frames could not be read; with { $samples_a_bit } samples a bit that may be the recording's fault.
frame-errors-noisy = { $value } frames could not be read; the lines were recorded with so much noise that this may be the recording's fault.
frame-errors-of = { $identifier } was spoiled { $value } times, mostly in the { $field ->
    [arbitration] arbitration field
    [control] control field
    [data] data field
    [crc] check sum (CRC)
    [acknowledge] acknowledge field
   *[end-of-frame] end of frame
} from bit { $bit } on ({ $error ->
    [error-flag] a node objects with an error flag
    [stuff] stuff rule broken
    [crc] check sum wrong
    [form] fixed bit wrong
   *[acknowledge] nobody acknowledges
}).
identifiers = { $value } identifiers were seen.
identifiers-silent = { $value } identifiers were seen; { $missing } that must be on this bus never came: { $silent }.
bus-load = The bus was taken for { $value } % of the time; the longest pause was { $longest_pause_ms } ms.
node-period = Comes every { $value } ms ({ $frames } frames).
node-gap = Fell silent for { $value } s, which is { $periods } of its periods, while others went on.
node-stopped = Stopped { $value } s before the end of the log, which is { $periods } of its periods, while others went on.
node-stopped-as-others = Stopped { $value } s before the end of the log, as several others did at other instants: nodes shut down.
node-flood = Was sent { $value } times a second for { $duration_s } s and took { $share } % of all frames.

cause-line-open = A bus line is interrupted
cause-line-open-plain = One of the two wires over which the control units talk to each other is broken between them.
cause-line-open-ruled-out = An interrupted bus line
repair-line-open-1 = Follow the line from plug to plug with the battery disconnected and find the place between the nodes that still hear each other and those that do not.
repair-line-open-2 = Repair the wire or the plug; keep the pair twisted up to the joint.
proof-line-open = The same recording again: every bit parts both lines, and no frame is spoiled.

cause-line-short-to-ground = A bus line touches ground
cause-line-short-to-ground-plain = One of the two wires over which the control units talk to each other touches the vehicle's body.
cause-line-short-to-ground-ruled-out = A bus line at ground
repair-line-short-to-ground-1 = Disconnect the nodes one by one while recording; the line comes free with the faulty node or with its branch.
repair-line-short-to-ground-2 = Repair the chafed wire or replace the node that holds the line.
proof-line-short-to-ground = The same recording again: both lines rest between 2 and 3 V.

cause-line-short-to-supply = A bus line touches a supply
cause-line-short-to-supply-plain = One of the two wires over which the control units talk to each other touches a wire that carries battery voltage.
cause-line-short-to-supply-ruled-out = A bus line at a supply
repair-line-short-to-supply-1 = Disconnect the nodes one by one while recording; the line comes free with the faulty node or with its branch.
repair-line-short-to-supply-2 = Repair the wire, and check the nodes: their bus inputs stood at a voltage that not all of them survive.
proof-line-short-to-supply = The same recording again: both lines rest between 2 and 3 V.

cause-lines-shorted-together = The bus lines touch each other
cause-lines-shorted-together-plain = The two wires over which the control units talk to each other touch, so that none can be heard.
cause-lines-shorted-together-ruled-out = Bus lines that touch each other
repair-lines-shorted-together-1 = With the battery disconnected measure the resistance between the lines; disconnect nodes and branches one by one until it rises.
repair-lines-shorted-together-2 = Repair the wire or the plug, or replace the node that joins the lines.
proof-lines-shorted-together = The same recording again: the lines part by about 2 V in every dominant bit.

cause-lines-swapped = The bus lines are exchanged
cause-lines-swapped-plain = The two wires over which the control units talk to each other are connected the wrong way round.
cause-lines-swapped-ruled-out = Exchanged bus lines
repair-lines-swapped-1 = Check first that the probes are on the right lines.
repair-lines-swapped-2 = Look at what was wired last, a retrofit or a repaired plug, and exchange its two wires.
proof-lines-swapped = The same recording again: CAN high lies above CAN low in every dominant bit.

cause-termination-missing = A terminating resistor is missing
cause-termination-missing-plain = A resistor that must close the end of the data line is not connected, so that messages are disturbed.
cause-termination-missing-ruled-out = A missing terminating resistor
repair-termination-missing-1 = With the battery disconnected measure the resistance between the lines: two terminators of 120 ohm give 60 ohm, one gives 120 ohm.
repair-termination-missing-2 = Find the end of the line that has no terminator, and restore its plug, node or resistor.
proof-termination-missing = The same recording again: dominant levels of a bus with two terminators.

cause-termination-extra = There is one terminating resistor too many
cause-termination-extra-plain = A resistor loads the data line that does not belong there, so that messages become weak.
cause-termination-extra-ruled-out = One terminating resistor too many
repair-termination-extra-1 = With the battery disconnected measure the resistance between the lines: below 54 ohm there is one resistor too many.
repair-termination-extra-2 = Look at retrofitted or exchanged nodes: one with a terminator inside may stand where one without belongs.
proof-termination-extra = The same recording again: dominant levels of a bus with two terminators.

cause-ground-offset = A node's ground lies off that of the others
cause-ground-offset-plain = A control unit has a bad ground connection, so that the others hear it badly.
cause-ground-offset-ruled-out = A shifted ground
repair-ground-offset-1 = Check the recorder's own ground first; then measure the voltage between the node's ground and the battery's negative pole while its consumers are on.
repair-ground-offset-2 = Clean and tighten the ground joint, or repair its wire.
proof-ground-offset = The same recording again: all senders lie at one level.

cause-node-silent = A control unit falls silent
cause-node-silent-plain = A control unit stops sending its messages although the others go on.
cause-node-silent-ruled-out = A silent control unit
repair-node-silent-1 = Find out from the wiring diagram which node sends the missing identifiers.
repair-node-silent-2 = Measure its supply and ground under load while it falls silent, then its plug and branch of the bus.
repair-node-silent-3 = Replace the node only when supply, ground and bus are right at its own plug.
proof-node-silent = The same log again, as long or longer: no identifier falls silent.

cause-node-disturbing = A control unit disturbs the bus
cause-node-disturbing-plain = One control unit spoils the messages of the others or crowds them out.
cause-node-disturbing-ruled-out = A control unit that disturbs the bus
repair-node-disturbing-1 = Disconnect the nodes one by one while recording; with the right one the errors end.
repair-node-disturbing-2 = Check that node's bit rate, software, supply and plug, and replace it when they are right.
proof-node-disturbing = The same recording again: no frame is spoiled.

next-record-can-lines = Record CAN high and CAN low together against ground, with at least eight samples a bit (4 MS/s for 500 kbit/s), ignition on.
next-record-can-faster = Record CAN high and CAN low together with at least eight samples to a bit of the data phase (40 MS/s for 5 Mbit/s).
next-record-can-probes = Check that each probe has contact and is on the right line, and record again.
next-log-can-bus = Log the frames of this bus for at least a minute, and state its bit rate and the identifiers to be expected.
next-disconnect-can-nodes = Disconnect the nodes of this bus one by one and record after each.
next-measure-can-resistance = With the battery disconnected for some minutes, measure the resistance between the two lines, and of each to ground and to the supply.
next-measure-can-ground = Measure the voltage between the node's ground and the battery's negative pole while its consumers are on.
next-measure-can-node-supply = Record supply and ground of the silent node at its own plug together with the bus.

reason-can-errors-unclear = A frame was spoiled or could not be read; one alone tells nothing.
reason-can-too-slow = The recording has too few samples a bit to read any frame.
reason-can-data-phase = The data phase of CAN FD frames is quicker than the recording shows, so that an error in them would not have been seen.
reason-can-other-bus = The wires are those of another kind of bus, whose faults are not judged here.
reason-can-probe-off = One of the two probes had no contact.
reason-can-several-stop = Several identifiers stopped one after the other, as when the ignition is switched off.
why-no-can-traffic = no frames on the lines
why-too-few-senders = too few senders
why-no-bus-log = no log of the bus

labour-measure-can-bus = Measure the CAN bus
labour-repair-can-wiring = Repair the wiring of the CAN bus
labour-repair-can-node = Repair or replace a node of the CAN bus

system-can-bus = CAN data bus
subject-can-high = CAN high
subject-can-low = CAN low
subject-frame-identifier = identifiers of the log
subject-frame-length = lengths of the log's frames
subject-frame-data-n = data of the log's frames, word { $n }
method-can-lines = Edges of the differential at half its swing, with hysteresis, are laid on the grid of bits that fits them best; frames are read bit by bit with stuff bits, CRC, acknowledgement and end. Levels are medians of samples away from edges. The termination is estimated from the dominant levels of nodes that send alone, with the spread that data sheets allow their drivers as its uncertainty. The condition of the wires is told by what each line does in dominant and in recessive bits.
method-can-log = The load counts the bits of every frame with its stuff bits. The period of an identifier is the median of its intervals where most of them agree; a silence counts from five periods on while other identifiers go on. A flood is an identifier that comes many times more often than it did.

# sheets

sheet-can-one-wire-bits = bits of some nodes move both lines alike: they arrive over one wire only
sheet-can-lines-move-apart = every bit parts the lines; the break of a branch whose node sends nothing is not seen
sheet-can-open-source = judgement; workshop manual Subaru Outback 2013: lines may be open though the loop measures 56 to 64 ohm
sheet-can-other-wire-fault = another condition of the wires explains what is seen
sheet-can-at-ground = both lines lie at ground in recessive state while nodes drive them
sheet-can-short-source = judgement; data sheet TJA1055 table 4 lists the condition
sheet-can-quiet-at-ground = both lines lie at ground without a movement although the vehicle is awake
sheet-can-levels-right = a shorted line cannot show recessive and dominant levels of a sound bus
sheet-can-at-supply = both lines lie above any level that a node can give them
sheet-can-held-together = nodes try to send, and the lines cannot be parted
sheet-can-parted = the lines are parted by every bit
sheet-can-one-reversed = some bits drive CAN low above CAN high, others the right way round: one node is connected the wrong way
sheet-can-all-reversed = all bits drive CAN low above CAN high: lines or probes are exchanged at the recorder's place
sheet-can-right-way-round = no bit drives CAN low above CAN high
sheet-can-levels-high = the nodes drive the lines farther apart than they can against two terminators
sheet-can-falls-slowly = the bus discharges far too slowly for any terminator
sheet-can-load-right = the dominant levels are those of a bus with both terminators
sheet-can-load-more = the nodes are loaded by more than two terminators
sheet-can-levels-low = the nodes cannot drive the lines as far apart as they can against two terminators
sheet-can-load-less = the nodes are loaded by less than two terminators
sheet-can-one-node-off = both lines of one sender lie off by the same voltage
sheet-can-all-off = both lines lie off half the supply by the same voltage in every state
sheet-can-nodes-agree = all senders lie at one level
sheet-can-wires-move-levels = another condition of the wires moves the levels
sheet-can-falls-silent = a node that sends by the clock falls silent while the others go on
sheet-can-stops = a node that sends by the clock stops while the others go on
sheet-can-never-seen = identifiers that must be on this bus never come
sheet-can-unacknowledged = a node sends and nobody acknowledges: the others are off the bus
sheet-can-periods-kept = every identifier that has a period kept it to the end
sheet-can-cut-off = the condition of the wires cuts nodes off
sheet-can-spoils-frames = frames of a sound pair of wires are spoiled
sheet-can-floods = one identifier crowds the others out
sheet-can-holds-dominant = the bus is driven without end
sheet-can-no-errors = no frame was spoiled
sheet-can-no-flood = no identifier crowds the others out
sheet-can-wires-spoil = the condition of the wires spoils frames
sheet-can-termination-spoils = a wrong termination spoils frames
sheet-can-ground-spoils = a node whose ground lies off spoils frames without a fault of its own
sheet-engine-ground = a bad engine ground lifts the control units on the engine

# Sources of the limits, letter by letter as limits.toml has them.
sheet-source-can-recessive = data sheets TCAN1042-Q1 (SLLSES9C) and TCAN1044-Q1 (SLLSF17): recessive output without load, as ISO 11898-2 has it
sheet-source-can-dominant = data sheets TCAN1042-Q1 (SLLSES9C) and TCAN1044-Q1 (SLLSF17): dominant output, as ISO 11898-2 has it
sheet-source-can-differential = data sheets TCAN1042-Q1 (SLLSES9C) and TCAN1044-Q1 (SLLSF17): dominant differential output with 45 to 70 ohm
sheet-source-can-symmetry = data sheet TCAN1042-Q1 (SLLSES9C): sum of both lines while dominant 0.9 to 1.1 of the supply, which both lines share in recessive state
sheet-source-can-common-mode = data sheets TCAN1042-Q1 (SLLSES9C) and TCAN1044-Q1 (SLLSF17): both lines recessive between 2 and 3 V
sheet-source-can-offset = twice the symmetry that data sheets allow a driver (TCAN1042-Q1: 0.9 to 1.1 of the supply, 0.25 V at 5 V); the factor is common practice
sheet-source-can-termination = workshop manuals of Lexus GS 2007 and RX400h: loop resistance of a sound bus; the estimate from levels has its own uncertainty
sheet-source-can-frame-errors = common practice, no source: a sound bus shows no error frames
sheet-source-can-node-gap = common practice, no source: receivers wait for several periods, and a node that restarts is away for up to 0.3 s
sheet-source-can-least = reasoning: a frame lasts a fraction of a millisecond; how many were recorded is judged by the measurements themselves

# Cautions
driver-data-line = Displays, lights, steering help and brake help use this data line, and can fail on the road. Drive only if the workshop has agreed. Stop where it is safe if a red lamp lights.
    .word = WARNING
    .title = Functions can fail
    .source = { source-practice }
