# Sentences of the program itself: terminal, log, status page, problems.txt. The report's lie in report-templates.

# Verdict in one sentence.
console-verdict-mended = repaired: { $cause }; the recording after the repair shows that the fault is gone
console-verdict-teardown = established: { $cause } ({ $weight }); the repair needs a teardown
console-verdict-established = established: { $cause } ({ $weight })
console-verdict-probable = probable: { $cause } ({ $weight }); not certain enough to act on alone
console-verdict-open = open: the recordings are not enough to decide
console-verdict-nothing-found = nothing found: what was recorded is as it should be
console-verdict-nothing-in-tested = nothing found in what was tested; not everything was
console-verdict-no-report = no report: there is no recording and no scan-tool text

# One job in the terminal.
console-reading = { $job }: reading and measuring
console-no-report = { $job }: no report: { $reason }
console-next = next: { $step }
console-set-aside = set aside: { $message }
console-not-run = did not run: { $check }: { $reason }
console-not-run-file = did not run: { $check } on { $file }: { $reason }
console-note = note: { $message }
console-results = report:  { $report }
    labour:  { $labour }
    case:    { $case }
console-demo = An invented job was written to { $folder }; measuring it.
console-signed = { $job }: report { $report } is signed: { $path }

# Requests to a person.
console-asks-answers = answers in job.toml, added to the job again
console-asks-job-file = what is wrong in job.toml put right, see problems.txt
console-asks-evidence = a recording or a scan-tool text: without one there is no report
console-asks-checks = { $count ->
    [one] the job once more: one of its checks did not run, see problems.txt
   *[other] the job once more: { $count } of its checks did not run, see problems.txt
 }
console-asks-set-aside = { $count ->
    [one] a look at the file that was set aside, see problems.txt
   *[other] a look at { $count } files that were set aside, see problems.txt
 }
console-asks-signature = a person's review and signature (baybrief sign)

# Lines of work.
console-line = { $number }. { $operation } { $description }: { $quantity } at { $rate }, { $amount }
console-line-hours = { $hours } h
console-line-pieces = { $pieces } x
console-line-authorised = authorised by { $by } ({ $how }, { $at })
console-line-authorised-up-to = authorised by { $by } ({ $how }, { $at }) up to { $sum }
console-line-declined = declined by { $by } ({ $how }, { $at })
console-line-beyond-limit = held: { $needed } with it, and { $limit } are authorised
console-line-not-authorised = held: done without an authorisation
console-line-number-taken = held: { $jobs } has the same number
console-sum-net = { $sum } net
console-sum-gross = { $sum } gross
console-sum-tax = { $sum } tax ({ $rate } %)
console-event-offered = { $at } offered { $lines }
console-event-offered-nothing = { $at } nothing is offered any more
console-event-offered-by = { $at } offered { $lines } by { $by }
console-event-authorised = { $at } authorised { $lines } up to { $sum } by { $by } ({ $how })
console-event-declined = { $at } declined { $lines } by { $by } ({ $how })
console-event-done = { $at } done { $lines } by { $by }
console-event-reopened = { $at } completion taken back { $lines } by { $by }
console-refused-unknown-line = { $name } is no line of this job; there are { $known }
console-refused-stages = stages are authorised apart; name the ones that the customer means with --lines: { $stages }
console-refused-hours = { $operation }: only the person who did the diagnosis knows its hours; give them with --hours, such as --hours 1.4
console-refused-not-authorised = { $operation } is not authorised: ask the customer, and record the answer with `authorise` first
console-refused-beyond-limit = { $operation } is held: it comes to { $needed } with what was authorised beside it, and the customer said up to { $limit }; ask, and record the answer with `authorise` first
console-refused-moved = somebody else recorded something of this job at the same moment; look at its lines with `status`, and say it again

