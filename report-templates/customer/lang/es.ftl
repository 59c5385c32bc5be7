### Todas las frases de los informes en español (sintaxis Fluent, projectfluent.org).
### Traducción de en.ftl: las claves, los argumentos y los atributos `.word` quedan como están allí.

# findings

finding-generic = { $kind-name } ({ $subject-name }): { $value }{ $limit }.
finding-generic-plain = { $kind-name } ({ $subject-name }).
finding-generic-limit = , se espera { $range }
finding-generic-range-between = de { $low } a { $high }
finding-generic-range-above = al menos { $low }
finding-generic-range-below = como máximo { $high }

# Actuator current
actuation-clutch = Accionamiento de embrague: { NUMBER($value, maximumFractionDigits: 1) } A de pico, terminado a los { NUMBER($duration_s, maximumFractionDigits: 2) } s.
actuation-small = Accionamiento pequeño: { NUMBER($value, maximumFractionDigits: 1) } A de pico, terminado a los { NUMBER($duration_s, maximumFractionDigits: 2) } s, del tamaño del de un motor de marchas.
actuation-unscaled = Accionamiento, terminado a los { NUMBER($duration_s, maximumFractionDigits: 2) } s (no se conoce la escala de la pinza, por eso no hay amperios).
actuation-stall = Intento bloqueado: la corriente sube a { NUMBER($value, maximumFractionDigits: 1) } A y se queda cerca del pico durante { NUMBER($hold_s, maximumFractionDigits: 2) } s; lo que mueve no se mueve.
actuation-stall-unscaled = Intento bloqueado: la corriente se queda cerca del pico durante { NUMBER($hold_s, maximumFractionDigits: 2) } s (no se conoce la escala de la pinza, por eso no hay amperios).
actuation-absent = La unidad de control despierta a los { NUMBER($woke_s, maximumFractionDigits: 1) } s y trabaja, pero ningún actuador de embrague toma su corriente en los { NUMBER($listened_s, maximumFractionDigits: 0) } s que siguen.
actuation-absent-unwatched = Ningún actuador de embrague toma su corriente; el comienzo del intento no se registró, así que la unidad de control quizá no lo intentó.
actuation-absent-own-line = No se ve nada ({ $subject-name }) mientras el otro actuador de embrague trabaja; quizá la unidad de control no lo pretendía.
attempts = { $value ->
    [one] Un intento acaba en bloqueo.
   *[other] { $value } intentos acaban en bloqueo.
 }
gave-up = Tras el último bloqueo, a los { NUMBER($end_s, maximumFractionDigits: 1) } s, la unidad de control no lo intenta más.

# Shaft motion
turning-at-rest = El { $subject-name } gira de forma constante durante { NUMBER($steady_s, maximumFractionDigits: 1) } s con el motor en marcha, el selector en P o N y ningún embrague accionado: su embrague no suelta.
turning-drives = El { $subject-name } gira; con el selector en posición de marcha puede hacerlo.
turning-vehicle-moves = El { $subject-name } gira mientras el vehículo se mueve, como debe ser.
turning-engine-off = El { $subject-name } gira con el motor parado: lo hacen girar las ruedas, ningún embrague puede moverlo.
turning-commanded = El { $subject-name } gira tras accionarse un embrague, como debe ser.
turning-coasting = El { $subject-name } gira un momento sin mantener su velocidad: es arrastrado y se va parando.
turning-slow = El { $subject-name } gira despacio; el arrastre del aceite y de los rodamientos puede causarlo.
turning-conditions-unknown = El { $subject-name } gira, pero no se sabe si el motor estaba en marcha ni dónde estaba el selector: que gire, por sí solo, no prueba nada.
turning-command-unknown = El { $subject-name } gira con el selector en P o N; sin la corriente de alimentación no puede decirse si un embrague se accionó a propósito.
turning-output = El { $subject-name } gira: el vehículo se mueve.
shaft-speed = El { $subject-name } gira a { NUMBER($value, maximumFractionDigits: 0) } rpm (mediana).
shaft-at-rest = El { $subject-name } está parado durante todo el registro.
shaft-at-rest-engine-off = El { $subject-name } está parado; el motor no estaba en marcha, así que un embrague que arrastra no podría haberlo hecho girar.
shaft-at-rest-engine-unknown = El { $subject-name } está parado; no se sabe si el motor estaba en marcha, así que con esto no se descarta un embrague que arrastra.
shaft-at-rest-vr = El { $subject-name } no da impulsos. Un sensor inductivo calla en reposo y también a velocidad muy baja.
shaft-at-rest-creep = El { $subject-name } no gira; flancos de diente aislados muestran que se desplaza muy despacio o que un diente está ante el sensor.
rotation-refused-undersampled = Los impulsos del { $subject-name } no se toman por velocidad: solo { $detail } muestras por diente, cualquier velocidad podría ser falsa.
rotation-refused-dithering = Los impulsos del { $subject-name } no se toman por giro: varían un { $detail } % de uno al siguiente, como un flanco de diente que tiembla ante el sensor.
rotation-refused-small-swing = Los impulsos del { $subject-name } no se toman por giro: oscilan solo { $detail } V, demasiado poco para la señal propia del sensor.
rotation-refused-spikes = Los impulsos del { $subject-name } no se toman por giro: son agujas del { $detail } % del periodo, no dientes.
rotation-refused-too-regular = Los impulsos del { $subject-name } no se toman por giro: su ritmo varía solo un { $detail } %, más constante que cualquier motor; es más probable una fuente eléctrica.
rotation-refused-copy = Los impulsos del { $subject-name } no se toman por giro: son una copia pequeña de otro canal ({ $detail }).

# Supply
supply-sag = Con el accionamiento más fuerte la alimentación cae { NUMBER($value, maximumFractionDigits: 2) } V, hasta { NUMBER($extreme_v, maximumFractionDigits: 1) } V.
ground-drop = Con el accionamiento más fuerte la masa sube { NUMBER($value, maximumFractionDigits: 2) } V.
feed-resistance = Resistencia del circuito ({ $subject-name }): { NUMBER($milliohm, maximumFractionDigits: 1) } miliohmios, por cómo la tensión sigue a la corriente a lo largo de { NUMBER($swing_a, maximumFractionDigits: 0) } A.
fuse-duty = En su segundo más duro la línea lleva { NUMBER($rms_a, maximumFractionDigits: 0) } A eficaces, el { NUMBER($value, maximumFractionDigits: 0) } % del valor nominal del fusible.

