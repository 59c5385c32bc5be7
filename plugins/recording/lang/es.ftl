# Signal quality
quality-too-short = La grabación dura solo { NUMBER($value, maximumFractionDigits: 2) } s.
quality-missing = Falta el { NUMBER($value, maximumFractionDigits: 0) } % de los valores ({ $subject-name }).
quality-clipped = La señal llega al tope del margen de medida: sus picos están cortados ({ $subject-name }).
quality-reversed = La señal apunta hacia abajo: la pinza se puso al revés ({ $subject-name }).
quality-offset = La señal reposa en { NUMBER($value, maximumFractionDigits: 1) } A: la pinza no se puso a cero, o algo más toma corriente ({ $subject-name }).
quality-undersampled = La señal se muestreó demasiado despacio: { NUMBER($value, maximumFractionDigits: 1) } muestras por diente ({ $subject-name }).
quality-could-alias = La señal se muestreó demasiado despacio para excluir una velocidad falsa: al ralentí un diente tendría { NUMBER($value, maximumFractionDigits: 1) } muestras ({ $subject-name }).
quality-doubled-edges = La señal tiene { $value } flancos dobles ({ $subject-name }). Se dejaron fuera; de la velocidad solo hay que fiarse después de mirar la señal.
quality-folded = La señal rebasa el margen del registrador y sale por el otro extremo ({ $subject-name }; { $value } muestras, tomadas como fuera de margen): grabarla con un margen mayor antes de fiarse de su forma.
quality-teeth-unknown = No se conoce el número de dientes, así que los impulsos no dan velocidad ({ $subject-name }).
scale-unknown = No se conoce la escala de la pinza, así que sus lecturas no son amperios ({ $subject-name }).
engine-contradicted = Lo que se escribió sobre el motor no concuerda con la grabación.

# Codes
code-supported = El código { $code } concuerda con lo medido.
code-contradicted = El código { $code } se da como presente, pero lo que afirma se midió y está en orden.
code-not-tested = La grabación ni confirma ni contradice el código { $code }.
code-history = El código { $code } es una anotación antigua; no dice nada de las medidas de hoy.
code-not-known = Lo que afirma el código { $code } no puede compararse con esta grabación.

kind-signal-quality = Calidad de la grabación
kind-scale-unknown = Pinza de escala desconocida
kind-condition-contradicted = Dato que la grabación contradice
kind-code-not-tested = Código que la grabación no prueba
kind-code-contradicted = Código que la grabación contradice
kind-code-supported = Código que la grabación apoya
kind-feed-resistance = Resistencia de la alimentación
kind-inrush-current = Corriente de irrupción

mark-signal-quality = grabación no utilizable

subject-supply-voltage = tensión de alimentación
subject-ground-voltage = caída de tensión en la masa
subject-engine-speed = régimen del motor
subject-other = otro canal

reason-too-short = La grabación es demasiado corta para mostrar un accionamiento con el reposo anterior y posterior.
reason-clipped = La corriente llega al tope del margen de medida, así que no se conoce su altura verdadera.
reason-reversed = La pinza de corriente se puso al revés.
reason-offset = La pinza de corriente no se puso a cero antes de la grabación.
reason-undersampled = Un sensor de velocidad se muestreó demasiado despacio, así que cualquier velocidad podría ser falsa.
reason-edges = La señal de un sensor de velocidad rebasa el margen del registrador o tiene flancos dobles, así que no hay que fiarse de su velocidad.
reason-missing = Faltan demasiados valores en la grabación.

