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

subject-whole = the whole recording

# units
unit-rpm = rpm

# reasons
# Why a verdict went no further, or what it rests on.
reason-margin = This cause is well ahead of every other one.
reason-second-fault = There is a second fault with evidence of its own. The technician's report names it.
reason-margin-too-small = Two causes fit the recording about equally well.
reason-weight-too-small = The evidence is not strong enough to be certain.
reason-required-missing = To be sure, more must be recorded.
reason-no-evidence = The recording shows nothing that tells the causes apart.
reason-at-limit = One value lies so close to its limit that it could be on either side.
reason-healthy = All that was recorded is in order.
reason-roles-unsure = It is not certain what each channel of the recording measured.
reason-nothing-read = No recording could be read.
reason-repair-proven = The fault seen before the repair is gone in the recording after it.
reason-repair-not-proven = The recording after the repair still shows the fault, or does not show the same operation.
reason-repair-unread = The recording made after the repair could not be read, so nothing shows whether the fault is still there.
next-mend-recording = Put right what the file list says of the recording made after the repair, and do the job again.
reason-check-did-not-run = A check that could have changed this did not run.
reason-not-calibrated = The scale of the values is not known. Their shape alone is no proof.
reason-healthy-in-part = All that was tested is in order. Not all of it could be tested.
reason-not-all-tested = What was recorded is in order. It does not test all that must be tested.
reason-suspect-not-tested = Something points to a part that no recording has tested.
reason-unit-unknown = The unit named in job.toml is not known, so there are no limits for it.
reason-time-unknown = The time unit of a recording is not known, so nothing was measured in it.
reason-no-system = Nothing in the recordings tells which system is to be examined.
reason-explained-elsewhere = A fault found elsewhere in the vehicle explains it as well; that one is put right first.

# next
# Steps that the program asks for whatever the system.

next-run-checks-again = Do the job again, so that the checks run that did not; the technician's report names them.
next-run-checks-again-plain = Run the checks that did not run.
next-state-time-unit = Write the unit of the recording's time into job.toml (time_unit = "ms", "s" or another).
next-state-time-unit-plain = Complete the notes on the recordings.
next-state-systems = Write into job.toml what is to be examined ([vehicle] systems), or what each channel measured.
next-state-systems-plain = Complete the notes on the recordings.
next-state-unit = Correct the name of the unit in job.toml; the message beside it lists those that are known.
next-state-unit-plain = Complete the notes on the recordings.

# why
# Why a cause was not tested.

why-check-did-not-run = the check did not run
why-not-recorded = not recorded
why-recording-not-fit = the recording is not fit for it
why-not-readable = the signal could not be read
why-not-shown-in-any-recording = no recording could have shown it

next-record-again = Make the same recording again, with every probe checked first.
next-state-channels = Write into job.toml what each channel measured; a filled-in file lies beside this report.
next-state-channels-plain = Complete the notes on the recordings.

# cautions
# The signal word follows the definitions of ISO 3864-2 and ANSI Z535.4: DANGER will cause death or serious injury,
# WARNING could, CAUTION could cause minor or moderate injury. NOTICE, about property, is of ANSI Z535.4 alone. Neither
# standard was opened.
# `.word` is the machine's word and stays in English; signal-word-* is what is printed. `.source` is printed too.
source-practice = common practice, no published source

signal-word-danger = DANGER
signal-word-warning = WARNING
signal-word-caution = CAUTION
signal-word-notice = NOTICE
driver-ask = Ask the workshop before you drive the vehicle or leave it running.
    .word = CAUTION
    .title = Before you drive
    .source = { source-practice }