# Gear train
gear-ratio = El { $subject-name } gira { NUMBER($value, maximumFractionDigits: 3) } veces por cada vuelta del eje de salida.
gear-ratio-named = El { $subject-name } gira { NUMBER($value, maximumFractionDigits: 3) } veces por cada vuelta del eje de salida: marcha { $gear }.
shift = Cambio de marcha en { NUMBER($duration_s, maximumFractionDigits: 2) } s.
slip = Con la marcha mantenida, el motor gira { NUMBER($value, maximumFractionDigits: 0) } rpm ({ NUMBER($percent, maximumFractionDigits: 0) } %) más deprisa que el { $subject-name }, que su embrague debería unir a él.
slip-none = Con la marcha mantenida, el motor y el { $subject-name } giran igual (con menos de { NUMBER($value, maximumFractionDigits: 0) } rpm de diferencia).
double-engagement = La salida se frena un { NUMBER($value, maximumFractionDigits: 0) } % en { NUMBER($duration_s, maximumFractionDigits: 2) } s, desde que se cierra un embrague hasta que se abre el otro: los dos transmiten a la vez.

# Sensor health
sensor-dead = El sensor del { $subject-name } no muestra nada mientras el motor mueve el vehículo por ese eje.
sensor-silent = El sensor del { $subject-name } no muestra nada en absoluto mientras el vehículo circula y cambia de marcha, cosa que hace por un eje y otro.
sensor-dropouts = El sensor del { $subject-name } se corta { $value } veces ({ NUMBER($lost_s, maximumFractionDigits: 1) } s en total) y sigue a la misma velocidad: el eje siguió girando, la señal no.

# Signal quality
quality-too-short = El registro dura solo { NUMBER($value, maximumFractionDigits: 2) } s.
quality-missing = Falta el { NUMBER($value, maximumFractionDigits: 0) } % de los valores ({ $subject-name }).
quality-clipped = La señal llega al tope del margen de medida: sus picos están cortados ({ $subject-name }).
quality-reversed = La señal apunta hacia abajo: la pinza se puso al revés ({ $subject-name }).
quality-offset = La señal reposa en { NUMBER($value, maximumFractionDigits: 1) } A: la pinza no se puso a cero, o algo más toma corriente ({ $subject-name }).
quality-undersampled = La señal se muestreó demasiado despacio: { NUMBER($value, maximumFractionDigits: 1) } muestras por diente ({ $subject-name }).
quality-could-alias = La señal se muestreó demasiado despacio para excluir una velocidad falsa: al ralentí un diente tendría { NUMBER($value, maximumFractionDigits: 1) } muestras ({ $subject-name }).
quality-doubled-edges = La señal tiene { $value } flancos dobles ({ $subject-name }). Se dejaron fuera; de la velocidad solo hay que fiarse después de mirar la señal.
quality-folded = La señal rebasa el margen del registrador y sale por el otro extremo ({ $subject-name }; { $value } muestras, tomadas como fuera de margen): registrarla con un margen mayor antes de fiarse de su forma.
quality-teeth-unknown = No se conoce el número de dientes, así que los impulsos no dan velocidad ({ $subject-name }).
scale-unknown = No se conoce la escala de la pinza, así que sus lecturas no son amperios ({ $subject-name }).
engine-contradicted = Lo que se escribió sobre el motor no concuerda con el registro.

# Codes
code-supported = El código { $code } concuerda con lo medido.
code-contradicted = El código { $code } se da como presente, pero lo que afirma se midió y está en orden.
code-not-tested = El registro ni confirma ni contradice el código { $code }.
code-history = El código { $code } es una anotación antigua; no dice nada de las medidas de hoy.
code-not-known = Lo que afirma el código { $code } no puede compararse con este registro.

# Kinds of observation
kind-actuation = Movimiento de actuador
kind-actuation-stall = Actuador forzado contra un tope
kind-actuation-absent = Actuador que debió moverse y no lo hizo
kind-attempts = Número de intentos de aprendizaje
kind-gave-up = Aprendizaje abandonado por la unidad de control
kind-shaft-turning = Eje girando
kind-shaft-at-rest = Eje parado
kind-shaft-turning-at-rest = Eje que gira donde debe estar parado
kind-shaft-speed = Velocidad del eje
kind-gear-ratio = Relación de transmisión
kind-slip = Patinaje del embrague
kind-shift = Cambio de marcha
kind-supply-sag = Tensión de alimentación bajo carga
kind-feed-resistance = Resistencia de la alimentación
kind-fuse-duty = Carga del fusible
kind-sensor-fault = Señal del sensor de velocidad
kind-signal-quality = Calidad del registro
kind-ground-drop = Tensión de masa bajo carga
kind-rotation-refused = Impulsos que no son giro
kind-double-engagement = Dos marchas a la vez
kind-scale-unknown = Pinza de escala desconocida
kind-condition-contradicted = Dato que el registro contradice
kind-code-not-tested = Código que el registro no prueba
kind-code-contradicted = Código que el registro contradice
kind-code-supported = Código que el registro apoya

# Marks in a picture
mark-actuation = accionamiento
mark-actuation-stall = forzado contra un tope
mark-actuation-absent = sin corriente
mark-gave-up = aprendizaje abandonado
mark-shaft-turning = gira
mark-shaft-at-rest = parado
mark-shaft-turning-at-rest = gira, debe estar parado
mark-shaft-speed = gira
mark-slip = patina
mark-shift = cambio de marcha
mark-supply-sag = la tensión cae
mark-sensor-fault = señal del sensor defectuosa
mark-ground-drop = la masa sube
mark-rotation-refused = no es giro
mark-double-engagement = dos marchas a la vez
mark-signal-quality = registro no utilizable

