### Todas las frases de los informes en español (sintaxis Fluent, projectfluent.org).
### Traducción de en.ftl: las claves, los argumentos y los atributos `.word` quedan como están allí.
# findings
finding-generic = { $kind-name } ({ $subject-name }): { $value }{ $limit }.
finding-generic-plain = { $kind-name } ({ $subject-name }).
finding-generic-limit = , se espera { $range }
finding-generic-range-between = de { $low } a { $high }
finding-generic-range-above = al menos { $low }
finding-generic-range-below = como máximo { $high }

subject-whole = todo el registro

# units
unit-rpm = rpm

# reasons
reason-margin = La explicación principal va muy por delante de todas las demás.
reason-second-fault = También se encontró una segunda avería, con pruebas propias; está entre las observaciones.
reason-margin-too-small = Dos explicaciones concuerdan con el registro más o menos igual de bien.
reason-weight-too-small = Las pruebas no pesan bastante para decidir.
reason-required-missing = No se registró una observación necesaria para estar seguros.
reason-no-evidence = El registro no muestra nada que distinga las explicaciones.
reason-at-limit = Un valor medido queda tan cerca de su límite que su incertidumbre deja abierto de qué lado está.
reason-healthy = Todo lo que se registró está como debe estar.
reason-roles-unsure = No es seguro qué medían los canales del registro.
reason-nothing-read = No se pudo leer ningún registro.
reason-repair-proven = El registro posterior a la reparación es sano donde el anterior no lo era.
reason-repair-not-proven = El registro posterior a la reparación aún muestra la avería, o no muestra la misma operación.
reason-repair-unread = No se pudo leer el registro posterior a la reparación; nada muestra si la avería sigue ahí.
next-mend-recording = Corregir lo que la lista de archivos dice del registro posterior a la reparación y repetir el trabajo.
reason-check-did-not-run = No se ejecutó una comprobación que podría haber hablado a favor o en contra.
reason-not-calibrated = El indicio se apoya en números cuya escala no se conoce; su forma por sí sola no lo demuestra.
reason-healthy-in-part = Todo lo que se comprobó está en orden. No todo pudo comprobarse.
reason-not-all-tested = Lo registrado está en orden, pero no comprueba todo lo que debe comprobarse antes de dar la unidad por sana.
reason-suspect-not-tested = Una unidad de control señala una pieza que ningún registro ha comprobado.
reason-unit-unknown = No se conoce la unidad que nombra job.toml, así que no hay límites con los que comparar las mediciones.
reason-time-unknown = No se conoce la unidad de tiempo de un registro, así que no se midió nada en él.
reason-no-system = Nada de lo registrado indica qué sistema se debe examinar.
reason-explained-elsewhere = Una avería hallada en otra parte del vehículo lo explica también; se corrige primero.

# next
# Pasos que el programa pide con cualquier sistema.

next-run-checks-again = Repetir el trabajo para que se ejecuten las comprobaciones que faltaron; el informe técnico las nombra.
next-state-time-unit = Escribir la unidad de tiempo del registro en job.toml (time_unit = "ms", "s" u otra).
next-state-systems = Escribir en job.toml qué se debe examinar ([vehicle] systems) o qué midió cada canal.
next-state-unit = Corregir el nombre de la unidad en job.toml; el mensaje enumera las conocidas.

# why
# Por qué no se comprobó una causa.

why-check-did-not-run = la comprobación no se ejecutó
why-not-recorded = no se registró
why-recording-not-fit = el registro no sirve para ello
why-not-readable = la señal no se pudo leer
why-not-shown-in-any-recording = ningún registro podía mostrarlo

next-record-again = Hacer otra vez el mismo registro, comprobando antes cada sonda.
next-state-channels = Anotar en job.toml qué medía cada canal; junto a este informe hay un archivo ya rellenado.

# cautions
source-practice = práctica habitual, sin fuente publicada