# Outcomes.
console-outcome = { $found } ({ $system }); { $by } on { $at }, report { $report }
console-outcome-confirmed = confirmed
console-outcome-confirmed-cause = confirmed: { $said }
console-outcome-other-cause = a cause was found: { $cause }
console-outcome-other-cause-than = another cause: { $cause }, not: { $said }
console-outcome-part-sound = the condemned part is sound
console-outcome-part-sound-not = the condemned part is sound, not: { $said }
console-outcome-healthy = the unit is as it should be
console-outcome-not-opened = not opened
console-outcome-mended = mended
console-outcome-part = part: { $part }
console-outcome-photo = photo: { $photo }
console-outcome-record-after = There is no recording after the repair: add one with `phase = "after"` in job.toml, and the job counts among the known-good ones.

# All jobs: terminal and status page.
console-jobs = { $count ->
    [one] 1 job
   *[other] { $count } jobs
 }
console-jobs-older = { $count ->
    [one] 1 older job is not listed here;
   *[other] { $count } older jobs are not listed here;
 }
console-jobs-list-all = lists all.
console-jobs-none = There is no job yet.
console-refused = In the inbox, and part of no job
console-group-asks = Something is asked for
console-group-draft = Drafts to be reviewed
console-group-work = Waiting and in work
console-group-signed = Signed
console-state-waiting = waiting
console-state-working = being measured
console-state-failed = failed, is tried again
console-state-held = held
console-state-signed = report { $report } signed by { $by }, { $at }
console-state-no-report = no report
console-state-draft = report { $report }, draft
console-no-verdict = no verdict yet
console-asked-for = asked for: { $what }
console-owed = Outcome owed, see `outcome JOB`
console-owed-weaker = healthy in the recording after the repair, a weaker confirmation
console-report = { $job }: report { $report }, { $sentence }
console-age-now = just now
console-age-minutes = { $count ->
    [one] 1 minute
   *[other] { $count } minutes
 }
console-age-hours = { $count ->
    [one] 1 hour
   *[other] { $count } hours
 }
console-age-days = { $count ->
    [one] 1 day
   *[other] { $count } days
 }

# The status page alone.
console-page-asking = { $count ->
    [one] 1 asks
   *[other] { $count } ask
 }
console-page-skip = Skip to the jobs
console-page-title = Jobs
console-page-as-of = As of
console-page-reload = This page is rewritten after every change; reload it to see the newest.
console-page-groups = Kinds of jobs
console-page-job = Job
console-page-state = State
console-page-verdict = Verdict
console-page-newest = Newest file
console-page-asked = Asked for
console-page-results = Results
console-page-nothing = nothing
console-page-none-yet = none yet
console-page-of-job = of { $job }
console-page-report = report { $report }
console-page-replaced = replaced
console-page-law = A draft is no finding until a person has reviewed and signed it. Local law's own forms come first.

# problems.txt.
console-problems-head = Nothing in the inbox was moved, changed or deleted.
console-problems-aside = These files were set aside, and the report was made without them:
console-problems-not-run = These checks did not run:
console-problems-odd = This was odd in files that were read:
console-problems-alone = There is no report of the job's present files, and it will be tried again, because:
console-problems-on = { $check } on { $file }

# Log of a service.
console-log-watching = watching
console-log-stopped = stopped
console-log-crashed = the last run ended by a fault of its own; its jobs are tried again one by one
console-log-finishing = finishing the jobs at hand
console-log-begun = begun
console-log-held = held: { $reason }
console-log-no-report = no report: { $reason }
console-log-again = some of its checks did not run; it is done again later
console-log-rows-wait = labour rows are not handed over yet: { $reason }
console-log-page = the page cannot be written: { $reason }

