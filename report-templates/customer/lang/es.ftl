### Todas las frases de los informes en español (sintaxis Fluent, projectfluent.org).
### Traducción de en.ftl: las claves, los argumentos y los atributos `.word` quedan como están allí.
# findings
finding-generic = { $kind-name } ({ $subject-name }): { $value }{ $limit }.
finding-generic-plain = { $kind-name } ({ $subject-name }).
finding-generic-limit = , se espera { $range }
finding-generic-range-between = de { $low } a { $high }
finding-generic-range-above = al menos { $low }
finding-generic-range-below = como máximo { $high }

subject-whole = toda la grabación

# units
unit-rpm = rpm

# reasons
reason-margin = Esta causa va muy por delante de las demás.
reason-second-fault = Hay una segunda avería con pruebas propias. El informe técnico la nombra.
reason-margin-too-small = Dos causas encajan con la grabación casi igual de bien.
reason-weight-too-small = Las pruebas no bastan para estar seguros.
reason-required-missing = Para estar seguros falta grabar algo más.
reason-no-evidence = La grabación no muestra nada que distinga las causas.
reason-at-limit = Un valor está tan cerca de su límite que podría estar a un lado o al otro.
reason-healthy = Todo lo grabado está en orden.
reason-roles-unsure = No es seguro qué medía cada canal de la grabación.
reason-nothing-read = No se pudo leer ninguna grabación.
reason-repair-proven = La avería vista antes de la reparación ya no está en la grabación posterior.
reason-repair-not-proven = La grabación posterior a la reparación aún muestra la avería, o no muestra la misma operación.
reason-repair-unread = No se pudo leer la grabación posterior a la reparación; nada muestra si la avería sigue ahí.
next-mend-recording = Corregir lo que la lista de archivos dice de la grabación posterior a la reparación y repetir la orden.
reason-check-did-not-run = No se ejecutó una comprobación que podía cambiar esto.
reason-not-calibrated = No se conoce la escala de los valores. Su forma por sí sola no prueba nada.
reason-healthy-in-part = Todo lo comprobado está en orden. No todo pudo comprobarse.
reason-not-all-tested = Lo grabado está en orden. No comprueba todo lo que debe comprobarse.
reason-suspect-not-tested = Hay indicios de una pieza que ninguna grabación ha comprobado.
reason-unit-unknown = No se conoce la unidad que nombra job.toml, así que no hay límites para ella.
reason-time-unknown = No se conoce la unidad de tiempo de una grabación, así que no se midió nada en ella.
reason-no-system = Nada de lo grabado indica qué sistema se debe examinar.
reason-explained-elsewhere = Una avería hallada en otra parte del vehículo lo explica también; se corrige primero.

# next
# Pasos que el programa pide con cualquier sistema.

next-run-checks-again = Repetir la orden para que se ejecuten las comprobaciones que faltaron; el informe técnico las nombra.
next-run-checks-again-plain = Hacer las comprobaciones que faltaron.
next-state-time-unit = Escribir la unidad de tiempo de la grabación en job.toml (time_unit = "ms", "s" u otra).
next-state-time-unit-plain = Completar los datos de las grabaciones.
next-state-systems = Escribir en job.toml qué se debe examinar ([vehicle] systems) o qué midió cada canal.
next-state-systems-plain = Completar los datos de las grabaciones.
next-state-unit = Corregir el nombre de la unidad en job.toml; el mensaje enumera las conocidas.
next-state-unit-plain = Completar los datos de las grabaciones.

# why
# Por qué no se comprobó una causa.

why-check-did-not-run = la comprobación no se ejecutó
why-not-recorded = no se grabó
why-recording-not-fit = la grabación no sirve para ello
why-not-readable = la señal no se pudo leer
why-not-shown-in-any-recording = ninguna grabación podía mostrarlo

next-record-again = Hacer otra vez la misma grabación, comprobando antes cada sonda.
next-state-channels = Anotar en job.toml qué medía cada canal; junto a este informe hay un archivo ya rellenado.
next-state-channels-plain = Completar los datos de las grabaciones.

# cautions
source-practice = práctica habitual, sin fuente publicada

