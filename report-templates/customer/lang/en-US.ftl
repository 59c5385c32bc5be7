### American spelling and dates, over en.ftl: for the language tag en-US, and for en on us-letter paper. Only what differs.

# Words of all other sentences, of the program and of the systems: as they are written there, and here.
spelling = authorisation authorization, authorised authorized, catalogue catalog, centre center, colour color, judgement judgment, recognised recognized

sheet-judgement = judgment
report-day = { $month ->
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
 } { $day }, { $year }
line-authorised = authorized
report-estimate-note = Labor only. The workshop quotes parts and materials.
report-estimate-example = The hours come from the built-in example catalog, which is invented: they are no time guide.
report-agreed-authorised = Authorized by { $by } on { $time }, { $how }, up to { $limit }.
report-agreed-authorised-unlimited = Authorized by { $by } on { $time }, { $how }.
report-hold-beyond-limit = On hold: with this the work comes to { $needed }, and { $limit } is authorized.
report-hold-not-authorised = On hold: done, but not authorized.
report-authorise = Authorization
report-auth-how = How it is authorized
report-auth-yes = I authorize this
report-auth-deferral = This report is technical evidence. The forms for estimates and authorizations that local law asks for come first, and so does work by licensed persons where it is required. An unsigned report authorizes nothing.
role-by-guess = recognized with a certainty of { $percent } %: { $reason }
report-record-weights-note = In decibans. Weights called judgment are experts' estimates without a data basis, and are kept small.
order-correction-authorised = Authorized: { $work }.
order-correction-none = No work done or authorized.