# How a file is read (inspect).
console-inspect-recording = { $file }: recording, { $how }
console-inspect-why = why so: { $format } ({ $percent } %): { $reason }
console-inspect-maybe = it might also be { $format } ({ $percent } %): { $reason }
console-inspect-samples = { $count } samples from { $start } s to { $end } s, { $rate } S/s, { $spaced }
console-inspect-even = evenly spaced
console-inspect-uneven = unevenly spaced
console-inspect-started = started { $at }
console-inspect-first = first
console-inspect-last = last
console-inspect-channel = channel { $name } [{ $unit }]: { $least } to { $most }, median { $median }
console-inspect-no-unit = no unit
console-inspect-missing = { $count } missing
console-inspect-over-range = { $count } over range
console-inspect-guess = looks like { $role } ({ $percent } %): { $reason }
console-inspect-guess-unsafe = looks like { $role } ({ $percent } %, too little to measure by: say it in job.toml): { $reason }
console-inspect-not-clear = what it measures is not clear from name, unit and shape
console-inspect-vin = line { $line }: vehicle number { $vin }
console-inspect-date = date { $day }
console-inspect-odometer = odometer { $km } km
console-inspect-line = line { $line }: { $what }
console-inspect-track = line { $line }: { $name } over time, { $count } values from { $start } s to { $end } s: { $least } to { $most } { $unit }
console-inspect-no-codes = no trouble codes
console-inspect-no-module = control unit not named
console-inspect-recordings = { $count ->
    [one] 1 recording described
   *[other] { $count } recordings described
 }
console-inspect-operations = { $count ->
    [one] 1 operation priced
   *[other] { $count } operations priced
 }
console-inspect-channels = { $count ->
    [one] 1 channel
   *[other] { $count } channels
 }

# Analysis plugins (plugins).
console-plugin-library = {"  "}library { $path }
console-plugin-foreign = {"  "}foreign: it did not come with baybrief, and its weights are capped
console-plugin-quarantined = {"  "}quarantined: it crashed or ran out of time on { $count } recordings in a row; `baybrief plugins --unquarantine { $path }`
console-plugin-assets = {"  "}files    { $names }
console-plugin-needs = {"    "}needs   { $roles }
console-plugin-uses = {"    "}uses    { $roles }
console-plugin-inputs = {"    "}inputs  { $names }
console-plugin-kinds = {"    "}finds   { $names }
console-plugin-series = {"    "}derives { $names }
console-plugin-nothing = nothing
console-plugin-or = { $first } or { $second }
console-plugin-all-of = { $first } and { $second }
console-plugin-any-of = { $first }, { $second }
console-plugin-refused = refused: { $path }: { $reason }
console-plugin-sandbox = sandbox: { $what }
console-plugin-none = No plugin was found. Put their libraries into a folder `plugins` beside the executable, or name their folder in the environment variable BAYBRIEF_PLUGINS or in shop.toml ([plugins] folders).
console-plugin-pinned = pinned { $hash }  { $path }
console-plugin-before = {"  "}before { $hash }
console-plugin-nothing-pinned = Nothing was pinned: there is no library in a folder `plugins` beside the executable, in the environment variable BAYBRIEF_PLUGINS or in shop.toml ([plugins] folders). What a build made changes with every build.
console-plugin-released = { $path }: its crashes are forgotten; it runs again.
console-plugin-not-quarantined = { $path }: it is not quarantined: no crash of it is on record.

