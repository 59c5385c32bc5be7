kind-bit-rate = Velocidad de bits
kind-recessive-high = CAN High, recesivo
kind-recessive-low = CAN Low, recesivo
kind-dominant-high = CAN High, dominante
kind-dominant-low = CAN Low, dominante
kind-differential-dominant = Tensión diferencial dominante
kind-symmetry = Simetría de los niveles
kind-common-mode = Tensión de modo común
kind-common-mode-offset = Desviación de modo común de un nodo
kind-wire-condition = Estado de los cables
kind-termination = Resistencia de terminación
kind-ringing = Oscilación tras el flanco
kind-frames = Tramas
kind-frame-errors = Tramas dañadas
kind-identifiers = Identificadores
kind-bus-load = Carga del bus
kind-node-period = Periodo de un identificador
kind-node-gap = Silencio de un identificador
kind-node-flood = Avalancha de un identificador

bit-rate = El bus funciona a { $value } kbit/s ({ $samples_a_bit } muestras por bit).
bit-rate-fd = El bus funciona a { $value } kbit/s y pasa a { $data_phase } kbit/s en la fase de datos (CAN FD).
bit-rate-differs = El bus funciona a { $value } kbit/s, no a los { $stated } kbit/s indicados.
sampling-too-slow = Con { $sample_rate } kS/s la grabación es demasiado lenta para leer tramas; hacen falta al menos { $needed } kS/s.
bit-rate-no-traffic = La grabación muestra demasiado pocos bits para hallar la velocidad.
bit-rate-no-grid = Los flancos de las líneas no forman ninguna trama legible.
can-level = CAN { $line ->
    [high] High
   *[low] Low
} está a { $value } V en estado { $state ->
    [dominant] dominante
   *[recessive] recesivo
}.
differential-dominant = En estado dominante las líneas están separadas { $value } V.
symmetry = En estado dominante la suma de ambas líneas es el { $value } % de la recesiva.
common-mode = El promedio de ambas líneas es de { $value } V.
common-mode-offset = El nodo que envía { $identifier } está desviado { $value } V de los demás.
wires-sound = Cada bit separa ambas líneas y las deja volver a juntarse.
wires-reversed = En estado dominante CAN Low está por encima de CAN High: las líneas o las sondas están cambiadas.
wires-reversed-partly = El { $share } % de los bits dominantes pone CAN Low por encima de CAN High: un nodo está conectado al revés.
wire-at-ground = CAN { $line ->
    [high] High
   *[low] Low
} está a masa ({ $value } V).
wire-at-supply = CAN { $line ->
    [high] High
   *[low] Low
} está a la tensión de alimentación ({ $value } V).
wires-together = Hay nodos que intentan enviar, pero las dos líneas siguen juntas.
wire-open = { $pulses } bits movieron ambas líneas por igual: CAN { $line ->
    [high] High
   *[low] Low
} está cortado entre los nodos.
wire-open-plain = Algunos mensajes llegan por uno solo de los dos hilos.
wires-stuck-dominant = El bus se mantiene dominante sin pausa.
wires-probe-off = El canal de CAN { $line ->
    [high] High
   *[low] Low
} no muestra nada mientras la otra línea trabaja: su sonda no hace contacto.
wires-quiet = Nada se mueve en las líneas más de { $detectable } V: el bus duerme o nadie envía.
wires-quiet-at-ground = Ambas líneas están a masa sin moverse más de { $detectable } V, aunque el vehículo está despierto.
wires-low-speed-bus = CAN Low reposa cerca de 5 V y CAN High cerca de masa, y en estado dominante se cruzan: es un bus de baja velocidad tolerante a fallos (ISO 11898-3), cuyos niveles no se juzgan aquí.
wires-single-wire-bus = Un cable oscila entre masa y la tensión de la batería: es un bus LIN o una línea de diagnóstico, no un par CAN.
wires-unclear = Lo que hacen las líneas no corresponde a un único estado.
termination = Los niveles dominantes de { $senders } identificadores indican { $value } ohmios entre las líneas.
termination-high = Los niveles dominantes de { $senders } identificadores indican { $value } ohmios entre las líneas: menos carga que la de dos terminaciones.
termination-high-plain = Las señales de la línea de datos son mayores de lo que permiten sus dos resistencias de terminación.
termination-low = Los niveles dominantes de { $senders } identificadores indican { $value } ohmios entre las líneas: más carga que la de dos terminaciones.
termination-unclear = Los niveles dominantes de { $senders } identificadores indican { $value } ohmios entre las líneas, con demasiada incertidumbre para decidir.
termination-at-least = El bus se descarga tan despacio que hay al menos { $value } ohmios entre las líneas: no hay ninguna terminación conectada.
ringing = Tras un flanco recesivo las líneas oscilan un { $value } % por debajo del reposo y se calman en { $settling_ns } ns.
frames = Se leyeron { $value } tramas con la comprobación correcta, { $fd } de ellas CAN FD; { $overload } tramas de sobrecarga.
frames-logged = La grabación contiene { $value } tramas.
frame-errors-none = Ninguna de { $frames } tramas resultó dañada.
frame-errors-data-phase = { NUMBER($unread, maximumFractionDigits: 0) } tramas CAN FD cambian a una velocidad que { NUMBER($sample_rate, maximumFractionDigits: 0) } kS/s no alcanzan a mostrar: se cuentan y no se leen. Con { NUMBER($needed, maximumFractionDigits: 0) } kS/s se lee cualquier fase de datos.
frame-errors = { $value } tramas resultaron dañadas ({ $share } %), la mayoría en el { $field ->
    [arbitration] campo de arbitraje
    [control] campo de control
    [data] campo de datos
    [crc] campo de comprobación (CRC)
    [acknowledge] campo de confirmación
   *[end-of-frame] fin de trama
} ({ $error ->
    [error-flag] un nodo objeta con un indicador de error
    [stuff] regla de relleno incumplida
    [crc] comprobación incorrecta
    [form] bit fijo incorrecto
   *[acknowledge] nadie confirma
}){ $of_identifier ->
    [0] {""}
   *[other] {", "}sobre todo { $identifier }
}.
frame-errors-unacknowledged = { $value } tramas resultaron dañadas ({ $share } %), la mayoría porque nadie las confirmó{ $of_identifier ->
    [0] {""}
   *[other] {", "}sobre todo { $identifier }
}.
frame-errors-coarse = { $value } tramas no se pudieron leer; con { $samples_a_bit } muestras por bit puede deberse a la grabación.
frame-errors-noisy = { $value } tramas no se pudieron leer; las líneas se grabaron con tanto ruido que puede deberse a la grabación.
frame-errors-of = { $identifier } resultó dañada { $value } veces, casi siempre en el { $field ->
    [arbitration] campo de arbitraje
    [control] campo de control
    [data] campo de datos
    [crc] campo de comprobación (CRC)
    [acknowledge] campo de confirmación
   *[end-of-frame] fin de trama
} a partir del bit { $bit } ({ $error ->
    [error-flag] un nodo objeta con un indicador de error
    [stuff] regla de relleno incumplida
    [crc] comprobación incorrecta
    [form] bit fijo incorrecto
   *[acknowledge] nadie confirma
}).
identifiers = Se vieron { $value } identificadores.
identifiers-silent = Se vieron { $value } identificadores; { $missing } de los esperados no llegaron nunca: { $silent }.
bus-load = El bus estuvo ocupado el { $value } % del tiempo; la pausa más larga fue de { $longest_pause_ms } ms.
node-period = Llega cada { $value } ms ({ $frames } tramas).
node-gap = Calló durante { $value } s, es decir { $periods } de sus periodos, mientras otros seguían.
node-stopped = Dejó de enviar { $value } s antes del final de la grabación, es decir { $periods } de sus periodos, mientras otros seguían.
node-stopped-as-others = Dejó de enviar { $value } s antes del final de la grabación, como varios otros en otros instantes: hay nodos que se apagan.
node-flood = Se envió { $value } veces por segundo durante { $duration_s } s y ocupó el { $share } % de todas las tramas.