# Subjects
subject-supply-current = corriente de alimentación de la caja
subject-supply-voltage = tensión de alimentación de la caja
subject-ground-voltage = caída de tensión en la masa
subject-input-shaft-1 = eje de entrada 1
subject-input-shaft-2 = eje de entrada 2
subject-output-shaft = eje de salida
subject-engine-speed = régimen del motor
subject-actuator-current-1 = corriente del actuador del embrague 1
subject-actuator-current-2 = corriente del actuador del embrague 2
subject-gear-motor-current-1 = corriente del motor de marchas 1
subject-gear-motor-current-2 = corriente del motor de marchas 2
subject-selector = posición del selector
subject-other = otro canal
subject-whole = todo el registro

# units

unit-rpm = rpm

# causes

cause-clutch-1-drag = El embrague 1 no suelta
cause-clutch-1-drag-plain = El embrague 1 sigue moviendo su eje en la caja de cambios aunque debería estar abierto. La caja no puede aprender dónde empieza a agarrar el embrague, y puede tirar del vehículo cuando no debe.
cause-clutch-1-drag-ruled-out = Que el embrague 1 arrastre

cause-clutch-2-drag = El embrague 2 no suelta
cause-clutch-2-drag-plain = El embrague 2 sigue moviendo su eje en la caja de cambios aunque debería estar abierto. La caja no puede aprender dónde empieza a agarrar el embrague, y puede tirar del vehículo cuando no debe.
cause-clutch-2-drag-ruled-out = Que el embrague 2 arrastre

cause-clutch-1-slip = El embrague 1 patina
cause-clutch-1-slip-plain = El embrague 1 no aguanta el par del motor: el motor gira más deprisa que el eje que el embrague debería unir a él.
cause-clutch-1-slip-ruled-out = Que el embrague 1 patine

cause-clutch-2-slip = El embrague 2 patina
cause-clutch-2-slip-plain = El embrague 2 no aguanta el par del motor: el motor gira más deprisa que el eje que el embrague debería unir a él.
cause-clutch-2-slip-ruled-out = Que el embrague 2 patine

cause-clutch-actuator-jam = Un actuador de embrague está agarrotado
cause-clutch-actuator-jam-plain = Uno de los dos motores que accionan los embragues trabaja con fuerza y no puede mover su embrague.
cause-clutch-actuator-jam-ruled-out = Un actuador de embrague agarrotado

cause-clutch-actuator-1-jam = El actuador del embrague 1 está agarrotado
cause-clutch-actuator-1-jam-plain = El motor que acciona el embrague 1 trabaja con fuerza y no puede moverse: su corriente sube y se queda alta.
cause-clutch-actuator-1-jam-ruled-out = Un actuador agarrotado del embrague 1

cause-clutch-actuator-2-jam = El actuador del embrague 2 está agarrotado
cause-clutch-actuator-2-jam-plain = El motor que acciona el embrague 2 trabaja con fuerza y no puede moverse: su corriente sube y se queda alta.
cause-clutch-actuator-2-jam-ruled-out = Un actuador agarrotado del embrague 2

cause-gear-actuator-jam = Un actuador de marchas está agarrotado
cause-gear-actuator-jam-plain = Un motor que cambia las marchas trabaja con fuerza y no puede moverse: su corriente sube y se queda alta.
cause-gear-actuator-jam-ruled-out = Un actuador de marchas agarrotado

cause-actuation-jam = Un mecanismo dentro de la caja está agarrotado
cause-actuation-jam-plain = La caja de cambios acciona con fuerza uno de sus motores y la pieza no puede moverse. Medida en la alimentación común, la corriente no dice qué motor es.
cause-actuation-jam-ruled-out = Un mecanismo agarrotado

cause-actuator-open-circuit = Un actuador no está conectado
cause-actuator-open-circuit-plain = La unidad de control intenta mover un actuador y no pasa corriente: el cableado, el conector o el motor están interrumpidos.
cause-actuator-open-circuit-ruled-out = Un actuador sin conexión

cause-supply-weak = La alimentación eléctrica de la caja es débil
cause-supply-weak-plain = La tensión en la caja de cambios cae demasiado cuando toma corriente, y sus motores no reciben la potencia que necesitan. La caja en sí puede estar bien.
cause-supply-weak-ruled-out = Una alimentación eléctrica débil

cause-shaft-sensor-1-fault = El sensor de velocidad del eje de entrada 1 está averiado
cause-shaft-sensor-1-fault-plain = La señal del sensor de velocidad no es la que puede dar un eje que gira ni uno parado: fallan el sensor, su conector o su cableado.
cause-shaft-sensor-1-fault-ruled-out = Un sensor averiado del eje de entrada 1

cause-shaft-sensor-2-fault = El sensor de velocidad del eje de entrada 2 está averiado
cause-shaft-sensor-2-fault-plain = La señal del sensor de velocidad no es la que puede dar un eje que gira ni uno parado: fallan el sensor, su conector o su cableado.
cause-shaft-sensor-2-fault-ruled-out = Un sensor averiado del eje de entrada 2

cause-double-engagement = Hay dos marchas metidas a la vez
cause-double-engagement-plain = Los dos ejes de la caja están unidos a las ruedas al mismo tiempo, lo que nunca debe ocurrir.
cause-double-engagement-ruled-out = Dos marchas a la vez