next-record-higher-rate = Grabar otra vez con al menos diez muestras por diente de los sensores de velocidad.
next-record-longer = Grabar al menos diez segundos, desde antes del intento hasta después.
next-clamp-range = Poner la pinza y el registrador en un margen mayor (60 A o más) y grabar otra vez.
next-clamp-direction = Dar la vuelta a la pinza, para que la corriente hacia el conjunto sea positiva, y grabar otra vez.
next-clamp-zero = Poner la pinza a cero sin cable dentro y cerca del cable, y grabar otra vez.
next-record-range = Poner un margen mayor en el registrador para el sensor de velocidad y grabar otra vez.
next-state-teeth = Anotar en job.toml el número de dientes de la rueda de cada sensor de velocidad; junto a este informe hay un archivo ya rellenado.
next-state-teeth-plain = Completar los datos de las grabaciones.
next-clamp-scale = Anotar en job.toml los amperios por voltio de la pinza; junto a este informe hay un archivo ya rellenado.
next-clamp-scale-plain = Completar los datos de las grabaciones.
next-state-selector = Anotar en job.toml la posición del selector durante la grabación.
next-state-selector-plain = Completar los datos de las grabaciones.
next-state-engine = Anotar en job.toml si el motor estaba en marcha durante la grabación.
next-state-engine-plain = Completar los datos de las grabaciones.
next-check-sensor-wiring = Comprobar el conector y el cableado del sensor de velocidad y hacer otra vez la misma grabación.

caution-rolling = El vehículo puede rodar o avanzar sin aviso. Un embrague puede cerrarse solo, y una caja en punto muerto, sin corriente o desmontada no tiene bloqueo de estacionamiento. Calzar las ruedas, accionar el freno de estacionamiento y que nadie esté delante ni detrás.
    .word = WARNING
    .title = El vehículo puede rodar
    .source = { source-practice }
caution-running-engine = Los gases de escape matan en locales cerrados sin que se note. Tener el motor en marcha solo con extracción o al aire libre, con un detector de monóxido de carbono a mano.
    .word = DANGER
    .title = Gases de escape
    .source = { source-practice }
caution-rotating-parts = Ventiladores, correas, ejes y embragues atrapan manos, pelo, mangas y cables. Colocar o mover una sonda solo con el contacto quitado y la llave lejos del vehículo: un ventilador puede arrancar solo. Llevar los cables lejos de piezas móviles y calientes.
    .word = WARNING
    .title = Piezas en rotación
    .source = { source-practice }
caution-actuator-movement = Los actuadores pueden moverse al despertar el vehículo, al dar el contacto, al abrir una puerta y durante el aprendizaje, y aplastar los dedos. Cortar su alimentación antes de meter la mano en el mecanismo.
    .word = WARNING
    .title = Piezas que se mueven solas
    .source = { source-practice }
caution-jumper-lead = Un cable puente sin fusible puede quemar el cableado y las manos. Protegerlo con un fusible no mayor que el del circuito que alimenta, no puentear nunca un fusible ni alimentar nunca la salida de una unidad de control.
    .word = WARNING
    .title = Cables puente
    .source = { source-practice }
caution-high-voltage = El sistema de alta tensión de este vehículo puede matar. Sus cables son naranjas; un sistema de 48 voltios no va marcado así y puede quemar y producir arcos. Solo las personas habilitadas según la ley del lugar pueden aislarlo, bloquearlo, esperar lo que indica el fabricante y comprobar la ausencia de tensión. Antes no se abre, desconecta ni mide nada.
    .word = DANGER
    .title = Alta tensión
    .source = ISO 6469-3 (cables naranjas) y normas nacionales de trabajos eléctricos, no consultadas; { source-practice } para los pasos
caution-high-voltage-unknown = Nadie ha indicado si este vehículo es híbrido o eléctrico. Averiguarlo primero: placa, documentos, cables naranjas. Un sistema de 48 voltios no va marcado en naranja. Si lo tiene, solo las personas habilitadas según la ley del lugar pueden aislarlo, esperar lo que indica el fabricante y comprobar la ausencia de tensión.
    .word = DANGER
    .title = ¿Híbrido o eléctrico?
    .source = ISO 6469-3 (cables naranjas) y normas nacionales de trabajos eléctricos, no consultadas; { source-practice } para los pasos