cause-line-open = Una línea del bus está cortada
cause-line-open-plain = Uno de los dos cables por los que se comunican las unidades de control está cortado entre ellas.
cause-line-open-ruled-out = Una línea del bus cortada
repair-line-open-1 = Con la batería desconectada, seguir la línea de conector en conector y hallar el punto entre los nodos que aún se oyen y los que no.
repair-line-open-2 = Reparar el cable o el conector; mantener el par trenzado hasta la unión.
proof-line-open = La misma grabación otra vez: cada bit separa ambas líneas y ninguna trama resulta dañada.

cause-line-short-to-ground = Una línea del bus toca masa
cause-line-short-to-ground-plain = Uno de los dos cables por los que se comunican las unidades de control toca la carrocería.
cause-line-short-to-ground-ruled-out = Una línea del bus a masa
repair-line-short-to-ground-1 = Desconectar los nodos uno a uno mientras se graba; la línea queda libre con el nodo averiado o con su ramal.
repair-line-short-to-ground-2 = Reparar el cable rozado o sustituir el nodo que retiene la línea.
proof-line-short-to-ground = La misma grabación otra vez: ambas líneas reposan entre 2 y 3 V.

cause-line-short-to-supply = Una línea del bus toca la alimentación
cause-line-short-to-supply-plain = Uno de los dos cables por los que se comunican las unidades de control toca un cable con tensión de batería.
cause-line-short-to-supply-ruled-out = Una línea del bus a la alimentación
repair-line-short-to-supply-1 = Desconectar los nodos uno a uno mientras se graba; la línea queda libre con el nodo averiado o con su ramal.
repair-line-short-to-supply-2 = Reparar el cable y comprobar los nodos: sus entradas de bus estuvieron a una tensión que no todas resisten.
proof-line-short-to-supply = La misma grabación otra vez: ambas líneas reposan entre 2 y 3 V.