cause-relearn-not-completed = El procedimiento de aprendizaje no se completó
cause-relearn-not-completed-plain = Las piezas se mueven como deben, pero la unidad de control detuvo el procedimiento de aprendizaje antes de su fin. Nada en el registro habla a favor de abrir la caja.
cause-relearn-not-completed-ruled-out = Un aprendizaje que solo quedó sin terminar

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
reason-too-short = El registro es demasiado corto para mostrar un accionamiento con el reposo anterior y posterior.
reason-clipped = La corriente llega al tope del margen de medida, así que no se conoce su altura verdadera.
reason-reversed = La pinza de corriente se puso al revés.
reason-offset = La pinza de corriente no se puso a cero antes del registro.
reason-undersampled = Un sensor de velocidad se muestreó demasiado despacio, así que cualquier velocidad podría ser falsa.
reason-edges = La señal de un sensor de velocidad rebasa el margen del registrador o tiene flancos dobles, así que no hay que fiarse de su velocidad.
reason-teeth-unknown = El vehículo se mueve, pero no se conoce el número de dientes de una rueda, así que las velocidades no pueden compararse.
reason-scale-unknown = No se conoce la escala de la pinza, así que los accionamientos no pueden juzgarse por su tamaño.
reason-missing = Faltan demasiados valores en el registro.
reason-engine-contradicted = Lo que se escribió sobre el motor no concuerda con el registro.
reason-conditions-unknown = Un eje gira, pero no se conocen motor ni selector; que gire, por sí solo, no prueba nada.
reason-command-unknown = Un eje gira, pero no se registró la corriente de alimentación que mostraría el accionamiento de un embrague.

# next

next-record-own-actuator-current = Medir la corriente de cada actuador de embrague en su propio cable y registrar otra vez la misma operación.
next-record-supply-current = Registrar la corriente por el fusible de la caja durante todo el procedimiento de aprendizaje.
next-record-both-shafts = Registrar los sensores de velocidad de los dos ejes de entrada junto con la corriente de alimentación.
next-record-engine-running-park = Registrar los dos ejes de entrada durante al menos 30 segundos con el motor en marcha y el selector en P, y anotar ambas cosas en job.toml.
next-record-whole-relearn = Registrar el procedimiento de aprendizaje desde antes de que empiece hasta después de que termine.
next-record-supply-voltage = Registrar la tensión en el conector de la caja, entre alimentación y masa, mientras toma su corriente más alta.
next-record-ground-voltage = Registrar la caída de tensión de la masa de la caja al polo negativo de la batería mientras toma su corriente más alta.
next-record-engine-speed = Registrar el sensor de régimen del motor junto con los dos ejes de entrada.
next-record-output-shaft = Registrar el sensor de velocidad del eje de salida junto con los dos ejes de entrada.
next-record-higher-rate = Registrar otra vez con al menos diez muestras por diente de los sensores de velocidad.
next-record-again = Hacer otra vez el mismo registro, comprobando antes cada sonda.
next-record-longer = Registrar al menos diez segundos, desde antes del intento hasta después.
next-repeat-cold-and-warm = Hacer el mismo registro en frío y en caliente.
next-measure-actuator-resistance = Con el contacto quitado y el conector separado, medir la resistencia del devanado de cada actuador de embrague y de su cableado.
next-clamp-range = Poner la pinza y el registrador en un margen mayor (60 A o más) y registrar otra vez.
next-clamp-direction = Dar la vuelta a la pinza, para que la corriente hacia la caja sea positiva, y registrar otra vez.
next-clamp-zero = Poner la pinza a cero sin cable dentro y cerca del cable, y registrar otra vez.
next-record-range = Poner un margen mayor en el registrador para el sensor de velocidad y registrar otra vez.
next-state-teeth = Anotar en job.toml el número de dientes de la rueda de cada sensor de velocidad; junto a este informe hay un archivo ya rellenado.
next-clamp-scale = Anotar en job.toml los amperios por voltio de la pinza; junto a este informe hay un archivo ya rellenado.
next-state-selector = Anotar en job.toml la posición del selector durante el registro.
next-state-engine = Anotar en job.toml si el motor estaba en marcha durante el registro.
next-state-channels = Anotar en job.toml qué medía cada canal; junto a este informe hay un archivo ya rellenado.
next-check-sensor-wiring = Comprobar el conector y el cableado del sensor de velocidad y hacer otra vez el mismo registro.

# cautions

source-practice = práctica habitual, sin fuente publicada

signal-word-danger = PELIGRO
signal-word-warning = ADVERTENCIA
signal-word-caution = ATENCIÓN
signal-word-notice = AVISO

caution-rolling = El vehículo puede empezar a rodar sin aviso: un embrague puede cerrarse solo, y una caja en punto muerto o desmontada no tiene bloqueo de estacionamiento. Calzar las ruedas, poner el freno de estacionamiento y levantar las ruedas motrices solo sobre borriquetas.
    .word = WARNING
    .title = El vehículo puede rodar
    .source = { source-practice }
caution-running-engine = Los gases de escape matan en espacios cerrados. Tener el motor en marcha solo con extracción de gases o al aire libre.
    .word = DANGER
    .title = Gases de escape
    .source = límites de monóxido de carbono de OSHA (50 ppm) y NIOSH (35 ppm, techo 200 ppm), de memoria
caution-rotating-parts = Ventiladores, correas, ejes y embragues atrapan manos, pelo y cables. Poner o mover una sonda solo con el motor parado y llevar cada cable lejos de las piezas en movimiento.
    .word = WARNING
    .title = Piezas que giran
    .source = { source-practice }
caution-actuator-movement = Los actuadores pueden moverse solos cuando el vehículo despierta, al dar el contacto y durante el aprendizaje. Desconectar su alimentación antes de meter la mano en el mecanismo.
    .word = WARNING
    .title = Piezas que se mueven solas
    .source = { source-practice }
caution-spring-force = Los muelles de embragues y actuadores conservan su fuerza desmontados. Soltarlos y montarlos solo con la herramienta y el procedimiento del fabricante.
    .word = WARNING
    .title = Fuerza de muelles
    .source = { source-practice }
caution-lifting = Una caja de cambios pesa mucho y no está equilibrada. Apoyar el vehículo sobre borriquetas y atar la caja a un gato previsto para su peso.
    .word = WARNING
    .title = Carga pesada
    .source = { source-practice }
caution-jumper-lead = Un cable puente sin fusible puede quemar el cableado y las manos. Protegerlo con un fusible no mayor que el del circuito que alimenta, no puentear nunca un fusible ni alimentar nunca la salida de una unidad de control.
    .word = WARNING
    .title = Cables puente
    .source = { source-practice }
caution-high-voltage = Los cables naranjas llevan una tensión que mata. Solo personas formadas y autorizadas pueden dejar sin tensión un vehículo así y trabajar en él.
    .word = DANGER
    .title = Alta tensión
    .source = ISO 6469-3, clase de tensión B (más de 60 V en continua o 30 V en alterna), de memoria
