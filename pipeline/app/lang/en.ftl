# Sentences of the program itself: terminal, log, status page, problems.txt. The report's lie in report-templates.

# Verdict in one sentence.
console-verdict-mended = was { $cause }; the recording after the repair proves it mended
console-verdict-teardown = established: { $cause } ({ $weight }); the repair needs a teardown
console-verdict-established = established: { $cause } ({ $weight })
console-verdict-probable = probable: { $cause } ({ $weight }); not certain enough to act on alone
console-verdict-open = open: the recordings do not carry a decision
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