signal-word-danger = PELIGRO
signal-word-warning = ADVERTENCIA
signal-word-caution = PRECAUCIÓN
signal-word-notice = AVISO
driver-ask = Consulte al taller antes de conducir o de dejar el motor en marcha.
    .word = CAUTION
    .title = Antes de conducir
    .source = { source-practice }

# sheets
sheet-judgement = criterio

# report
report-title = Informe de diagnóstico
report-title-job = Informe de diagnóstico, orden { $job }
report-title-technician = Informe técnico
report-title-technician-job = Informe técnico, orden { $job }
report-day = { $day } de { $month ->
    [1] enero
    [2] febrero
    [3] marzo
    [4] abril
    [5] mayo
    [6] junio
    [7] julio
    [8] agosto
    [9] septiembre
    [10] octubre
    [11] noviembre
   *[12] diciembre
 } de { $year }
report-page = Página { $page } de { $pages }
report-draft = BORRADOR: aún no lo ha revisado nadie
report-draft-short = BORRADOR
report-reviewed = Revisado por { $name } el { $time }
report-review-covers = La revisión abarca el resultado, las imágenes y los precios de esta versión.
report-review-lost = { $name } revisó una versión anterior el { $time }. Ha cambiado desde entonces; esa revisión ya no vale.
report-examined-by = Examinado por
report-date = Fecha
report-job = Orden
report-workshop = Taller
report-vehicle = Vehículo
report-vin = N.º de bastidor (VIN)
report-owner = Propietario
report-client = Encargado por
report-plate = Matrícula
report-odometer = Cuentakilómetros
report-complaint = Síntoma indicado
report-registration = N.º de registro
report-no-shop = Nombre del taller
report-cut-short = (completo en el informe técnico)
report-notes = Síntoma indicado, completo

state-established = Comprobado
state-probable = Probable
state-open = Sin decidir
state-nothing-found = Sin avería
state-nothing-found-in-part = Sin avería en lo comprobado
state-mended = Reparación confirmada
state-not-mended = Reparación no confirmada

report-answer = Qué ha fallado
report-answer-finding = Resultado
line-begun = en curso
report-answer-repair = Qué consiguió la reparación
report-answer-open = Las grabaciones aún no muestran qué ha fallado
report-answer-open-plain = Aún es posible más de una causa. Abrir o cambiar algo ahora sería adivinar. Los pasos de abajo lo decidirán.
report-answer-nothing = Las grabaciones no muestran ninguna avería
report-answer-nothing-plain = Todo lo medido funcionó como debe. Una avería que no se dio entonces no puede verse.
report-answer-nothing-in-part = Sin avería en lo que se comprobó
report-answer-nothing-in-part-plain = Lo que se comprobó funcionó como debe. No todo pudo comprobarse. Los pasos de abajo comprueban el resto.
report-answer-mended = La reparación funcionó
report-answer-mended-plain = Lo que estaba mal antes de la reparación está ahora como debe.
report-answer-not-mended = La reparación no está confirmada
report-answer-not-mended-plain = La grabación posterior a la reparación no muestra que la avería haya desaparecido.
report-probable-plain = Es la causa probable, pero aún no es segura. No conviene abrir ni cambiar nada antes de que los pasos de abajo la confirmen.
report-driver = Para quien conduce
report-sure-established = Grado de certeza: muy alto. Las grabaciones encajan con esta causa y con ninguna otra de las comprobadas.
report-sure-probable = Grado de certeza: probable, no seguro.

report-how-sure-line = Pruebas { $words }: { $db } decibanes, { $margin } por delante de la causa siguiente.
report-how-sure-line-alone = Pruebas { $words }: { $db } decibanes; ninguna otra causa explica las mismas observaciones.
report-scale = Un decibán mide cuánto pesan las pruebas: cada 10 hacen las observaciones diez veces más probables con esta causa que sin ella. Palabras según Kass y Raftery (1995): por debajo de 3 a 1 apenas merece mención, desde 3 a 1 positiva, desde 20 a 1 fuerte, desde 150 a 1 muy fuerte.
report-scale-alt = Peso de las pruebas en decibanes: { $list }.
report-weight = { $db ->
    [one] { $db } decibán
   *[other] { $db } decibanes
 }
