# Frases del propio programa: terminal, registro, página de estado, problems.txt. Las del informe están en report-templates.

# El resultado en una frase.
console-verdict-mended = reparado: { $cause }; la grabación posterior a la reparación ya no muestra la avería
console-verdict-teardown = comprobado: { $cause } ({ $weight }); la reparación exige abrir la unidad
console-verdict-established = comprobado: { $cause } ({ $weight })
console-verdict-probable = probable: { $cause } ({ $weight }); por sí solo no basta para actuar
console-verdict-open = sin decidir: las grabaciones no bastan para decidir
console-verdict-nothing-found = sin avería: lo grabado está como debe
console-verdict-nothing-in-tested = sin avería en lo comprobado; no se comprobó todo
console-verdict-no-report = sin informe: no hay ninguna grabación ni texto de diagnosis

# Una orden en el terminal.
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
console-demo = Se ha creado una orden inventada en { $folder }; se está midiendo.
console-signed = { $job }: el informe { $report } está firmado: { $path }

# Lo que se pide a una persona.
console-asks-answers = respuestas en job.toml, añadido de nuevo a la orden
console-asks-job-file = corregir lo que está mal en job.toml, véase problems.txt
console-asks-evidence = una grabación o un texto de diagnosis: sin ellos no hay informe
console-asks-checks = { $count ->
    [one] repetir la orden: una comprobación no se ejecutó, véase problems.txt
   *[other] repetir la orden: { $count } comprobaciones no se ejecutaron, véase problems.txt
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
console-refused-unknown-line = { $name } no es ninguna línea de esta orden; son: { $known }
console-refused-stages = las fases se autorizan por separado; indique con --lines las que quiere el cliente: { $stages }
console-refused-hours = { $operation }: solo quien hizo el diagnóstico conoce sus horas; indíquelas con --hours, por ejemplo --hours 1.4
console-refused-not-authorised = { $operation } no está autorizado: pregunte al cliente y anote antes la respuesta con `authorise`
console-refused-beyond-limit = { $operation } está en espera: con lo ya autorizado suma { $needed }, y el cliente dijo hasta { $limit }; pregunte y anote antes la respuesta con `authorise`
console-refused-moved = otra persona anotó algo de esta orden en el mismo momento; mire sus líneas con `status` y vuelva a indicarlo

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
console-outcome-record-after = No hay ninguna grabación posterior a la reparación: añada una con `phase = "after"` en job.toml y la orden contará entre las de buen estado conocido.

# Todas las órdenes: terminal y página de estado.
console-jobs = { $count ->
    [one] 1 orden
   *[other] { $count } órdenes
 }
console-jobs-older = { $count ->
    [one] 1 orden más antigua no figura aquí;
   *[other] { $count } órdenes más antiguas no figuran aquí;
 }
console-jobs-list-all = los muestra todos.
console-jobs-none = Todavía no hay ninguna orden.
console-refused = En la carpeta de entrada y sin orden a la que pertenecer
console-group-asks = Falta algo por responder
console-group-draft = Borradores por revisar
console-group-work = En espera y en curso
console-group-signed = Firmadas
console-state-waiting = en espera
console-state-working = midiéndose
console-state-failed = fallido, se intentará de nuevo
console-state-held = detenida
console-state-signed = informe { $report } firmado por { $by }, { $at }
console-state-no-report = sin informe
console-state-draft = informe { $report }, borrador
console-no-verdict = aún sin veredicto
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
console-page-skip = Ir a las órdenes
console-page-title = Órdenes
console-page-as-of = Situación a
console-page-reload = Esta página se reescribe tras cada cambio; vuelva a cargarla para ver lo más reciente.
console-page-groups = Tipos de órdenes
console-page-job = Orden
console-page-state = Estado
console-page-verdict = Veredicto
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
console-problems-alone = No hay informe de los archivos actuales de la orden; se intentará de nuevo. El motivo:
console-problems-on = { $check } en { $file }

# Registro de un servicio.
console-log-watching = vigilando
console-log-stopped = detenido
console-log-crashed = la última ejecución terminó por un fallo propio; sus órdenes se repiten una a una
console-log-finishing = terminando las órdenes en curso
console-log-begun = comenzado
console-log-held = detenido: { $reason }
console-log-no-report = sin informe: { $reason }
console-log-again = algunas comprobaciones no se ejecutaron; se repetirá más tarde
console-log-rows-wait = la mano de obra aún no se ha entregado: { $reason }
console-log-page = no se puede escribir la página: { $reason }

# Cómo se lee un archivo (inspect).
console-inspect-recording = { $file }: grabación, { $how }
console-inspect-why = por qué: { $format } ({ $percent } %): { $reason }
console-inspect-maybe = también podría ser { $format } ({ $percent } %): { $reason }
console-inspect-samples = { $count } muestras de { $start } s a { $end } s, { $rate } por segundo, { $spaced }
console-inspect-even = a intervalos iguales
console-inspect-uneven = a intervalos desiguales
console-inspect-started = iniciada { $at }
console-inspect-first = inicio
console-inspect-last = final
console-inspect-channel = canal { $name } [{ $unit }]: de { $least } a { $most }, mediana { $median }
console-inspect-no-unit = sin unidad
console-inspect-missing = faltan { $count }
console-inspect-over-range = { $count } fuera de rango
console-inspect-guess = parece { $role } ({ $percent } %): { $reason }
console-inspect-guess-unsafe = parece { $role } ({ $percent } %, demasiado poco para medir: indíquelo en job.toml): { $reason }
console-inspect-not-clear = por nombre, unidad y forma no está claro lo que mide
console-inspect-vin = línea { $line }: número de bastidor { $vin }
console-inspect-date = fecha { $day }
console-inspect-odometer = cuentakilómetros { $km } km
console-inspect-line = línea { $line }: { $what }
console-inspect-track = línea { $line }: { $name } en el tiempo, { $count } valores de { $start } s a { $end } s: de { $least } a { $most } { $unit }
console-inspect-no-codes = sin códigos de avería
console-inspect-no-module = unidad de control sin indicar
console-inspect-recordings = { $count ->
    [one] 1 grabación descrita
   *[other] { $count } grabaciones descritas
 }
console-inspect-operations = { $count ->
    [one] 1 operación con precio
   *[other] { $count } operaciones con precio
 }
console-inspect-channels = { $count ->
    [one] 1 canal
   *[other] { $count } canales
 }

# Módulos de análisis (plugins).
console-plugin-library = {"  "}biblioteca { $path }
console-plugin-foreign = {"  "}ajeno: no vino con baybrief y sus pesos están limitados
console-plugin-quarantined = {"  "}en cuarentena: falló o no terminó en { $count } grabaciones seguidas; `baybrief plugins --unquarantine { $path }`
console-plugin-assets = {"  "}archivos { $names }
console-plugin-needs = {"    "}necesita { $roles }
console-plugin-uses = {"    "}usa      { $roles }
console-plugin-inputs = {"    "}lee      { $names }
console-plugin-kinds = {"    "}halla    { $names }
console-plugin-series = {"    "}obtiene  { $names }
console-plugin-nothing = nada
console-plugin-or = { $first } o { $second }
console-plugin-all-of = { $first } y { $second }
console-plugin-any-of = { $first }, { $second }
console-plugin-refused = rechazado: { $path }: { $reason }
console-plugin-sandbox = aislamiento: { $what }
console-plugin-none = No se encontró ningún módulo. Ponga sus bibliotecas en una carpeta `plugins` junto al programa, o indique su carpeta en la variable de entorno BAYBRIEF_PLUGINS o en shop.toml ([plugins] folders).
console-plugin-pinned = fijado { $hash }  { $path }
console-plugin-before = {"  "}antes { $hash }
console-plugin-nothing-pinned = No se fijó nada: no hay ninguna biblioteca en una carpeta `plugins` junto al programa, en la variable de entorno BAYBRIEF_PLUGINS ni en shop.toml ([plugins] folders). Lo compilado cambia con cada compilación.
console-plugin-released = { $path }: se olvidan sus fallos; vuelve a ejecutarse.
console-plugin-not-quarantined = { $path }: no está en cuarentena: no consta ningún fallo.

# Archivos sellados (seal, verify).
console-sealed = { $job }: el informe { $report } con { $count } archivos está sellado: { $path }
console-sealed-holds = firmado con la clave { $key }. Contiene nombres, direcciones y precios como el informe: no lo dé a nadie que no deba verlos.
console-sealed-file = { $file }: orden { $job }, informe { $report }, sellado { $at } con la versión { $version }
console-sealed-intact = {"  "}los { $count } archivos están como se sellaron
console-sealed-changed = {"  "}NO está como se selló
console-sealed-expected = {"  "}sellado con la clave esperada { $key }
console-sealed-other = {"  "}sellado con OTRA clave: { $key }, se esperaba { $expected }
console-sealed-unknown = {"  "}sellado con la clave { $key }; aquí no se sabe de quién es: compárela con la que el taller dio a conocer (--key HUELLA, o --shop para la propia)
console-again-not = {"  "}no se repite el cálculo: lo cambiado no demuestra nada
console-again-version = {"  "}cálculo repetido con la versión { $now }, sellado con { $then }: las diferencias pueden deberse al programa
console-again-other-library = {"  "}la biblioteca { $name } es otra que la de entonces
console-again-new-library = {"  "}la biblioteca { $name } no se ejecutó entonces
console-again-same = {"  "}cálculo repetido: case.json es igual, byte a byte
console-again-differs = {"  "}cálculo repetido: case.json es DISTINTO: { $difference }
console-again-line = línea { $line }: entonces { $then }, ahora { $now }
console-again-shorter = uno termina antes que el otro
console-key-made = Se creó una clave para este taller: { $path }. Guarde una copia en lugar seguro, no se la dé a nadie y dé a conocer su huella { $key }
console-signed-with = firmado con la clave { $key }

# Valores de otros talleres (export, import).
console-values = { $count ->
    [one] 1 valor
   *[other] { $count } valores
 }
console-recordings = { $count ->
    [one] 1 grabación
   *[other] { $count } grabaciones
 }
console-vehicles = { $count ->
    [one] 1 vehículo
   *[other] { $count } vehículos
 }
console-exported = {"  "}{ $unit }, { $limit }: { $recordings } de { $vehicles }, { $from } a { $to }
console-imported = { $name }: { $values }, firmado con la clave { $key }. Pregunte a ese taller si es su clave.
console-imported-next = `learn limits` muestra lo que proponen; cada vehículo de otro taller cuenta la mitad y ninguno estrecha un límite.

# Lo que enseñan las órdenes del taller (learn).
console-learn-none = Ninguna orden consta aún como buena. Registre lo encontrado con `outcome JOB --found healthy` o `--mended`; una orden cuenta si su job.toml nombra la unidad, o la marca y el modelo.
console-learn-origin = {"  "}del taller { $name }, clave { $key }
console-learn-in-force = en vigor: { $name }, versión { $version }, adoptada por { $by }, { $day }
console-learn-counted = {"  "}{ $limit }: { $recordings } de { $vehicles }; mediana { $median }, del menor al mayor { $low } a { $high } { $unit }
console-learn-carried = {"    "}95 % de tales vehículos con una confianza del { $confidence }
console-learn-proposal = {"    "}solo una propuesta: { $confidence } de confianza para el 95 % de tales vehículos, hacen falta { $needed }
console-learn-odd = {"    "}atípico: { $jobs } (de { $low } a { $high } { $unit }) se omite; si una persona sabe que es bueno: --include { $first }
console-learn-bound = {"    "}{ $side } { $before } -> { $value } { $unit }: { $change }
console-learn-low = mínimo
console-learn-high = máximo
console-learn-learned = { $replaced } { $learned } (aprendido)
console-learn-same = como está
console-learn-wider = más amplio; { $vehicles } fuera del límite
console-learn-narrower = más estrecho
console-learn-adoptable = se puede adoptar
console-learn-waits = espera la palabra de una persona ({ $reasons })
console-learn-foreign = los valores de otro taller nunca estrechan un límite
console-learn-more-bad = daría por malas más unidades que antes
console-learn-few = solo { $count } de { $vehicles } fuera del límite: otros tantos pueden darse por buenos sin serlo
console-learn-judged = { $count ->
    [one] 1 vehículo se da por bueno solo por este límite
   *[other] { $count } vehículos se dan por buenos solo por este límite
 }
console-learn-curve = {"  "}curva de { $kind } ({ $subject }): { $vehicles }, del 5 al 95 %
console-learn-put = Los procesos de trabajo aún no lo ven: ponga la carpeta { $folder } en el bucket, dentro de shops/TALLER/ junto a shop.toml; cuenta a partir del siguiente trabajo.
console-learn-adopted = {"  "}adoptado como versión { $version }: { $path }
console-learn-nothing-adopted = No se adoptó nada: `learn limits` dice qué se propone, cuántos vehículos hacen falta y qué espera la palabra de una persona (--value NOMBRE).
console-learn-reverted = { $name }: vuelve a regir la versión { $version }
console-learn-reverted-all = { $name }: vuelven a regir los límites de antes de aprender
console-interval = { $low } a { $high }
console-part-of = { $part } de { $all }
console-weights-none = Ningún resultado trata aún de una causa: los pesos son criterio.
console-weights-head = En decibanes; desde { $least } resultados por fila se propone un peso junto al estimado.
console-weights-row = causa/fila
console-weights-judged = estimado
console-weights-with = con
console-weights-without = sin
console-weights-counted = contado, 95 %
console-weights-proposed = propuesto
console-weights-more = faltan { $count }
console-weights-in-force = { $count ->
    [one] en vigor: 1 peso contado, versión { $version }, adoptada por { $by }, { $day }
   *[other] en vigor: { $count } pesos contados, versión { $version }, adoptada por { $by }, { $day }
 }
console-weights-few = { $count ->
    [one] --value { $name }: 1 resultado hasta ahora; hacen falta { $least }, unos con la causa y otros sin ella
   *[other] --value { $name }: { $count } resultados hasta ahora; hacen falta { $least }, unos con la causa y otros sin ella
 }
console-weights-reverted = { $count ->
    [one] vuelve a regir 1 peso contado
   *[other] vuelven a regir { $count } pesos contados
 }
console-record-head = Veredictos y lo encontrado, según quienes lo miraron. Intervalos al 95 % (Wilson 1927). Solo informan las órdenes con resultado: se abre más a menudo lo que se señaló.
console-record-system = sistema
console-record-said = veredicto
console-record-number = número
console-record-confirmed = confirmado
console-record-refuted = refutado
console-record-mended = resuelto*
console-record-unknown = desconocido
console-record-share = confirmado de los mirados
console-record-note = * Sin la palabra de una persona, pero en orden en la grabación posterior a la reparación: una confirmación más débil.
console-record-drift = { $system }, veredictos comprobados por orden (EWMA, lambda 0,1, 3 desviaciones típicas): { $centre } confirmado de media, ahora { $now }, límite { $limit } ({ $count } veredictos): { $signals ->
    [0] sin indicios de deriva
    [one] DERIVA: la media cayó una vez por debajo de su límite; mire el último veredicto refutado
   *[other] DERIVA: la media cayó { $signals } veces por debajo de su límite; mire los últimos veredictos refutados
 }
console-record-confused = Dicho, pero resultó ser otra cosa:

# La página (serve).
console-page-at = La página está en { $address }. Ábrala antes de un minuto con { $file }

# PIN de la página (pin).
console-pin-removed = { $name } ya no tiene PIN y no firma nada en la página.
console-pin-set = El PIN de { $name } está fijado; su resumen está en { $path }.
console-pin-digits = Un PIN tiene de { $least } a { $most } cifras.
console-pin-again = Otra vez

# El job.toml rellenado.
console-draft-head = Rellenado hasta donde se sabe. Responda a lo que se pregunta, quite el # delante de cada respuesta y
console-draft-folder = ponga este archivo en la carpeta { $folder } de la orden; la orden sigue entonces por sí sola.
console-draft-files = ponga este archivo junto a los demás de la orden, llamado como ellos hasta el primer _ y después _job.toml.
console-draft-first = Lo primero que se pregunta, porque el veredicto lo espera:
console-draft-wrong = Incorrecto en su archivo y omitido aquí:
console-draft-guessed = supuesto: { $reason }
console-draft-more = { $names } y { $count } más
console-draft-number = número de orden del taller
console-draft-day = el día
console-draft-technician = quién examinó el vehículo
console-draft-hours = horas dedicadas al diagnóstico, para facturar
console-draft-name = nombre
console-draft-address = dirección postal
console-draft-phone = teléfono
console-draft-one-of = uno de { $names }
console-draft-systems = qué hay que examinar: { $names }
console-draft-vin = número de bastidor, 17 caracteres
console-draft-make = marca
console-draft-model = modelo
console-draft-year = año del modelo
console-draft-odometer = cuentakilómetros, km
console-draft-high-voltage = true si hay un sistema de alta tensión, como en los híbridos
console-draft-concern = síntoma que indica el cliente
console-draft-time-unit = s, ms, us, min o h: ¿qué cuenta la columna de tiempo?
console-draft-selector = P, R, N, D, S o M: ¿dónde estaba el selector?
console-draft-engine = running (en marcha), off (parado) o cranking (arrancando)?
console-draft-phase = before (antes) o after (después) de la reparación?
console-draft-role = ¿qué mide este canal? Uno de { $names }
console-draft-clamp = de una pinza, como pone en ella
console-draft-sensor = hall, vr (bobina) o current-loop (dos hilos)
console-draft-teeth = posiciones de diente por vuelta
console-draft-ask-selector = ¿dónde estaba el selector? (selector)
console-draft-ask-engine = ¿estaba el motor en marcha? (engine)
console-draft-ask-teeth = cuántos dientes tienen las ruedas de estos sensores (teeth)
console-draft-ask-scale = qué factor tienen estos canales (amps_per_volt, scale o unit)
console-draft-ask-time-unit = ¿qué cuenta su columna de tiempo? (time_unit)
console-draft-ask-unit = ¿qué unidad es? ([vehicle] unit)
console-draft-ask-systems = ¿qué hay que examinar? ([vehicle] systems)
console-draft-ask-role = qué miden estos canales (role)