# sheets
# The reasons that the built-in cause sheets give. The English text must be the sheet's own, letter by letter: by it the
# translation is found. A shop's own sheet speaks for itself.
sheet-judgement = judgement

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
report-draft = DRAFT: no person has checked it yet
report-draft-short = DRAFT
report-reviewed = Reviewed by { $name } on { $time }
report-review-covers = The review covers the finding, the pictures and the prices of this version.
report-review-lost = { $name } reviewed an earlier version on { $time }. It has changed since, so that review no longer counts.
report-examined-by = Examined by
report-date = Date
report-job = Job
report-workshop = Workshop
report-vehicle = Vehicle
report-vin = VIN
report-owner = Owner
report-client = Called by
report-plate = Plate
report-odometer = Odometer
report-complaint = Complaint
report-registration = Registration
report-no-shop = Name of the workshop
report-cut-short = (in full in the technician's report)
report-notes = Complaint in full

state-established = Established
state-probable = Probable
state-open = Not decided
state-nothing-found = No fault found
state-nothing-found-in-part = No fault in what was tested
state-mended = Repair confirmed
state-not-mended = Repair not confirmed

report-answer = What failed
report-answer-finding = Result
line-begun = under way
report-answer-repair = What the repair did
report-answer-open = The recordings do not yet show what failed
report-answer-open-plain = More than one cause is still possible. To open or replace a part now would be a guess. The steps below will decide it.
report-answer-nothing = The recordings show no fault
report-answer-nothing-plain = All that was measured worked as it should. A fault that did not show up at that time cannot be seen.
report-answer-nothing-in-part = No fault in what was tested
report-answer-nothing-in-part-plain = What was tested worked as it should. Not all of it could be tested. The steps below test the rest.
report-answer-mended = The repair worked
report-answer-mended-plain = What was wrong before the repair is now as it should be.
report-answer-not-mended = The repair is not confirmed
report-answer-not-mended-plain = The recording after the repair does not show that the fault is gone.
report-probable-plain = This is the likely cause, but it is not yet certain. Nothing should be opened or replaced before the steps below have made it so.
report-driver = For the driver
report-sure-established = How sure: very. The recordings fit this cause, and no other cause that was tested.
report-sure-probable = How sure: likely, not certain.

report-how-sure-line = { $words } evidence: { $db } decibans, { $margin } ahead of the next cause.
report-how-sure-line-alone = { $words } evidence: { $db } decibans, and no other cause explains the same findings.
report-scale = A deciban measures how much the evidence weighs: every 10 make the findings ten times likelier under this cause than without it. Words after Kass and Raftery (1995): below 3 to 1 not worth more than a mention, from 3 to 1 positive, from 20 to 1 strong, from 150 to 1 very strong.
report-scale-alt = Weight of evidence in decibans: { $list }.
report-weight = { $db ->
    [one] { $db } deciban
   *[other] { $db } decibans
 }
report-scale-item = { $cause } { $db }
report-band-none = Nothing that was measured speaks for or against it
report-band-against = against it
report-band-mention = barely
report-band-positive = positive
report-band-strong = strong
report-band-very-strong = very strong
report-word-against = No
report-word-mention = Slight
report-word-positive = Positive
report-word-strong = Strong
report-word-very-strong = Very strong
report-decibans = decibans
report-why = How we know
report-why-open = Why it is not decided yet
report-cleared-heading = Tested, in order
report-cleared = Ruled out: { $list }.
report-untested = Still open: { $list }.

report-known = What is known
report-unknown = What is not known
report-unknown-causes = Still possible: { $list }.
report-not-because = { $cause } ({ $reason }).
report-not-tested = Not tested
report-also-examined = Also examined
report-not-run = { $count ->
    [one] One check did not run. What it would have shown is not tested.
   *[other] { $count } checks did not run. What they would have shown is not tested.
 }
report-record-limits = Limits
report-limits-of-unit = { $system }: limits of { $limits }, the unit that was named.
report-limits-of-system = { $system }: no unit was named, so the general limits of the system count.
report-do = What to do
report-do-not-open = Do not open or replace anything yet.
report-do-nothing = Nothing needs to be opened or replaced.
report-do-drive-again = The vehicle may be driven again once the workshop has tried it on the road.
report-next = What to record next
report-next-more = { $count ->
    [one] One more step; see below.
   *[other] { $count } more steps; see below.
 }
report-clear-first = First put this right and record again, since it can explain the rest: { $cause }.
report-next-nothing = If the trouble comes back, make the same recording while it is there.
report-cost-next = The next recording costs { $rate } an hour, net.
report-quantity = Quantity
report-rate-net = Rate, net
report-amount-net = Amount, net
line-held = on hold
report-total = Total { $state }


report-evidence = The pictures
report-evidence-whole = Whole recording
report-evidence-speed = Speeds
report-evidence-detail = Detail, { $from } s to { $to } s
report-evidence-time = Time (s)
report-evidence-good = known good
report-evidence-good-curve = known good: the curve of { $vehicles } healthy vehicles, 5 to 95 %
report-evidence-at-rest = at rest
report-evidence-no-speed = no speed { $phase }
report-evidence-alt = { $count ->
    [one] One trace
   *[other] { $count } traces, one above the other,
 } of { $file } over { $duration } s: { $rows }. { $marks }
report-evidence-alt-row = { $label } between { $low } and { $high } { $unit }
report-evidence-alt-mark = Marked from { $from } s to { $to } s: { $label }.
report-evidence-caption-normal = Nothing out of the ordinary was recorded.
report-evidence-caption-compared = Left: before the repair. Right: after it, on the same scales.
report-photo-alt = Photo: { $caption }

report-before-after = Before and after
report-before = Before
report-after = After
report-outcome = Outcome
report-not-seen = not seen any more
report-observation = Observation
outcome-mended = Repaired
outcome-unchanged = As before
outcome-worse = Worse
outcome-not-comparable = Cannot be compared

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

report-cautions-note = Signal words as ISO 3864-2 and ANSI Z535.4 define them: DANGER will cause death or serious injury if it is not avoided, WARNING could, CAUTION could cause minor or moderate injury. NOTICE, of ANSI Z535.4 alone, is about property.
report-source-shop = from the workshop's own sheet
report-cautions = Safety for those who do the work
report-repair = The repair, step by step
report-steps = The work, in its order
report-decide = You decide on each step by itself, on the last page.
report-stage-diagnosis = Diagnosis
report-stage-first-step = First step, nothing is opened
report-stage-teardown = Open the unit and close it again
report-stage-repair = Repair and proof
report-proof = Proof

report-estimate = Prices
report-estimate-note = Labour only. The workshop quotes parts and materials.
report-estimate-no-tax = All prices are net: the workshop has stated no tax.
report-work = Work
report-line-state = State
line-offered = offered
line-declined = declined
line-authorised = authorised
line-done = done
line-billed = done and billed
report-estimate-example = The hours come from the built-in example catalogue, which is invented: they are no time guide.
report-total-net = Net
report-total-tax = Tax
report-total-tax-rate = Tax { $rate } %
report-total-gross = With tax
report-sum-net = { $sum } net
report-sum-gross = { $sum } with tax
report-agreed = What was agreed and done
report-agreed-authorised = Authorised by { $by } on { $time }, { $how }, up to { $limit }.
report-agreed-authorised-unlimited = Authorised by { $by } on { $time }, { $how }.
report-agreed-declined = Declined by { $by } on { $time }, { $how }.
report-agreed-done = Done by { $by }, recorded on { $time }.
report-agreed-done-plain = Done.
report-agreed-note = Note: { $note }
consent-signed = in writing
consent-telephone = by telephone
consent-message = by message
consent-screen = on screen
report-hold-beyond-limit = On hold: with this the work comes to { $needed }, and { $limit } is authorised.
report-hold-not-authorised = On hold: done, but not authorised.
report-hold-number-taken = On hold: another job has the same number ({ $jobs }).
report-declined-open = The unit is open. It is closed again as it is, or stays open until you decide.
report-authorise = Authorisation

report-auth-why = What is opened, and why
report-auth-destroyed = Parts used up by opening
report-auth-undo = Can it be undone?
report-auth-undo-text = The unit can be closed again, but not always as it was: a failed part may not work again once it was moved.
report-auth-time = Longest time to reassemble
report-auth-storage = Storage of the opened vehicle
report-auth-limit-percent = { $amount } (the estimate and { $percent } %)
report-auth-how = How it is authorised
report-auth-how-signed = signed here
report-auth-how-telephone = by telephone
report-auth-how-message = by e-mail or message
report-auth-legal-source = Supplied by the workshop. Source: { $source }; as of { $day }.
report-auth-decline = If you decline
report-auth-decline-text = The vehicle stays as it is and the fault remains. The findings of this report are yours to take elsewhere.
report-auth-limit = Not to exceed
report-auth-parts = Replaced parts
report-auth-parts-return = return to me
report-auth-parts-keep = may be disposed of
report-auth-yes = I authorise this
report-auth-no = I decline this
report-auth-customer = Owner's name
report-auth-signature = Signature
report-auth-date = Date and time
report-auth-shop = For the workshop
report-auth-legal = Terms of the workshop
report-auth-deferral = This report is technical evidence. The forms for estimates and authorisations that local law asks for come first, and so does work by licensed persons where it is required. An unsigned report authorises nothing.

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
report-record-role = Interpreted as
report-record-how = How known
report-record-calibration = Calibration
role-by-unknown = not known
role-by-job-file = job.toml
role-by-guess = recognised with a certainty of { $percent } %: { $reason }
report-calibrated = recorded × { $scale } + { $offset } gives { $unit }
report-calibrated-scale = recorded × { $scale } gives { $unit }
report-not-calibrated = not calibrated
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
report-record-reason = Reason
report-record-weights-note = In decibans. Weights called judgement are experts' estimates without a data basis, and are kept small.
report-record-not-run = Checks that did not run
report-record-check = Check
report-record-plugins = Checks that ran
report-record-version = Version
report-record-problems = Peculiarities of the files
report-record-place = Place
report-record-text = Characters that could not be printed
report-record-text-note = These texts contain characters that the report's font does not have; each is printed as □.

# The technician's report.
report-tech-explanations = Every cause, with what speaks for and against it
report-tech-for = For
report-tech-against = Against
report-tech-is-verdict = the verdict
report-tech-ruled-out = ruled out
report-tech-explained-away = what speaks for it counts for a narrower cause
report-tech-missing = required and not seen: { $list }
report-tech-blocked = held back by: { $list }
report-tech-not-recorded = not recorded: { $list }
report-tech-not-seen = rests on what was not seen
report-tech-would-change = Would become
report-tech-if-seen = If it were seen that
report-tech-would-rule-out = the cause would be ruled out
report-tech-group = { $count } times, all within { $range }
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
order-correction-authorised = Authorised: { $work }.
order-correction-done = Done: { $work }.
order-correction-offered = Offered: { $work }.
order-correction-declined = Declined: { $work }.
order-correction-none = No work done or authorised.
order-correction-proven = The recording after the repair shows that the fault is gone.
order-correction-not-proven = The recording after the repair does not show that the fault is gone.
order-draft = DRAFT for the billing system, made from the diagnosis. Not an invoice issued.