signal-word-danger = PELIGRO
signal-word-warning = ADVERTENCIA
signal-word-caution = ATENCIÓN
signal-word-notice = AVISO

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
report-draft = BORRADOR: aún no revisado por una persona
report-draft-short = BORRADOR
report-reviewed = Revisado por { $name } el { $time }
report-examined-by = Examinado por
report-date = Fecha
report-job = Orden
report-customer = Cliente
report-workshop = Taller
report-vehicle = Vehículo
report-vin = N.º de bastidor
report-plate = Matrícula
report-odometer = Cuentakilómetros
report-complaint = Queja
report-registration = Registro
report-no-shop = Nombre del taller
report-cut-short = (sigue en el acta)
report-notes = Queja completa

state-established = Comprobado
state-probable = Probable
state-open = Sin decidir
state-nothing-found = Ninguna avería hallada
state-nothing-found-in-part = Sin fallo en lo comprobado
state-mended = Reparación probada
state-not-mended = Reparación no probada

report-answer = Qué ha fallado
report-answer-repair = Qué hizo la reparación
report-answer-open = Los registros no deciden qué ha fallado
report-answer-open-plain = Aún es posible más de una explicación. Abrir la caja con estas pruebas sería adivinar; los pasos de abajo lo decidirán.
report-answer-nothing = Los registros no muestran ninguna avería
report-answer-nothing-plain = Todo lo que pudo medirse funcionó como debe durante el registro. Una avería que no se dio entonces no puede verse.
report-answer-nothing-in-part = Sin fallo en lo que se comprobó
report-answer-nothing-in-part-plain = Lo que se comprobó funcionó como debe durante el registro. No todo pudo comprobarse; los pasos siguientes comprueban el resto.
report-answer-mended = La reparación funcionó
report-answer-mended-plain = Lo que estaba mal en el registro anterior a la reparación está como debe en el registro posterior.
report-answer-not-mended = La reparación no está probada
report-answer-not-mended-plain = El registro posterior a la reparación no muestra que haya desaparecido toda avería vista antes.
report-probable-plain = Es la explicación más probable, pero no es bastante segura para abrir la caja por ella. Los pasos de abajo la harán segura.

report-how-sure = Qué grado de seguridad hay
report-how-sure-line = Pruebas: { $words } ({ $db } decibanes, { $margin } por delante de la explicación siguiente).
report-how-sure-line-alone = Pruebas: { $words } ({ $db } decibanes, nada más explica las mismas observaciones).
report-scale = Un decibán mide cuánto pesan las pruebas: cada 10 hacen las observaciones diez veces más probables con esta explicación que sin ella. Palabras según Kass y Raftery (1995): por debajo de 3 a 1 apenas merece mención, desde 3 a 1 positiva, desde 20 a 1 fuerte, desde 150 a 1 muy fuerte.
report-scale-alt = Peso de las pruebas en decibanes: { $list }.
report-weight = { $db ->
    [one] { $db } decibán
   *[other] { $db } decibanes
 }
report-scale-item = { $cause } { $db }
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
report-why = Por qué
report-why-open = Por qué no está decidido

report-known = Qué se sabe
report-unknown = Qué no se sabe
report-unknown-causes = Aún es posible: { $list }.
report-not = Qué no es
report-not-because = { $cause } ({ $reason }).
report-not-more = { $count ->
    [one] Se descartó una explicación más; véase más abajo.
   *[other] Se descartaron { $count } explicaciones más; véase más abajo.
 }
report-not-tested = Lo que no se comprobó
report-not-tested-more = { $count ->
    [one] Una causa más no se comprobó; véase el informe técnico.
   *[other] { $count } causas más no se comprobaron; véase el informe técnico.
 }
report-also-examined = También se examinó
report-not-run = { $count ->
    [one] Una comprobación no se ejecutó; lo que habría mostrado cuenta como no comprobado.
   *[other] { $count } comprobaciones no se ejecutaron; lo que habrían mostrado cuenta como no comprobado.
 }
report-record-limits = Límites
report-limits-of-unit = { $system }: límites de { $limits }, la unidad nombrada.
report-limits-of-system = { $system }: no se nombró ninguna unidad, así que valen los límites generales del sistema.
report-do = Qué hay que hacer
report-do-teardown = Abrir la caja y repararla, previa autorización (véase { $section }).
report-do-proof = Probar la reparación. { $proof }
report-do-not-open = No abrir la caja con estas pruebas.
report-do-nothing = Con estas pruebas no hay que abrir ni sustituir nada.
report-next = Qué registrar a continuación
report-next-more = { $count ->
    [one] Un paso más; véase más abajo.
   *[other] { $count } pasos más; véase más abajo.
 }