# Sealed archives (seal, verify).
console-sealed = { $job }: report { $report } with { $count } files is sealed: { $path }
console-sealed-holds = signed with the key { $key }. It holds names, addresses and prices as the report has them: give it to nobody who must not see them.
console-sealed-file = { $file }: job { $job }, report { $report }, sealed { $at } with version { $version }
console-sealed-intact = {"  "}all { $count } files are as they were sealed
console-sealed-changed = {"  "}NOT as it was sealed
console-sealed-expected = {"  "}sealed with the expected key { $key }
console-sealed-other = {"  "}sealed with ANOTHER key: { $key }, expected { $expected }
console-sealed-unknown = {"  "}sealed with the key { $key }; whose it is, is not known here: compare it with the one that the shop made known (--key FINGERPRINT, or --shop for one's own)
console-again-not = {"  "}not run again: what was changed proves nothing
console-again-version = {"  "}run again with version { $now }, sealed with { $then }: differences may be the program's
console-again-other-library = {"  "}the library { $name } is another one than the one that ran then
console-again-new-library = {"  "}the library { $name } did not run then
console-again-same = {"  "}run again: case.json is the same, byte for byte
console-again-differs = {"  "}run again: case.json DIFFERS: { $difference }
console-again-line = line { $line }: then { $then }, now { $now }
console-again-shorter = one of them ends before the other
console-key-made = A key was made for this shop: { $path }. Keep a copy in a safe place, give it to nobody, and let people know its fingerprint { $key }
console-signed-with = signed with the key { $key }

# Known-good values of other shops (export, import).
console-values = { $count ->
    [one] 1 value
   *[other] { $count } values
 }
console-recordings = { $count ->
    [one] 1 recording
   *[other] { $count } recordings
 }
console-vehicles = { $count ->
    [one] 1 vehicle
   *[other] { $count } vehicles
 }
console-exported = {"  "}{ $unit }, { $limit }: { $recordings } of { $vehicles }, { $from } to { $to }
console-imported = { $name }: { $values }, signed with the key { $key }. Ask that shop whether this is its key.
console-imported-next = `learn limits` shows what they propose; each vehicle of another shop counts half, and none narrows a limit.

# What the shop's jobs teach (learn).
console-learn-none = No job is proven good yet. Record what was found with `outcome JOB --found healthy` or `--mended`; a job counts where its job.toml names the unit, or make and model.
console-learn-origin = {"  "}from the shop { $name }, key { $key }
console-learn-in-force = in force: { $name }, version { $version }, adopted by { $by } on { $day }
console-learn-counted = {"  "}{ $limit }: { $recordings } of { $vehicles }; median { $median }, smallest to largest { $low } to { $high } { $unit }
console-learn-carried = {"    "}95 % of such vehicles at { $confidence } confidence
console-learn-proposal = {"    "}a proposal only: { $confidence } confidence for 95 % of such vehicles, { $needed } are needed
console-learn-odd = {"    "}odd: { $jobs } ({ $low } to { $high } { $unit }) is left out; where a person knows that it is good: --include { $first }
console-learn-bound = {"    "}{ $side } { $before } -> { $value } { $unit }: { $change }
console-learn-low = low{" "}
console-learn-high = high
console-learn-learned = { $replaced } { $learned } (learned)
console-learn-same = as it is
console-learn-wider = wider; { $vehicles } beyond the limit
console-learn-narrower = narrower
console-learn-adoptable = can be adopted
console-learn-waits = waits for a person's word ({ $reasons })
console-learn-foreign = another shop's values never narrow a limit
console-learn-more-bad = it would call more units bad than before
console-learn-few = only { $count } of { $vehicles } beyond the limit: as many may be wrongly called good
console-learn-judged = { $count ->
    [one] 1 vehicle is called good by this limit alone
   *[other] { $count } vehicles are called good by this limit alone
 }
console-learn-curve = {"  "}curve of { $kind } ({ $subject }): { $vehicles }, 5 to 95 %
console-learn-put = Workers do not see it yet: put the folder { $folder } into the bucket, below shops/SHOP/ beside shop.toml; it counts from the next job on.
console-learn-adopted = {"  "}adopted as version { $version }: { $path }
console-learn-nothing-adopted = Nothing was adopted: `learn limits` says what is proposed, how many vehicles are needed and what waits for a person's word (--value NAME).
console-learn-reverted = { $name }: version { $version } is in force again
console-learn-reverted-all = { $name }: the limits from before anything was learned are in force again
console-interval = { $low } to { $high }
console-part-of = { $part } of { $all }
console-weights-none = No outcome tells of a cause yet: weights are judgement.
console-weights-head = In decibans; from { $least } outcomes a row on, a weight is proposed beside the judged one.
console-weights-row = cause/row
console-weights-judged = judged
console-weights-with = with
console-weights-without = without
console-weights-counted = counted, 95 %
console-weights-proposed = proposed
console-weights-more = { $count } more
console-weights-in-force = { $count ->
    [one] in force: 1 weight counted, version { $version }, adopted by { $by } on { $day }
   *[other] in force: { $count } weights counted, version { $version }, adopted by { $by } on { $day }
 }
console-weights-few = { $count ->
    [one] --value { $name }: 1 outcome so far; { $least } are needed, some with the cause and some without
   *[other] --value { $name }: { $count } outcomes so far; { $least } are needed, some with the cause and some without
 }
console-weights-reverted = { $count ->
    [one] 1 counted weight is in force again
   *[other] { $count } counted weights are in force again
 }
console-record-head = Verdicts and what was found, by the persons who looked. Intervals at 95 % (Wilson 1927). Only jobs with an outcome tell: what is opened is more often what was called.
console-record-system = system
console-record-said = said
console-record-number = number
console-record-confirmed = confirmed
console-record-refuted = refuted
console-record-mended = mended*
console-record-unknown = unknown
console-record-share = confirmed of those looked at
console-record-note = * Without a person's word, but healthy in the recording after the repair: a weaker confirmation.
console-record-drift = { $system }, established verdicts in their order (EWMA, lambda 0.1, 3 standard deviations): { $centre } confirmed on average, now { $now }, limit { $limit } ({ $count } verdicts): { $signals ->
    [0] no sign of drift
    [one] DRIFT: the average fell below its limit once; look at the newest refuted verdict
   *[other] DRIFT: the average fell below its limit { $signals } times; look at the newest refuted verdicts
 }
console-record-confused = Said, but found to be another:

# The page (serve).
console-page-at = The page is at { $address }. Open it within a minute by { $file }

# PIN of the page (pin).
console-pin-removed = { $name } has no PIN any more, and signs nothing at the page.
console-pin-set = The PIN of { $name } is set; its digest lies in { $path }.
console-pin-digits = A PIN has { $least } to { $most } digits.
console-pin-again = Once more

# The filled-in job.toml.
console-draft-head = Filled in as far as it is known. Answer what is asked, take the # away before each answer, and
console-draft-folder = put this file into the job's folder { $folder }; the job then goes on by itself.
console-draft-files = put this file beside the job's other files, named as they are up to the first _ and then _job.toml.
console-draft-first = Asked for first, because the verdict waits for it:
console-draft-wrong = Wrong in your file, and left out here:
console-draft-guessed = guessed: { $reason }
console-draft-more = { $names } and { $count } more
console-draft-number = the shop's number for the job
console-draft-day = the day
console-draft-technician = who examined the vehicle
console-draft-hours = hours spent on the diagnosis, to be billed
console-draft-name = name
console-draft-address = postal address
console-draft-phone = telephone
console-draft-one-of = one of { $names }
console-draft-systems = what is to be examined: { $names }
console-draft-vin = vehicle number, 17 characters
console-draft-make = maker
console-draft-model = model
console-draft-year = model year
console-draft-odometer = odometer, km
console-draft-high-voltage = true where there is a high-voltage system, as in hybrids
console-draft-concern = what the customer complains of
console-draft-time-unit = s, ms, us, min or h: what does the time column count?
console-draft-selector = P, R, N, D, S or M: where did the selector stand?
console-draft-engine = running, off or cranking?
console-draft-phase = before or after the repair?
console-draft-role = what does this channel measure? One of { $names }
console-draft-clamp = of a current clamp, as printed on it
console-draft-sensor = hall, vr or current-loop
console-draft-teeth = pitch positions per turn
console-draft-ask-selector = where did the selector stand? (selector)
console-draft-ask-engine = was the engine running? (engine)
console-draft-ask-teeth = how many teeth have the wheels of these sensors (teeth)
console-draft-ask-scale = which factor have these channels (amps_per_volt, scale or unit)
console-draft-ask-time-unit = what does its time column count? (time_unit)
console-draft-ask-unit = which unit is it? ([vehicle] unit)
console-draft-ask-systems = what is to be examined? ([vehicle] systems)
console-draft-ask-role = what do these channels measure (role)