cause-lines-shorted-together = Las líneas del bus se tocan
cause-lines-shorted-together-plain = Los dos cables por los que se comunican las unidades de control se tocan, de modo que no se oye a ninguna.
cause-lines-shorted-together-ruled-out = Líneas del bus que se tocan
repair-lines-shorted-together-1 = Con la batería desconectada, medir la resistencia entre las líneas; desconectar nodos y ramales uno a uno hasta que suba.
repair-lines-shorted-together-2 = Reparar el cable o el conector, o sustituir el nodo que une las líneas.
proof-lines-shorted-together = La misma grabación otra vez: en cada bit dominante las líneas se separan unos 2 V.

cause-lines-swapped = Las líneas del bus están cambiadas
cause-lines-swapped-plain = Los dos cables por los que se comunican las unidades de control están conectados al revés.
cause-lines-swapped-ruled-out = Líneas del bus cambiadas
repair-lines-swapped-1 = Comprobar primero que las sondas están en las líneas correctas.
repair-lines-swapped-2 = Revisar lo último que se cableó, un montaje posterior o un conector reparado, e intercambiar allí los dos cables.
proof-lines-swapped = La misma grabación otra vez: CAN High está por encima de CAN Low en cada bit dominante.

cause-termination-missing = Falta una resistencia de terminación
cause-termination-missing-plain = No está conectada una resistencia que debe cerrar el extremo de la línea de datos, y por eso se alteran los mensajes.
cause-termination-missing-ruled-out = La falta de una resistencia de terminación
repair-termination-missing-1 = Con la batería desconectada, medir la resistencia entre las líneas: dos terminaciones de 120 ohmios dan 60 ohmios, una da 120 ohmios.
repair-termination-missing-2 = Hallar el extremo sin terminación y reparar allí el conector, el nodo o la resistencia.
proof-termination-missing = La misma grabación otra vez: niveles dominantes de un bus con dos terminaciones.