caution-high-voltage-unknown = Nadie ha indicado si este vehículo tiene un sistema de alta tensión. Buscar primero cables naranjas: llevan una tensión que mata, y solo personas formadas y autorizadas pueden dejar sin tensión un vehículo así y trabajar en él.
    .word = DANGER
    .title = Alta tensión en híbridos
    .source = ISO 6469-3, clase de tensión B (más de 60 V en continua o 30 V en alterna), de memoria
caution-airbag = Los airbags y los tensores de cinturón pueden dispararse. Antes de trabajar cerca de ellos, desconectar la batería y esperar el tiempo que indica el fabricante; no medir nunca con un óhmetro el circuito de un detonador.
    .word = WARNING
    .title = Airbags
    .source = procedimientos de los fabricantes para sistemas de retención, de memoria
caution-hot-parts = Un embrague que ha patinado y el escape queman la piel aun mucho después. Dejar que se enfríen.
    .word = CAUTION
    .title = Piezas calientes
    .source = { source-practice }
caution-clutch-dust = El polvo de embrague daña los pulmones y puede contener amianto. Usar un recinto con aspirador HEPA o el método húmedo a baja presión; no cepillarlo nunca en seco ni soplarlo con aire comprimido.
    .word = WARNING
    .title = Polvo de embrague
    .source = 29 CFR 1910.1001, apéndice F, prácticas de trabajo con embragues y frenos
caution-battery = Las baterías desprenden gas explosivo, contienen ácido y dan corrientes muy altas. Ni llama ni chispa; desconectar primero el lado de masa; proteger los ojos.
    .word = WARNING
    .title = Batería
    .source = { source-practice }
caution-scope-ground = El cable de masa de un instrumento puede poner en cortocircuito una alimentación. Usar entradas aisladas o diferenciales, o comprobar antes que el punto está a masa.
    .word = CAUTION
    .title = Masa del instrumento
    .source = { source-practice }
caution-road-test = Quien conduce no debe leer instrumentos. Llevar a una segunda persona para el registro.
    .word = WARNING
    .title = Prueba en carretera
    .source = { source-practice }

# sheets

sheet-judgement = criterio
sheet-weak-code-source = una fuente pública débil para el código; criterio
sheet-open-cannot-turn = un embrague abierto no puede hacer girar su eje durante segundos a velocidad constante
sheet-drag-would-turn = un embrague que arrastra habría hecho girar su eje con el motor en marcha
sheet-did-not-turn = el eje se registró y no giró donde no debe
sheet-controller-fails = la unidad de control intentó mover el embrague y no pudo, como ocurre con un embrague que no se abre
sheet-other-shaft-rests = en las mismas condiciones el otro eje está parado: motor y selector están como se indicó
sheet-sensor-may-lie = un sensor averiado puede mostrar lo que no hay
sheet-module-stuck = la unidad de control da este embrague por pegado
sheet-slips = en una marcha mantenida el motor gira más deprisa que el eje que mueve el embrague cerrado
sheet-turn-alike = en una marcha mantenida el motor y el eje giran igual
sheet-module-slip = la unidad de control informa de patinaje de este embrague
sheet-own-stall = este actuador toma su corriente de bloqueo y no se mueve
sheet-own-moved = este actuador se movió sin bloqueo
sheet-drag-behind = su embrague arrastra: lo que no se mueve puede ser el mecanismo tras el actuador
sheet-gear-stall = un motor de marchas toma su corriente de bloqueo y no se mueve
sheet-gear-no-stall = los motores de marchas se registraron y no se bloquearon
sheet-gear-stalled = un motor de marchas se bloqueó
sheet-module-gear = la unidad de control señala el accionamiento de marchas
sheet-feed-stall = la alimentación muestra la corriente de bloqueo de un mecanismo que no puede moverse; una pinza en la alimentación no dice cuál
sheet-something-stalls = algo en la alimentación toma su corriente de bloqueo y no se mueve
sheet-feed-no-stall = la alimentación se registró y ningún actuador se bloqueó
sheet-moved-freely = se vio que los actuadores se movían libremente
sheet-drew-nothing = la unidad de control despertó y trabajó, y los actuadores de embrague no tomaron nada
sheet-drew-nothing-start = ningún actuador de embrague tomó corriente, aunque el comienzo del intento no se registró
sheet-one-draws-nothing = un actuador de embrague no toma nada en su propio cable mientras el otro trabaja
sheet-drew-current = un actuador de embrague tomó su corriente
sheet-into-stall = pasa corriente hacia un bloqueo
sheet-module-open = la unidad de control midió el circuito abierto
sheet-supply-loses = con los actuadores la alimentación pierde más de lo que su cableado debería
sheet-supply-held = con los actuadores la alimentación aguantó
sheet-ground-rises = con los actuadores la masa sube más de lo que su cableado debería
sheet-slope = la pendiente de la tensión frente a la corriente es la resistencia de la alimentación, y es demasiado alta
sheet-module-supply = la unidad de control señala su alimentación
sheet-sensor-breaks = el sensor calla o se corta mientras su eje tiene que estar girando
sheet-sensor-whole = el sensor se registró y su tren de dientes no tiene huecos
sheet-module-sensor = la unidad de control señala este sensor
sheet-slows-hard = la salida se frena mucho desde que se cierra un embrague hasta que se abre el otro
sheet-never-slowed = se registró la marcha y su salida nunca se frenó así
sheet-module-two-gears = la unidad de control informa de más de una marcha metida
sheet-shaft-stands = un eje de entrada está parado: nada es arrastrado
sheet-not-learned = la unidad de control dice que la posición del embrague no se aprendió
sheet-fault-stops = se midió una avería que impide el aprendizaje
sheet-drag-explains = un embrague que arrastra explica el intento
sheet-drag-explains-stall = un embrague que arrastra explica el intento que se bloquea