report-scale-item = { $cause } { $db }
report-band-none = Nada de lo medido habla a favor ni en contra
report-band-against = en contra
report-band-mention = apenas
report-band-positive = positiva
report-band-strong = fuerte
report-band-very-strong = muy fuerte
report-word-against = ninguna
report-word-mention = leves
report-word-positive = positivas
report-word-strong = fuertes
report-word-very-strong = muy fuertes
report-decibans = decibanes
report-why = Cómo se sabe
report-why-open = Por qué aún no está decidido
report-cleared-heading = Comprobado, en orden
report-cleared = Descartado: { $list }.
report-untested = Por comprobar: { $list }.

report-known = Qué se sabe
report-unknown = Qué no se sabe
report-unknown-causes = Aún es posible: { $list }.
report-not-because = { $cause } ({ $reason }).
report-not-tested = Sin comprobar
report-also-examined = También se examinó
report-not-run = { $count ->
    [one] Una comprobación no se ejecutó. Lo que habría mostrado queda sin comprobar.
   *[other] { $count } comprobaciones no se ejecutaron. Lo que habrían mostrado queda sin comprobar.
 }
report-record-limits = Límites
report-limits-of-unit = { $system }: límites de { $limits }, la unidad nombrada.
report-limits-of-system = { $system }: no se nombró ninguna unidad, así que valen los límites generales del sistema.
report-do = Qué hay que hacer
report-do-not-open = No abrir ni cambiar nada todavía.
report-do-nothing = No hace falta abrir ni cambiar nada.
report-do-drive-again = El vehículo puede volver a circular cuando el taller lo haya probado en carretera.
report-next = Qué grabar a continuación
report-next-more = { $count ->
    [one] Un paso más; véase más abajo.
   *[other] { $count } pasos más; véase más abajo.
 }
report-clear-first = Primero corregir esto y volver a registrar, pues puede explicar lo demás: { $cause }.
report-next-nothing = Si el problema vuelve, hacer la misma grabación mientras está presente.
report-cost-next = La grabación siguiente cuesta { $rate } por hora, neto.
report-quantity = Cantidad
report-rate-net = Tarifa, neta
report-amount-net = Importe, neto
line-held = en espera
report-total = Total { $state }


report-evidence = Las imágenes
report-evidence-whole = Grabación completa
report-evidence-speed = Velocidades de giro
report-evidence-detail = Detalle, de { $from } s a { $to } s
report-evidence-time = Tiempo (s)
report-evidence-good = rango correcto
report-evidence-good-curve = rango correcto: la curva de { $vehicles } vehículos sanos, del 5 al 95 %
report-evidence-at-rest = parado
report-evidence-no-speed = sin velocidad { $phase }
report-evidence-alt = { $count ->
    [one] Un trazo
   *[other] { $count } trazos, uno sobre otro,
 } de { $file } durante { $duration } s: { $rows }. { $marks }
report-evidence-alt-row = { $label } entre { $low } y { $high } { $unit }
report-evidence-alt-mark = Marcado de { $from } s a { $to } s: { $label }.
report-evidence-caption-normal = Lo grabado no muestra nada fuera de lo normal.
report-evidence-caption-compared = Izquierda: antes de la reparación. Derecha: después, con las mismas escalas.
report-photo-alt = Foto: { $caption }

report-before-after = Antes y después
report-before = Antes
report-after = Después
report-outcome = Resultado
report-not-seen = ya no se ve
report-observation = Observación
outcome-mended = Reparado
outcome-unchanged = Como antes
outcome-worse = Peor
outcome-not-comparable = No comparable

report-codes = Códigos de avería y qué significan aquí
report-codes-note = Un código de avería dice qué no pudo hacer una unidad de control. No dice qué pieza falló.
report-code = Código
report-code-module = Unidad
report-code-status = Estado
report-code-here = Aquí
report-code-unjudged = Las grabaciones ni lo apoyan ni lo contradicen.
code-status-active = presente ahora
code-status-pending = pendiente
code-status-confirmed = confirmado
code-status-permanent = permanente
code-status-history = antes, ahora no
code-status-not-tested = sin probar desde el borrado
code-status-none = no indicado