report-next-nothing = Si la queja vuelve, hacer el mismo registro mientras está presente.
report-cost = Qué cuesta
report-cost-authorised = Autorizado
report-cost-estimate = Presupuesto de la reparación
report-cost-next = El registro siguiente, por tiempo
report-cost-next-rate = { $rate } por hora
report-cost-done = Diagnóstico y trabajo hecho

report-with-tax = con impuestos

report-evidence = Las pruebas
report-evidence-whole = Registro completo
report-evidence-detail = Detalle, de { $from } s a { $to } s
report-evidence-time = Tiempo (s)
report-evidence-good = valor bueno conocido
report-evidence-at-rest = parado
report-evidence-alt = { $count ->
    [one] Un trazo
   *[other] { $count } trazos, uno sobre otro,
 } de { $file } durante { $duration } s: { $rows }. { $marks }
report-evidence-alt-row = { $label } entre { $low } y { $high } { $unit }
report-evidence-alt-mark = Marcado de { $from } s a { $to } s: { $label }.
report-evidence-caption-normal = { $file }: nada fuera de lo normal en lo registrado.

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

report-ruled-out = Qué se descartó, y cómo
report-against = En contra: { $finding }
report-considered = Considerado, ni probado ni descartado
report-codes = Códigos de avería y qué significan aquí
report-codes-note = Un código de avería dice qué no pudo hacer una unidad de control. No dice qué pieza falló.
report-code = Código
report-code-module = Unidad
report-code-status = Estado
report-code-here = Aquí
report-code-unjudged = Los registros ni lo apoyan ni lo contradicen.
code-status-active = presente ahora
code-status-pending = pendiente
code-status-confirmed = confirmado
code-status-permanent = permanente
code-status-history = antes, ahora no
code-status-not-tested = sin probar desde el borrado
code-status-none = no indicado

report-cautions-note = Palabras de aviso según ANSI Z535.4 e ISO 3864-2: PELIGRO causa la muerte o lesiones graves si no se evita, ADVERTENCIA puede causarlas, ATENCIÓN puede causar lesiones leves o moderadas, AVISO se refiere a daños materiales.
report-source-shop = de la hoja propia del taller
report-cautions = Seguridad para quienes hacen el trabajo
report-repair = La reparación, y cómo se probará
report-steps = Pasos
report-proof = Prueba

report-estimate = Coste
report-estimate-note = Solo mano de obra; las piezas y el material los presupuesta el taller.
report-work = Trabajo
report-hours = Horas
report-rate = Tarifa
report-amount = Importe
report-line-state = Estado
line-offered = ofrecido
line-declined = rechazado
line-authorised = autorizado
line-done = hecho
line-billed = hecho y facturado
report-estimate-example = Las horas salen del catálogo de ejemplo incorporado, que es inventado: no son tiempos de reparación.
report-total-net = Neto
report-total-tax = Impuesto
report-total-authorised = Total autorizado
report-total-estimate = Total presupuestado
report-total-done = Total hecho