cause-termination-extra = Sobra una resistencia de terminación
cause-termination-extra-plain = Una resistencia que no corresponde carga la línea de datos, y por eso los mensajes se debilitan.
cause-termination-extra-ruled-out = Una resistencia de terminación de más
repair-termination-extra-1 = Con la batería desconectada, medir la resistencia entre las líneas: por debajo de 54 ohmios sobra una resistencia.
repair-termination-extra-2 = Revisar los nodos añadidos o cambiados: puede haber uno con terminación donde corresponde uno sin ella.
proof-termination-extra = La misma grabación otra vez: niveles dominantes de un bus con dos terminaciones.

cause-ground-offset = La masa de un nodo está desviada de la de los demás
cause-ground-offset-plain = Una unidad de control tiene mala conexión a masa, y por eso las demás la entienden mal.
cause-ground-offset-ruled-out = Una masa desviada
repair-ground-offset-1 = Comprobar primero la masa del propio registrador; después medir la tensión entre la masa del nodo y el polo negativo de la batería con sus consumidores conectados.
repair-ground-offset-2 = Limpiar y apretar el punto de masa, o reparar su cable.
proof-ground-offset = La misma grabación otra vez: todos los emisores están al mismo nivel.

cause-node-silent = Una unidad de control se queda muda
cause-node-silent-plain = Una unidad de control deja de enviar sus mensajes aunque las demás siguen.
cause-node-silent-ruled-out = Una unidad de control muda
repair-node-silent-1 = Averiguar en el esquema eléctrico qué nodo envía los identificadores que faltan.
repair-node-silent-2 = Medir su alimentación y su masa bajo carga mientras calla, y después su conector y su ramal del bus.
repair-node-silent-3 = Sustituir el nodo solo cuando alimentación, masa y bus estén bien en su propio conector.
proof-node-silent = La misma grabación otra vez, de igual duración o más larga: ningún identificador calla.

cause-node-disturbing = Una unidad de control perturba el bus
cause-node-disturbing-plain = Una unidad de control daña los mensajes de las demás o las desplaza.
cause-node-disturbing-ruled-out = Una unidad de control que perturba el bus
repair-node-disturbing-1 = Desconectar los nodos uno a uno mientras se graba; con el causante cesan los errores.
repair-node-disturbing-2 = Comprobar la velocidad, el programa, la alimentación y el conector de ese nodo, y sustituirlo si están bien.
proof-node-disturbing = La misma grabación otra vez: ninguna trama resulta dañada.

next-record-can-lines = Grabar CAN High y CAN Low a la vez respecto a masa, con al menos ocho muestras por bit (4 MS/s para 500 kbit/s) y el contacto dado.
next-record-can-faster = Grabar CAN alto y CAN bajo juntos con al menos ocho muestras por bit de la fase de datos (40 MS/s a 5 Mbit/s).
next-record-can-probes = Comprobar que cada sonda hace contacto y está en la línea correcta, y grabar de nuevo.
next-log-can-bus = Grabar las tramas de este bus durante al menos un minuto, e indicar su velocidad y los identificadores esperados.
next-disconnect-can-nodes = Desconectar los nodos de este bus uno a uno y grabar cada vez.
next-measure-can-resistance = Tras unos minutos con la batería desconectada, medir la resistencia entre las dos líneas, y la de cada una a masa y a la alimentación.
next-measure-can-ground = Medir la tensión entre la masa del nodo y el polo negativo de la batería con sus consumidores conectados.
next-measure-can-node-supply = Grabar la alimentación y la masa del nodo mudo en su propio conector junto con el bus.