caution-airbag = Los airbags y pretensores pueden dispararse. Antes de trabajar cerca, desconectar la batería y esperar el tiempo que indica el fabricante; no medir nunca un circuito de disparo con un óhmetro.
    .word = WARNING
    .title = Airbags
    .source = { source-practice }
caution-battery = Las baterías desprenden gas explosivo, contienen ácido y dan corrientes muy altas. Sin llama ni chispa; proteger los ojos; quitarse anillos y relojes; desconectar primero la masa. Dejar que el vehículo se duerma antes de desconectar y respetar la espera de los airbags. Cargar una batería de litio solo con un cargador hecho para ella.
    .word = WARNING
    .title = Batería
    .source = { source-practice }
caution-scope-ground = El cable de masa de un instrumento en un punto que no es masa pone la batería en cortocircuito: se quema, y el instrumento con él. Usar entradas aisladas o diferenciales, o comprobar antes que el punto está a masa.
    .word = WARNING
    .title = Masa del instrumento
    .source = { source-practice }
caution-road-test = Quien conduce no debe leer instrumentos. Llevar a una segunda persona, sujetar el equipo y respetar las normas de circulación.
    .word = WARNING
    .title = Prueba en carretera
    .source = { source-practice }
caution-self-start = El motor de un híbrido o de un vehículo con parada automática puede arrancar solo, también con el capó abierto. Quitar el contacto y alejar la llave antes de meter la mano en el vano motor.
    .word = WARNING
    .title = El motor puede arrancar solo
    .source = { source-practice }
caution-under-vehicle = Un vehículo apoyado solo en el gato puede aplastar y matar. Trabajar debajo solo en un elevador con los seguros puestos o sobre borriquetas homologadas en suelo firme, y nunca con el motor en marcha y una marcha engranada.
    .word = WARNING
    .title = Debajo del vehículo
    .source = { source-practice }
caution-protection = Llevar protección ocular y guantes ajustados, y protección auditiva junto a un motor en marcha. Tener un extintor a mano.
    .word = CAUTION
    .title = Ojos, manos, oídos
    .source = { source-practice }
driver-rough-engine = Si el motor tiembla o parpadea su testigo, no conduzca. El combustible sin quemar recalienta el escape y puede incendiarlo.
    .word = WARNING
    .title = Motor irregular
    .source = { source-practice }