report-cautions-note = Palabras de advertencia según ISO 3864-2 y ANSI Z535.4: PELIGRO causa la muerte o lesiones graves si no se evita, ADVERTENCIA puede causarlas, PRECAUCIÓN puede causar lesiones leves o moderadas. AVISO, solo de ANSI Z535.4, se refiere a daños materiales.
report-source-shop = de la hoja propia del taller
report-cautions = Seguridad para quienes hacen el trabajo
report-repair = La reparación, paso a paso
report-steps = El trabajo, por orden
report-decide = Usted decide cada paso por separado, en la última página.
report-stage-diagnosis = Diagnóstico
report-stage-first-step = Primer paso, sin abrir nada
report-stage-teardown = Abrir la unidad y volver a cerrarla
report-stage-repair = Reparación y comprobación final
report-proof = Comprobación final

report-estimate = Precios
report-estimate-note = Solo mano de obra. El taller presupuesta piezas y material.
report-estimate-no-tax = Todos los precios son netos: el taller no ha indicado impuesto.
report-work = Trabajo
report-line-state = Estado
line-offered = ofrecido
line-declined = rechazado
line-authorised = autorizado
line-done = hecho
line-billed = hecho y facturado
report-estimate-example = Las horas salen del catálogo de ejemplo incorporado, que es inventado: no son tiempos de reparación.
report-total-net = Neto
report-total-tax = Impuesto
report-total-tax-rate = Impuesto { $rate } %
report-total-gross = Con impuesto
report-sum-net = { $sum } netos
report-sum-gross = { $sum } con impuesto
report-agreed = Qué se acordó y qué se hizo
report-agreed-authorised = Autorizado por { $by } el { $time }, { $how }, hasta { $limit }.
report-agreed-authorised-unlimited = Autorizado por { $by } el { $time }, { $how }.
report-agreed-declined = Rechazado por { $by } el { $time }, { $how }.
report-agreed-done = Hecho por { $by }, anotado el { $time }.
report-agreed-done-plain = Hecho.
report-agreed-note = Nota: { $note }
consent-signed = por escrito
consent-telephone = por teléfono
consent-message = por mensaje
consent-screen = en pantalla
report-hold-beyond-limit = En espera: con esto el trabajo suma { $needed }, y hay autorizados { $limit }.
report-hold-not-authorised = En espera: hecho, pero sin autorizar.
report-hold-number-taken = En espera: otra orden tiene el mismo número ({ $jobs }).
report-declined-open = La unidad está abierta. Se vuelve a cerrar tal como está, o queda abierta hasta que usted decida.
report-authorise = Autorización

report-auth-why = Qué se abre, y por qué
report-auth-destroyed = Piezas que se gastan al abrir
report-auth-undo = ¿Puede deshacerse?
report-auth-undo-text = La unidad puede volver a cerrarse, pero no siempre como estaba: una pieza averiada quizá no funcione más una vez movida.
report-auth-time = Plazo máximo para volver a montar
report-auth-storage = Custodia del vehículo abierto
report-auth-limit-percent = { $amount } (el presupuesto y un { $percent } %)
report-auth-how = Cómo se autoriza
report-auth-how-signed = firmado aquí
report-auth-how-telephone = por teléfono
report-auth-how-message = por correo o mensaje
report-auth-legal-source = Texto aportado por el taller. Fuente: { $source }; a fecha de { $day }.
report-auth-decline = Si usted no autoriza
report-auth-decline-text = El vehículo queda como está y la avería sigue. Puede llevarse los resultados de este informe a otro lugar.
report-auth-limit = Sin pasar de
report-auth-parts = Piezas sustituidas
report-auth-parts-return = devolvérmelas
report-auth-parts-keep = pueden desecharse
report-auth-yes = Lo autorizo
report-auth-no = No lo autorizo
report-auth-customer = Nombre del propietario
report-auth-signature = Firma
report-auth-date = Fecha y hora
report-auth-shop = Por el taller
report-auth-legal = Condiciones del taller
report-auth-deferral = Este informe es una prueba técnica. Van antes los formularios de presupuesto y autorización que exige la ley del lugar, y el trabajo de personas habilitadas donde se exige. Un informe sin firmar no autoriza nada.