reason-can-errors-unclear = Una trama resultó dañada o ilegible; una sola no dice nada.
reason-can-too-slow = La grabación tiene muy pocas muestras por bit para leer una trama.
reason-can-data-phase = La fase de datos de las tramas CAN FD es más rápida de lo que muestra la grabación; un error en ella no se habría visto.
reason-can-other-bus = Los cables son de otra clase de bus, cuyos fallos no se juzgan aquí.
reason-can-probe-off = Una de las dos sondas no hacía contacto.
reason-can-several-stop = Varios identificadores callaron uno tras otro, como al quitar el contacto.
why-no-can-traffic = sin tramas en las líneas
why-too-few-senders = demasiado pocos emisores
why-no-bus-log = sin registro de tramas del bus

labour-measure-can-bus = Medir el bus CAN
labour-repair-can-wiring = Reparar el cableado del bus CAN
labour-repair-can-node = Reparar o sustituir un nodo del bus CAN

system-can-bus = Bus de datos CAN
subject-can-high = CAN High
subject-can-low = CAN Low
subject-frame-identifier = identificadores del registro de tramas
subject-frame-length = longitudes de las tramas grabadas
subject-frame-data-n = datos de las tramas grabadas, palabra { $n }
method-can-lines = Los flancos de la tensión diferencial a la mitad de su recorrido, con histéresis, se ajustan a la rejilla de bits que mejor les corresponde; las tramas se leen bit a bit con los bits de relleno, el CRC, la confirmación y el final. Los niveles son medianas lejos de los flancos. La terminación se estima con los niveles dominantes de los nodos que envían solos; su incertidumbre es la dispersión que las hojas de datos permiten a sus excitadores. El estado de los cables se conoce por lo que hace cada línea en los bits dominantes y recesivos.
method-can-log = La carga cuenta los bits de cada trama con sus bits de relleno. El periodo de un identificador es la mediana de sus intervalos donde la mayoría coincide; un silencio cuenta desde cinco periodos mientras otros identificadores siguen. Una avalancha es un identificador que llega muchas más veces que antes.

# hojas de causas

sheet-can-one-wire-bits = los bits de algunos nodos mueven ambas líneas por igual: llegan por un solo cable
sheet-can-lines-move-apart = cada bit separa las líneas; no se ve el corte de un ramal cuyo nodo no envía nada
sheet-can-open-source = criterio; manual de taller Subaru Outback 2013: las líneas pueden estar cortadas aunque el circuito mida de 56 a 64 ohmios
sheet-can-other-wire-fault = otro estado de los cables explica lo observado
sheet-can-at-ground = ambas líneas están a masa en estado recesivo mientras los nodos las excitan
sheet-can-short-source = criterio; la hoja de datos del TJA1055, tabla 4, recoge el estado
sheet-can-quiet-at-ground = ambas líneas están a masa sin moverse aunque el vehículo está despierto
sheet-can-levels-right = una línea en cortocircuito no puede mostrar los niveles recesivos y dominantes de un bus sano
sheet-can-at-supply = ambas líneas están por encima de cualquier nivel que un nodo pueda darles
sheet-can-held-together = hay nodos que intentan enviar y las líneas no se separan
sheet-can-parted = cada bit separa las líneas
sheet-can-one-reversed = algunos bits ponen CAN Low por encima de CAN High y otros van bien: un nodo está conectado al revés
sheet-can-all-reversed = todos los bits ponen CAN Low por encima de CAN High: las líneas o las sondas están cambiadas en el punto de medida
sheet-can-right-way-round = ningún bit pone CAN Low por encima de CAN High
sheet-can-levels-high = los nodos separan las líneas más de lo que pueden contra dos terminaciones
sheet-can-falls-slowly = el bus se descarga demasiado despacio para cualquier terminación
sheet-can-load-right = los niveles dominantes son los de un bus con ambas terminaciones
sheet-can-load-more = los nodos tienen más carga que la de dos terminaciones
sheet-can-levels-low = los nodos no pueden separar las líneas tanto como contra dos terminaciones
sheet-can-load-less = los nodos tienen menos carga que la de dos terminaciones
sheet-can-one-node-off = ambas líneas de un emisor están desviadas la misma tensión
sheet-can-all-off = ambas líneas están desviadas la misma tensión de la mitad de la alimentación en todos los estados
sheet-can-nodes-agree = todos los emisores están al mismo nivel
sheet-can-wires-move-levels = otro estado de los cables desplaza los niveles
sheet-can-falls-silent = un nodo que envía con periodo fijo calla mientras los demás siguen
sheet-can-stops = un nodo que envía con periodo fijo deja de hacerlo mientras los demás siguen
sheet-can-never-seen = identificadores que deben estar en este bus no llegan nunca
sheet-can-unacknowledged = un nodo envía y nadie confirma: los demás no están en el bus
sheet-can-periods-kept = cada identificador periódico mantuvo su periodo hasta el final
sheet-can-cut-off = el estado de los cables deja nodos aislados
sheet-can-spoils-frames = en un par de cables sano hay tramas dañadas
sheet-can-floods = un identificador desplaza a los demás
sheet-can-holds-dominant = el bus está excitado sin fin
sheet-can-no-errors = ninguna trama resultó dañada
sheet-can-no-flood = ningún identificador desplaza a los demás
sheet-can-wires-spoil = el estado de los cables daña tramas
sheet-can-termination-spoils = una terminación incorrecta daña tramas
sheet-can-ground-spoils = un nodo con la masa desviada daña tramas sin estar averiado
sheet-engine-ground = una mala masa del motor eleva el potencial de las unidades montadas en él