# Shafts, wheels and wires
rotation-refused-too-quick = Los impulsos del { $subject-name } no se toman por giro: la velocidad cambiaría en { $detail } rpm en un segundo, más deprisa de lo que permite la inercia del eje.
rotation-refused-current = Los impulsos del { $subject-name } no se toman por giro: van al compás de otro canal ({ $detail-name }), como hace una inducción eléctrica.
wrong-gear = El { $subject-name } gira { NUMBER($value, maximumFractionDigits: 3) } veces por cada vuelta del eje de salida, una relación que no tiene ninguna de sus marchas (la más próxima: marcha { $nearest }): otro juego de engranajes o grupo final, un número de dientes equivocado o sensores cambiados entre sí.
sensor-contact = El sensor del { $subject-name } pierde el contacto { $value } veces ({ NUMBER($lost_s, maximumFractionDigits: 1) } s en total) y sigue a la misma velocidad: se abre un conector, un cable o una unión.
sensor-missing-teeth = La rueda del { $subject-name } tiene { $value ->
    [one] un hueco
   *[other] { $value } huecos
 } donde debe haber dientes, en el mismo sitio en cada una de { $turns } vueltas.
sensor-doubled-teeth = { $value ->
    [one] Un diente del { $subject-name } cuenta
   *[other] { $value } dientes del { $subject-name } cuentan
 } doble, en el mismo sitio en cada una de { $turns } vueltas: una muesca, una mella o metal en la rueda.