report-record = El expediente
report-record-files = Archivos
report-record-file = Archivo
report-record-use = Uso
report-record-hash = SHA-256
report-file-read = leído
report-file-set-aside = no utilizado
report-record-conditions = Condiciones de cada grabación
report-record-engine = Motor
report-record-selector = Selector
report-record-phase = Momento
report-record-rate = Muestreo
report-record-duration = Duración
report-record-not-stated = no indicado
report-stated-by = { $value } ({ $source })
phase-before = antes de la reparación
phase-after = después de la reparación
engine-running = motor en marcha
engine-off = motor parado
engine-cranking = motor arrancando
selector-in = selector en { $letter }
report-record-channels = Canales y calibración
report-record-channel = Canal
report-record-role = Interpretado como
report-record-how = Cómo se sabe
report-record-calibration = Calibración
role-by-unknown = no se sabe
role-by-job-file = job.toml
role-by-guess = reconocido con una certeza del { $percent } %: { $reason }
report-calibrated = lo grabado × { $scale } + { $offset } da { $unit }
report-calibrated-scale = lo grabado × { $scale } da { $unit }
report-not-calibrated = sin calibrar
report-record-finding = Observación
report-record-value = Valor
report-record-limit = Límite
report-record-source = Fuente
grade-normal = normal
grade-abnormal = anómalo
grade-unusable = no utilizable
grade-unreadable = ilegible
grade-not-tested = no comprobado
report-record-sources = Fuentes de los límites
report-record-reason = Motivo
report-record-weights-note = En decibanes. Los pesos con la fuente «criterio» son estimaciones de expertos sin datos que las respalden, y se mantienen pequeños.
report-record-not-run = Comprobaciones que no se hicieron
report-record-check = Comprobación
report-record-plugins = Comprobaciones que se hicieron
report-record-version = Versión
report-record-problems = Particularidades de los archivos
report-record-place = Lugar
report-record-text = Caracteres que no pudieron imprimirse
report-record-text-note = Estos textos contienen caracteres que la letra del informe no tiene; cada uno se imprime como □.

# The technician's report.
report-tech-explanations = Cada causa, con lo que habla a favor y en contra
report-tech-for = A favor
report-tech-against = En contra
report-tech-is-verdict = el veredicto
report-tech-ruled-out = descartada
report-tech-explained-away = lo que habla a su favor cuenta para una causa más precisa
report-tech-missing = necesario y no visto: { $list }
report-tech-blocked = en suspenso por: { $list }
report-tech-not-recorded = no grabado: { $list }
report-tech-not-seen = se apoya en lo que no se vio
report-tech-would-change = Pasaría a
report-tech-if-seen = Si se viera que
report-tech-would-rule-out = la causa quedaría descartada
report-tech-group = { $count } veces, todas { $range }
report-tech-would-weaken = quedaría abierta
report-tech-would-make-probable = pasaría a ser probable
report-tech-would-establish = tendría el peso de una causa comprobada
report-tech-effect = Efecto
report-tech-measurements = Cada medida
report-tech-uncertainty = Valores con su incertidumbre típica (k = 1, JCGM 100), redondeada a su segunda cifra.
report-tech-subject = De
report-tech-time = Tiempo (s)
report-tech-whole-job = Toda la orden
report-tech-methods = Cómo se midió
report-tech-method-unknown = Este informe no lo sabe; preguntar a quien hizo esta comprobación.

# order
# Queja, causa y corrección: las tres partes de una orden de reparación, para el sistema de facturación.
order-heading-complaint = Queja
order-heading-cause = Causa
order-heading-correction = Corrección
order-complaint = El cliente indica: { $text }
order-complaint-unstated = La queja del cliente no quedó anotada.
order-complaint-codes = Códigos de avería: { $codes }.
order-cause-established = { $cause }: demostrado por medición.
order-cause-probable = { $cause }: probable, no lo bastante seguro para actuar.
order-cause-open = Causa aún no determinada.
order-cause-nothing = Ningún fallo en lo que se grabó.
order-cause-next = Por grabar a continuación: { $next }
order-correction-authorised = Autorizado: { $work }.
order-correction-done = Hecho: { $work }.
order-correction-offered = Ofrecido: { $work }.
order-correction-declined = Rechazado: { $work }.
order-correction-none = Ningún trabajo realizado ni autorizado.
order-correction-proven = La grabación posterior a la reparación muestra que la avería está corregida.
order-correction-not-proven = La grabación posterior a la reparación no muestra que la avería esté corregida.
order-draft = BORRADOR para el sistema de facturación, hecho a partir del diagnóstico. No es una factura emitida.