# Fuentes de los límites.
sheet-source-can-recessive = hojas de datos TCAN1042-Q1 (SLLSES9C) y TCAN1044-Q1 (SLLSF17): salida recesiva sin carga, como en ISO 11898-2
sheet-source-can-dominant = hojas de datos TCAN1042-Q1 (SLLSES9C) y TCAN1044-Q1 (SLLSF17): salida dominante, como en ISO 11898-2
sheet-source-can-differential = hojas de datos TCAN1042-Q1 (SLLSES9C) y TCAN1044-Q1 (SLLSF17): tensión diferencial dominante con 45 a 70 ohmios
sheet-source-can-symmetry = hoja de datos TCAN1042-Q1 (SLLSES9C): suma de ambas líneas en estado dominante de 0,9 a 1,1 de la alimentación, que ambas líneas comparten en estado recesivo
sheet-source-can-common-mode = hojas de datos TCAN1042-Q1 (SLLSES9C) y TCAN1044-Q1 (SLLSF17): ambas líneas en estado recesivo entre 2 y 3 V
sheet-source-can-offset = el doble de la simetría que las hojas de datos permiten a un transceptor (TCAN1042-Q1: 0,9 a 1,1 de la alimentación, 0,25 V con 5 V); el factor es práctica habitual
sheet-source-can-termination = manuales de taller de Lexus GS 2007 y RX400h: resistencia de lazo de un bus en buen estado; la estimación por niveles tiene su propia incertidumbre
sheet-source-can-frame-errors = práctica habitual, sin fuente: un bus en buen estado no muestra tramas de error
sheet-source-can-node-gap = práctica habitual, sin fuente: los receptores esperan varios periodos, y un nodo que se reinicia falta hasta 0,3 s
sheet-source-can-least = razonamiento: una trama dura una fracción de milisegundo; si se grabaron bastantes lo juzgan las propias mediciones

# Cautions
driver-data-line = Pantallas, luces y ayudas de dirección y freno usan esta línea de datos y pueden fallar en marcha. Conduzca solo si el taller está de acuerdo. Pare en un lugar seguro si se enciende un testigo rojo.
    .word = WARNING
    .title = Pueden fallar funciones
    .source = { source-practice }