tooth-wheel-gap = La rueda del { $subject-name } tiene { $positions } posiciones, { $value } de ellas sin diente. Muchas ruedas se hacen así; si esta no lo es, faltan dientes.
crosstalk = El cable ({ $subject-name }) lleva el { NUMBER($share_percent, maximumFractionDigits: 0) } % de la señal de otro ({ $from-name }): inducción eléctrica, no giro.
condition-engine-running = El motor está en marcha de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-not-running = El motor no está en marcha de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-cranking = El motor está arrancando de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-unknown = No es bastante seguro si el motor está en marcha de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-no-drive = El selector está en { $selector }: ninguna marcha debe mover el vehículo (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-drive = El selector está en { $selector }, una posición de marcha (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-drive-likely = Nadie dijo dónde estaba el selector; el vehículo se mueve, así que es probable una posición de marcha (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-unknown = Nadie dijo dónde estaba el selector, y nada en el registro lo dice.
condition-commanded = { $value ->
    [0] En este registro ningún embrague se acciona por orden.
    [one] Se ve un accionamiento de embrague por orden; durante { NUMBER($total_s, maximumFractionDigits: 1) } s un eje puede girar por él.
   *[other] Se ven { $value } accionamientos de embrague por orden; durante { NUMBER($total_s, maximumFractionDigits: 1) } s en total un eje puede girar por ellos.
 }
condition-commanded-unknown = La corriente de alimentación no se registró: no se sabe si un embrague se accionó por orden.
condition-clue = { $basis ->
    [stated] según se indicó
    [engine-speed-turns] su propio sensor de régimen gira
    [engine-speed-cranks] su propio sensor de régimen gira a la velocidad del motor de arranque
    [engine-speed-stands] su propio sensor de régimen está parado
    [starter] el motor de arranque hace caer la alimentación
    [starter-later] el motor de arranque se acciona solo más tarde
    [charged-after-start] tras el arranque la alimentación se carga
    [not-charged-after-start] tras el arranque la alimentación no se carga
    [charged] la alimentación se carga, como por un alternador o un cargador de batería
    [resting] la alimentación solo reposa
    [ripple] la alimentación lleva el rizado de un alternador
   *[other] nada lo dice
 }{ $agree ->
    [0] {""}
    [one] ; otra señal concuerda
   *[other] ; otras { $agree } señales concuerdan
 }{ $against ->
    [0] {""}
    [one] ; una habla en contra
   *[other] ; { $against } hablan en contra
 }
kind-wrong-gear = Relación que no tiene ninguna marcha
kind-crosstalk = Inducción entre cables
kind-tooth-wheel = Rueda dentada
kind-condition-engine = Motor durante el registro
kind-condition-selector = Selector durante el registro
kind-condition-commanded = Accionamientos de embrague por orden
next-look-at-wheel = Mirar la rueda por el alojamiento del sensor, una vuelta entera: un diente roto o con muesca, metal pegado a ella.
sheet-wheel-every-turn = falta un diente o cuenta doble en el mismo sitio en cada vuelta: la rueda, o lo que se le pega

# methods

method-actuator-current = Un accionamiento empieza y acaba al 15 % de su pico sobre la corriente de reposo. Un bloqueo se mantiene dentro del 70 % de su pico durante al menos 0,4 s. La carga es la integral de la corriente sobre la de reposo. La incertidumbre une la exactitud de la pinza y el ruido.
method-shaft-motion = La velocidad es la mediana de los periodos de diente, por el número de dientes; su incertidumbre une el muestreo y la dispersión. El giro cuenta como anómalo solo con el motor en marcha, el selector en P o N, ningún accionamiento de embrague en la corriente de alimentación, velocidad constante durante 2 s y un tren de dientes verdadero. No se toman por giro: muestreo insuficiente, flanco que tiembla, oscilación pequeña, agujas, regularidad de reloj, copia de otro canal.
method-supply = La resistencia es la pendiente de mínimos cuadrados de la tensión frente a la corriente en todos los accionamientos, cada uno frente a su entorno; su incertidumbre une el error típico del ajuste y la exactitud de la pinza. No se afirma ningún tiempo de fusión de un fusible.
method-gear-train = La relación es la velocidad de entrada entre la de salida con la marcha mantenida. El patinaje es el régimen del motor menos la velocidad del eje con la marcha mantenida; el arranque queda fuera. Un cambio dura desde que el motor se aparta un 2 % de la relación que mantenía hasta que llega por primera vez al 5 % del otro eje; ninguna norma define este tiempo.
method-sensor-health = Un hueco dura al menos cuatro periodos con la misma velocidad antes y después. Un sensor está muerto cuando el motor mantiene una relación con la salida que el otro eje no explica, o cuando calla durante un trayecto con cambio de marcha.
method-signal-quality = Cada canal con función se compara con lo que estropea una conclusión: demasiado corto, recortado, pinza al revés o sin cero, muestreo insuficiente o que puede dar una velocidad falsa al ralentí, valores que faltan, escala o número de dientes desconocidos, datos contradichos.
method-conditions = Motor y selector se toman de lo que se indicó, comparado con cada señal del registro: el sensor del motor, el tirón del arranque, la carga, el rizado del alternador. Los accionamientos de embrague por orden se leen en la corriente de alimentación. Las señales pesan en decibanes, partiendo de probabilidades iguales; por debajo de 20 a 1 el estado se da por desconocido.
method-codes = Lo que afirma cada código se compara con lo medido. Un código se contradice solo cuando su estado dice que la prueba falló en este ciclo o en el último; una anotación antigua no dice nada a favor ni en contra.

# repairs

repair-clutch-1-drag-1 = Separar la caja del motor, desmontarla y abrir la carcasa del embrague.
repair-clutch-1-drag-2 = Inspeccionar el embrague 1, su cojinete de desembrague, su palanca y el recorrido del actuador; medir desgaste y libertad de movimiento según los límites del fabricante.
repair-clutch-1-drag-3 = Sustituir lo que esté fuera de los límites y ajustar el embrague según el procedimiento del fabricante.
repair-clutch-1-drag-4 = Montar la caja y hacer el procedimiento de aprendizaje.
proof-clutch-1-drag = El mismo registro otra vez: motor en marcha, selector en P, los dos ejes de entrada parados y el procedimiento de aprendizaje completado.
opens-clutch-1-drag = Se desmonta la caja y se abre la carcasa del embrague, porque el embrague 1 no puede verse ni medirse desde fuera.
destroyed-clutch-1-drag = Retenes, juntas, tornillos de un solo uso y anillos de retención de la carcasa del embrague y de la fijación de la caja.

repair-clutch-2-drag-1 = Separar la caja del motor, desmontarla y abrir la carcasa del embrague.
repair-clutch-2-drag-2 = Inspeccionar el embrague 2, su cojinete de desembrague, su palanca y el recorrido del actuador; medir desgaste y libertad de movimiento según los límites del fabricante.
repair-clutch-2-drag-3 = Sustituir lo que esté fuera de los límites y ajustar el embrague según el procedimiento del fabricante.
repair-clutch-2-drag-4 = Montar la caja y hacer el procedimiento de aprendizaje.
proof-clutch-2-drag = El mismo registro otra vez: motor en marcha, selector en P, los dos ejes de entrada parados y el procedimiento de aprendizaje completado.
opens-clutch-2-drag = Se desmonta la caja y se abre la carcasa del embrague, porque el embrague 2 no puede verse ni medirse desde fuera.
destroyed-clutch-2-drag = Retenes, juntas, tornillos de un solo uso y anillos de retención de la carcasa del embrague y de la fijación de la caja.

repair-clutch-1-slip-1 = Comprobar los valores aprendidos del embrague y repetir el procedimiento de aprendizaje antes de abrir nada.
repair-clutch-1-slip-2 = Si el patinaje sigue, desmontar la caja, abrir la carcasa del embrague y medir en el embrague 1 el desgaste, el aceite y los daños por calor.
repair-clutch-1-slip-3 = Sustituir lo que esté fuera de los límites, montar y hacer el procedimiento de aprendizaje.
proof-clutch-1-slip = El mismo trayecto registrado otra vez: con el embrague cerrado, eje y motor giran a la misma velocidad.
opens-clutch-1-slip = Se desmonta la caja y se abre la carcasa del embrague, porque el embrague 1 no puede verse ni medirse desde fuera.
destroyed-clutch-1-slip = Retenes, juntas, tornillos de un solo uso y anillos de retención de la carcasa del embrague y de la fijación de la caja.

repair-clutch-2-slip-1 = Comprobar los valores aprendidos del embrague y repetir el procedimiento de aprendizaje antes de abrir nada.
repair-clutch-2-slip-2 = Si el patinaje sigue, desmontar la caja, abrir la carcasa del embrague y medir en el embrague 2 el desgaste, el aceite y los daños por calor.
repair-clutch-2-slip-3 = Sustituir lo que esté fuera de los límites, montar y hacer el procedimiento de aprendizaje.
proof-clutch-2-slip = El mismo trayecto registrado otra vez: con el embrague cerrado, eje y motor giran a la misma velocidad.
opens-clutch-2-slip = Se desmonta la caja y se abre la carcasa del embrague, porque el embrague 2 no puede verse ni medirse desde fuera.
destroyed-clutch-2-slip = Retenes, juntas, tornillos de un solo uso y anillos de retención de la carcasa del embrague y de la fijación de la caja.

repair-clutch-actuator-jam-1 = Registrar la corriente propia de cada actuador de embrague para hallar cuál de los dos está agarrotado.
repair-clutch-actuator-jam-2 = Desmontar ese actuador desde fuera y mover a mano la palanca del embrague con la herramienta del fabricante: una palanca dura es avería del embrague, una libre es avería del actuador.
repair-clutch-actuator-jam-3 = Sustituir la pieza agarrotada y hacer el procedimiento de aprendizaje.
proof-clutch-actuator-jam = El mismo registro otra vez: cada accionamiento es corto, su corriente vuelve a caer y el procedimiento de aprendizaje se completa.

repair-clutch-actuator-1-jam-1 = Desmontar desde fuera el actuador del embrague 1 y mover a mano la palanca del embrague con la herramienta del fabricante: una palanca dura es avería del embrague, una libre es avería del actuador.
repair-clutch-actuator-1-jam-2 = Sustituir la pieza agarrotada y hacer el procedimiento de aprendizaje.
proof-clutch-actuator-1-jam = El mismo registro otra vez: cada accionamiento del actuador 1 es corto, su corriente vuelve a caer y el procedimiento de aprendizaje se completa.
opens-clutch-actuator-1-jam = Se desmonta la caja y se abre la carcasa del embrague, porque la palanca o el cojinete agarrotados del embrague 1 están dentro.
destroyed-clutch-actuator-1-jam = Retenes, juntas, tornillos de un solo uso y anillos de retención de la carcasa del embrague y de la fijación de la caja.

repair-clutch-actuator-2-jam-1 = Desmontar desde fuera el actuador del embrague 2 y mover a mano la palanca del embrague con la herramienta del fabricante: una palanca dura es avería del embrague, una libre es avería del actuador.
repair-clutch-actuator-2-jam-2 = Sustituir la pieza agarrotada y hacer el procedimiento de aprendizaje.
proof-clutch-actuator-2-jam = El mismo registro otra vez: cada accionamiento del actuador 2 es corto, su corriente vuelve a caer y el procedimiento de aprendizaje se completa.
opens-clutch-actuator-2-jam = Se desmonta la caja y se abre la carcasa del embrague, porque la palanca o el cojinete agarrotados del embrague 2 están dentro.
destroyed-clutch-actuator-2-jam = Retenes, juntas, tornillos de un solo uso y anillos de retención de la carcasa del embrague y de la fijación de la caja.

repair-gear-actuator-jam-1 = Desmontar desde fuera el actuador de marchas, hasta donde el fabricante lo permita, y comprobar que el mecanismo de cambio se mueve libremente.
repair-gear-actuator-jam-2 = Sustituir la pieza agarrotada y hacer el procedimiento de aprendizaje.
proof-gear-actuator-jam = El mismo registro otra vez: cada marcha entra con un accionamiento corto y el procedimiento de aprendizaje se completa.
opens-gear-actuator-jam = Se abre la carcasa de la caja, porque el mecanismo de cambio está dentro.
destroyed-gear-actuator-jam = Aceite de la caja, sellador de la carcasa, retenes y tornillos de un solo uso.

repair-actuation-jam-1 = Hallar primero el mecanismo agarrotado: registrar la corriente propia de cada motor durante la misma operación.
repair-actuation-jam-2 = No hay que abrir nada hasta que ese registro nombre el mecanismo.
proof-actuation-jam = El mismo registro otra vez: cada accionamiento es corto, su corriente vuelve a caer y el procedimiento de aprendizaje se completa.

repair-actuator-open-circuit-1 = Con los conectores separados, medir el circuito del actuador desde la unidad de control hasta el motor: continuidad, presión de los contactos, corrosión.
repair-actuator-open-circuit-2 = Reparar el cableado o el conector, o sustituir el actuador si su propio devanado está interrumpido.
repair-actuator-open-circuit-3 = Hacer el procedimiento de aprendizaje.
proof-actuator-open-circuit = El mismo registro otra vez: pasa corriente en cada accionamiento y el procedimiento de aprendizaje se completa.

repair-supply-weak-1 = Cargar y comprobar la batería.
repair-supply-weak-2 = Medir bajo carga la caída de tensión de la alimentación y de la masa de la caja, unión por unión, y reparar la unión en la que cae.
repair-supply-weak-3 = Repetir el procedimiento de aprendizaje antes de juzgar la caja.
proof-supply-weak = El mismo registro otra vez: la tensión en la caja aguanta con su corriente más alta.

repair-shaft-sensor-1-fault-1 = Comprobar el conector, el cableado, la alimentación y el entrehierro del sensor.
repair-shaft-sensor-1-fault-2 = Si están bien, sustituir el sensor y hacer el procedimiento de aprendizaje.
proof-shaft-sensor-1-fault = El mismo registro otra vez: una señal de dientes limpia y constante del sensor 1.

repair-shaft-sensor-2-fault-1 = Comprobar el conector, el cableado, la alimentación y el entrehierro del sensor.
repair-shaft-sensor-2-fault-2 = Si están bien, sustituir el sensor y hacer el procedimiento de aprendizaje.
proof-shaft-sensor-2-fault = El mismo registro otra vez: una señal de dientes limpia y constante del sensor 2.

repair-double-engagement-1 = No circular con el vehículo.
repair-double-engagement-2 = Comprobar el mecanismo de cambio y sus actuadores; hallar qué marcha queda metida.
repair-double-engagement-3 = Sustituir la pieza averiada y hacer el procedimiento de aprendizaje.
proof-double-engagement = El mismo registro otra vez: en punto muerto los dos ejes de entrada giran libres uno del otro.
opens-double-engagement = Se abre la carcasa de la caja, porque las horquillas de cambio están dentro.
destroyed-double-engagement = Aceite de la caja, sellador de la carcasa, retenes y tornillos de un solo uso.

repair-relearn-not-completed-1 = Cumplir las condiciones del procedimiento de aprendizaje del fabricante: batería, temperatura, selector, puertas, freno.
repair-relearn-not-completed-2 = Repetir el procedimiento y registrarlo de principio a fin.
proof-relearn-not-completed = Un registro del procedimiento de aprendizaje que termina por sí mismo, sin ningún intento abandonado.

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
state-mended = Reparación probada
state-not-mended = Reparación no probada

report-answer = Qué ha fallado
report-answer-repair = Qué hizo la reparación
report-answer-open = Los registros no deciden qué ha fallado
report-answer-open-plain = Aún es posible más de una explicación. Abrir la caja con estas pruebas sería adivinar; los pasos de abajo lo decidirán.
report-answer-nothing = Los registros no muestran ninguna avería
report-answer-nothing-plain = Todo lo que pudo medirse funcionó como debe durante el registro. Una avería que no se dio entonces no puede verse.
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
report-evidence-good-peak = pico bueno conocido
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
line-billable = hecho
line-estimate = presupuesto
report-estimate-example = Las horas salen del catálogo de ejemplo incorporado, que es inventado: no son tiempos de reparación.
report-total-net = Neto
report-total-tax = Impuesto
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
order-correction-authorised = Realizado o autorizado: { $work }.
order-correction-offered = Ofrecido, no autorizado: { $work }.
order-correction-none = Ningún trabajo realizado ni autorizado.
order-correction-proven = El registro posterior a la reparación muestra el fallo corregido.
order-correction-not-proven = El registro posterior a la reparación no demuestra que el fallo esté corregido.
order-draft = BORRADOR para el sistema de facturación, hecho a partir del diagnóstico. No es una factura emitida.
