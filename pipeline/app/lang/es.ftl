# Frases del propio programa: terminal, registro, página de estado, problems.txt. Las del informe están en report-templates.

# El resultado en una frase.
console-verdict-mended = era: { $cause }; la grabación posterior a la reparación demuestra que está resuelto
console-verdict-teardown = comprobado: { $cause } ({ $weight }); la reparación exige abrir la unidad
console-verdict-established = comprobado: { $cause } ({ $weight })
console-verdict-probable = probable: { $cause } ({ $weight }); por sí solo no basta para actuar
console-verdict-open = sin decidir: las grabaciones no bastan para decidir
console-verdict-nothing-found = sin avería: lo grabado está como debe
console-verdict-nothing-in-tested = sin avería en lo comprobado; no se comprobó todo
console-verdict-no-report = sin informe: no hay ninguna grabación ni texto de diagnosis

# Un trabajo en el terminal.
console-reading = { $job }: leyendo y midiendo
console-no-report = { $job }: sin informe: { $reason }
console-next = a continuación: { $step }
console-set-aside = no utilizado: { $message }
console-not-run = sin ejecutar: { $check }: { $reason }
console-not-run-file = sin ejecutar: { $check } en { $file }: { $reason }
console-note = nota: { $message }
console-results = informe:         { $report }
    mano de obra:    { $labour }
    datos del caso:  { $case }
console-demo = Se ha creado un trabajo inventado en { $folder }; se está midiendo.
console-signed = { $job }: el informe { $report } está firmado: { $path }

# Lo que se pide a una persona.
console-asks-answers = respuestas en job.toml, añadido de nuevo al trabajo
console-asks-job-file = corregir lo que está mal en job.toml, véase problems.txt
console-asks-evidence = una grabación o un texto de diagnosis: sin ellos no hay informe
console-asks-checks = { $count ->
    [one] repetir el trabajo: una comprobación no se ejecutó, véase problems.txt
   *[other] repetir el trabajo: { $count } comprobaciones no se ejecutaron, véase problems.txt
 }
console-asks-set-aside = { $count ->
    [one] revisar el archivo que no se utilizó, véase problems.txt
   *[other] revisar { $count } archivos que no se utilizaron, véase problems.txt
 }
console-asks-signature = la revisión y la firma de una persona (baybrief sign)

# Trabajos con precio.
console-line = { $number }. { $operation } { $description }: { $quantity } a { $rate }, { $amount }
console-line-hours = { $hours } h
console-line-pieces = { $pieces } uds.
console-line-authorised = autorizado por { $by } ({ $how }, { $at })
console-line-authorised-up-to = autorizado por { $by } ({ $how }, { $at }) hasta { $sum }
console-line-declined = rechazado por { $by } ({ $how }, { $at })
console-line-beyond-limit = en espera: con este trabajo suma { $needed }, y están autorizados { $limit }
console-line-not-authorised = en espera: hecho sin autorización
console-line-number-taken = en espera: { $jobs } tiene el mismo número
console-sum-net = { $sum } netos
console-sum-gross = { $sum } brutos
console-sum-tax = { $sum } de impuesto ({ $rate } %)
console-event-offered = { $at } ofrecido: { $lines }
console-event-offered-nothing = { $at } ya no se ofrece nada
console-event-offered-by = { $at } ofrecido: { $lines }, por { $by }
console-event-authorised = { $at } autorizado: { $lines } hasta { $sum }, por { $by } ({ $how })
console-event-declined = { $at } rechazado: { $lines }, por { $by } ({ $how })
console-event-done = { $at } hecho: { $lines }, por { $by }
console-event-reopened = { $at } anulado como hecho: { $lines }, por { $by }
console-refused-unknown-line = { $name } no es ninguna línea de este trabajo; son: { $known }
console-refused-stages = las fases se autorizan por separado; indique con --lines las que quiere el cliente: { $stages }
console-refused-hours = { $operation }: solo quien hizo el diagnóstico conoce sus horas; indíquelas con --hours, por ejemplo --hours 1.4
console-refused-not-authorised = { $operation } no está autorizado: pregunte al cliente y anote antes la respuesta con `authorise`
console-refused-beyond-limit = { $operation } está en espera: con lo ya autorizado suma { $needed }, y el cliente dijo hasta { $limit }; pregunte y anote antes la respuesta con `authorise`
console-refused-moved = otra persona anotó algo de este trabajo en el mismo momento; mire sus líneas con `status` y vuelva a indicarlo