condition-engine-running = El motor está en marcha de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-not-running = El motor no está en marcha de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-cranking = El motor está arrancando de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-engine-unknown = No es bastante seguro si el motor está en marcha de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s: { condition-clue } (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-no-drive = El selector está en { $selector }: ninguna marcha debe mover el vehículo (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-drive = El selector está en { $selector }, una posición de marcha (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-drive-likely = Nadie dijo dónde estaba el selector; el vehículo se mueve, así que es probable una posición de marcha (certeza { NUMBER($percent, maximumFractionDigits: 1) } %).
condition-selector-unknown = Nadie dijo dónde estaba el selector, y nada en la grabación lo dice.
condition-commanded = { $value ->
    [0] En esta grabación ningún embrague se acciona por orden.
    [one] Se ve un accionamiento de embrague por orden; durante { NUMBER($total_s, maximumFractionDigits: 1) } s un eje puede girar por él.
   *[other] Se ven { $value } accionamientos de embrague por orden; durante { NUMBER($total_s, maximumFractionDigits: 1) } s en total un eje puede girar por ellos.
 }
condition-commanded-unknown = La corriente de alimentación no se grabó: no se sabe si un embrague se accionó por orden.
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
kind-condition-engine = Motor durante la grabación
kind-condition-selector = Selector durante la grabación
kind-condition-commanded = Accionamientos de embrague por orden

method-signal-quality = Cada canal con función se compara con lo que estropea una conclusión: demasiado corto, recortado, pinza al revés o sin cero, muestreo insuficiente o que puede dar una velocidad falsa al ralentí, valores que faltan, escala o número de dientes desconocidos, datos contradichos.
method-conditions = Motor y selector se toman de lo que se indicó, comparado con cada señal de la grabación: el sensor del motor, el tirón del arranque, la carga, el rizado del alternador. Los accionamientos de embrague por orden se leen en la corriente de alimentación. Las señales pesan en decibanes, partiendo de probabilidades iguales; por debajo de 20 a 1 el estado se da por desconocido.
method-codes = Lo que afirma cada código se compara con lo medido. Un código se contradice solo cuando su estado dice que la prueba falló en este ciclo o en el último; una anotación antigua no dice nada a favor ni en contra.

# Escalas que ninguna unidad así puede tener

implausible-scale = { $subject-name }: { NUMBER($value, maximumSignificantDigits: 3) } { $unit }. Ninguna unidad así puede mostrarlo; la escala de la sonda es dudosa.
kind-implausible-scale = Escala dudosa
reason-implausible-scale = Un valor calibrado es de los que ninguna unidad así puede mostrar; la escala de una sonda es dudosa.
next-check-scale = Comparar el factor de la sonda con el que lleva impreso y con el ajuste del registrador, corregirlo en job.toml y repetir el trabajo.
next-clear-supply-first = Primero corrija la batería, la carga y sus cables; después repita esta grabación.
next-clear-ripple-first = Primero corrija el alternador; después repita esta grabación.
next-check-scale-plain = Comprobar la escala de la pinza y grabar de nuevo.
method-plausibility = Las medianas y los pulsos más altos de los canales calibrados se comparan con lo que una unidad así puede mostrar; más allá se duda de la escala de la sonda.
implausible-time = { $subject-name }: la corriente máxima dura { NUMBER($value, maximumFractionDigits: 0) } s, más de lo que permite cualquier unidad de control; la unidad de tiempo de la grabación es dudosa.
reason-implausible-time = Un motor consume su corriente de bloqueo durante más tiempo del que permite cualquier unidad de control; la unidad de tiempo de la grabación es dudosa.

# Work
labour-diagnosis = Grabación y diagnóstico
labour-proof = Repetir la grabación para demostrar la reparación

# Fuentes de los límites.
sheet-source-practice = práctica habitual, sin fuente
sheet-source-clamp = práctica habitual, sin fuente: pinzas de corriente continua habituales, incertidumbre típica de la lectura
sheet-source-idle = práctica habitual, sin fuente: ralentí en caliente de motores de turismo, con arranque en frío
sheet-source-least = criterio: un accionamiento con el reposo anterior y posterior
sheet-source-small-pulses = criterio: los impulsos menores son de la propia unidad de control
sheet-source-clamp-zero = criterio: el cero de una pinza ajustada deriva menos
sheet-source-stall-hold = práctica habitual, sin fuente: un accionamiento sano termina en 0,1 a 0,3 s
sheet-source-stall-share = criterio: un motor bloqueado mantiene su corriente; uno que gira pierde la mayor parte por su fuerza contraelectromotriz
sheet-source-creep = criterio: más lento es arrastre
sheet-source-creep-rate = criterio: más lento es arrastre, si no se conoce el número de dientes
sheet-source-hall = práctica habitual, sin fuente: los sensores Hall de tres hilos conmutan entre masa y una tensión de 5 o 12 V por resistencia
sheet-source-acceleration = razonamiento: 250 N m en un eje con su disco de 0,02 kg m²
sheet-source-loop-low = práctica habitual, sin fuente: los sensores de dos hilos con interfaz de corriente dan 7 mA ± 20 % en el nivel bajo
sheet-source-loop-high = práctica habitual, sin fuente: los sensores de dos hilos con interfaz de corriente dan 14 mA ± 20 % en el nivel alto