report-authorise-teardown = Autorización para abrir la caja de cambios
report-authorise-repair = Autorización de la reparación
report-auth-why = Qué se abre, y por qué
report-auth-what = Qué se hace
report-auth-price-opening = Precio de abrir
report-auth-price-closing = Precio de volver a montar
report-auth-price-both = Abrir y volver a montar, con impuestos
report-auth-price-total = Presupuesto total
report-auth-destroyed = Piezas que se gastan al abrir
report-auth-undo = Si puede deshacerse
report-auth-undo-text = La caja puede volver a montarse, pero no siempre en su estado anterior: una pieza que ha fallado quizá no vuelva a funcionar una vez movida.
report-auth-time = Plazo máximo para volver a montar
report-auth-storage = Custodia del vehículo abierto
report-auth-limit-percent = { $amount } (el presupuesto y un { $percent } %)
report-auth-how = Cómo se autoriza
report-auth-how-signed = firmado aquí
report-auth-how-telephone = por teléfono
report-auth-how-message = por correo o mensaje
report-auth-legal-source = Texto aportado por el taller. Fuente: { $source }; a fecha de { $day }.
report-auth-decline = Si usted no autoriza
report-auth-decline-text = La caja queda cerrada y el vehículo como está. La avería sigue; puede llevarse los resultados de este informe a otro lugar.
report-auth-decline-repair-text = El vehículo queda como está y la avería sigue; puede llevarse los resultados de este informe a otro lugar.
report-auth-limit = No sobrepasar sin consultarme
report-auth-parts = Piezas sustituidas
report-auth-parts-return = devolvérmelas
report-auth-parts-keep = pueden desecharse
report-auth-yes = Autorizo este trabajo
report-auth-no = No autorizo este trabajo
report-auth-customer = Nombre del cliente
report-auth-signature = Firma
report-auth-date = Fecha y hora
report-auth-shop = Por el taller
report-auth-legal = Condiciones del taller
report-auth-deferral = Este informe es una prueba técnica. Los formularios de presupuesto y autorización que exige la ley del lugar, y el trabajo de personas habilitadas donde se exige, van antes. Un informe sin firmar no autoriza nada.

report-record = El acta
report-record-files = Archivos
report-record-file = Archivo
report-record-use = Uso
report-record-hash = SHA-256
report-file-read = leído
report-file-set-aside = apartado
report-record-conditions = Condiciones de cada registro
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
report-record-role = Tomado por
report-record-how = Cómo se sabe
report-record-calibration = Calibración
role-by-unknown = no se sabe
role-by-job-file = job.toml
role-by-guess = supuesto, certeza { $percent } %: { $reason }
report-calibrated = lo registrado × { $scale } + { $offset } da { $unit }
report-calibrated-scale = lo registrado × { $scale } da { $unit }
report-not-calibrated = sin calibrar
report-record-findings = Observaciones, límites y sus fuentes
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
report-record-english = Los mensajes del programa y las fuentes de los límites están en inglés.
report-record-findings-left = { $count ->
    [one] Otra observación está en case.json.
   *[other] Otras { $count } observaciones están en case.json.
 }
report-record-weights = Pesos de las pruebas
report-record-weight = Peso
report-record-reason = Motivo
report-record-weights-note = En decibanes. Los pesos con la fuente «criterio» son estimaciones de expertos sin base de datos, y se mantienen pequeños.
report-record-not-run = Comprobaciones que no se hicieron
report-record-check = Comprobación
report-record-plugins = Comprobaciones que se hicieron
report-record-version = Versión
report-record-problems = Rarezas de los archivos
report-record-place = Lugar
report-record-text = Caracteres que no pudieron imprimirse
report-record-text-note = Estos textos contienen caracteres que la letra del informe no tiene; cada uno se imprime como □.

# The technician's report.
report-tech-explanations = Cada explicación, con lo que habla a favor y en contra
report-tech-for = A favor
report-tech-against = En contra
report-tech-is-verdict = el veredicto
report-tech-ruled-out = descartada
report-tech-explained-away = lo que habla a su favor cuenta para una explicación más precisa
report-tech-missing = necesario y no visto: { $list }
report-tech-blocked = frenada por: { $list }
report-tech-not-recorded = no registrado: { $list }
report-tech-not-seen = se apoya en lo que no se vio
report-tech-would-change = Pasaría a
report-tech-if-seen = Si se viera que
report-tech-would-rule-out = la explicación quedaría descartada
report-tech-would-weaken = quedaría abierta
report-tech-would-make-probable = pasaría a ser probable
report-tech-would-establish = tendría el peso de una causa establecida
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
order-cause-nothing = Ningún fallo en lo que se registró.
order-cause-next = Por registrar a continuación: { $next }
order-correction-authorised = Autorizado: { $work }.
order-correction-done = Hecho: { $work }.
order-correction-offered = Ofrecido: { $work }.
order-correction-declined = Rechazado: { $work }.
order-correction-none = Ningún trabajo realizado ni autorizado.
order-correction-proven = El registro posterior a la reparación muestra el fallo corregido.
order-correction-not-proven = El registro posterior a la reparación no demuestra que el fallo esté corregido.
order-draft = BORRADOR para el sistema de facturación, hecho a partir del diagnóstico. No es una factura emitida.