# Lo que se encontró.
console-outcome = { $found } ({ $system }); { $by }, { $at }, informe { $report }
console-outcome-confirmed = confirmado
console-outcome-confirmed-cause = confirmado: { $said }
console-outcome-other-cause = causa encontrada: { $cause }
console-outcome-other-cause-than = otra causa: { $cause }, y no: { $said }
console-outcome-part-sound = la pieza señalada está bien
console-outcome-part-sound-not = la pieza señalada está bien; no era: { $said }
console-outcome-healthy = la unidad está como debe
console-outcome-not-opened = sin abrir
console-outcome-mended = reparado
console-outcome-part = pieza: { $part }
console-outcome-photo = foto: { $photo }
console-outcome-record-after = No hay ninguna grabación posterior a la reparación: añada una con `phase = "after"` en job.toml y el trabajo contará entre los de buen estado conocido.

# Todos los trabajos: terminal y página de estado.
console-jobs = { $count ->
    [one] 1 trabajo
   *[other] { $count } trabajos
 }
console-jobs-older = { $count ->
    [one] 1 trabajo más antiguo no figura aquí;
   *[other] { $count } trabajos más antiguos no figuran aquí;
 }
console-jobs-list-all = los muestra todos.
console-jobs-none = Todavía no hay ningún trabajo.
console-refused = En la carpeta de entrada y sin trabajo al que pertenecer
console-group-asks = Falta algo por responder
console-group-draft = Borradores por revisar
console-group-work = En espera y en curso
console-group-signed = Firmados
console-state-waiting = en espera
console-state-working = midiéndose
console-state-failed = fallido, se intentará de nuevo
console-state-held = detenido
console-state-signed = informe { $report } firmado por { $by }, { $at }
console-state-no-report = sin informe
console-state-draft = informe { $report }, borrador
console-no-verdict = aún sin resultado
console-asked-for = se necesita: { $what }
console-owed = Falta anotar lo encontrado, véase `outcome JOB`
console-owed-weaker = correcto en la grabación posterior a la reparación, una confirmación más débil
console-report = { $job }: informe { $report }, { $sentence }
console-age-now = ahora mismo
console-age-minutes = { $count ->
    [one] 1 minuto
   *[other] { $count } minutos
 }
console-age-hours = { $count ->
    [one] 1 hora
   *[other] { $count } horas
 }
console-age-days = { $count ->
    [one] 1 día
   *[other] { $count } días
 }

# Solo la página de estado.
console-page-asking = { $count ->
    [one] 1 espera respuesta
   *[other] { $count } esperan respuesta
 }
console-page-skip = Ir a los trabajos
console-page-title = Trabajos
console-page-as-of = Situación a
console-page-reload = Esta página se reescribe tras cada cambio; vuelva a cargarla para ver lo más reciente.
console-page-groups = Tipos de trabajos
console-page-job = Trabajo
console-page-state = Estado
console-page-verdict = Resultado
console-page-newest = Archivo más reciente
console-page-asked = Se necesita
console-page-results = Documentos
console-page-nothing = nada
console-page-none-yet = aún ninguno
console-page-of-job = de { $job }
console-page-report = informe { $report }
console-page-replaced = sustituido
console-page-law = Un borrador no es un dictamen hasta que una persona lo haya revisado y firmado. Los formularios que exige la ley local tienen prioridad.

# problems.txt.
console-problems-head = En la carpeta de entrada no se ha movido, cambiado ni borrado nada.
console-problems-aside = Estos archivos no se utilizaron y el informe se hizo sin ellos:
console-problems-not-run = Estas comprobaciones no se ejecutaron:
console-problems-odd = Esto llamó la atención en los archivos leídos:
console-problems-alone = No hay informe de los archivos actuales del trabajo; se intentará de nuevo. El motivo:
console-problems-on = { $check } en { $file }

# Registro de un servicio.
console-log-watching = vigilando
console-log-stopped = detenido
console-log-crashed = la última ejecución terminó por un fallo propio; sus trabajos se repiten uno a uno
console-log-finishing = terminando los trabajos en curso
console-log-begun = comenzado
console-log-held = detenido: { $reason }
console-log-no-report = sin informe: { $reason }
console-log-again = algunas comprobaciones no se ejecutaron; se repetirá más tarde
console-log-rows-wait = la mano de obra aún no se ha entregado: { $reason }
console-log-page = no se puede escribir la página: { $reason }
