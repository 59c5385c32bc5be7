# Battery and starter
rest-voltage = En reposo la batería tiene { NUMBER($value, maximumFractionDigits: 2) } V.
rest-voltage-low = En reposo la batería tiene solo { NUMBER($value, maximumFractionDigits: 2) } V: está a menos de media carga. De su estado eso no dice nada.
cranking-voltage = Mientras el motor de arranque hace girar el motor, la batería mantiene al menos { NUMBER($value, maximumFractionDigits: 2) } V (pico inicial: { NUMBER($inrush_v, maximumFractionDigits: 2) } V).
cranking-voltage-low = Mientras el motor de arranque hace girar el motor, la batería cae a { NUMBER($value, maximumFractionDigits: 2) } V (pico inicial: { NUMBER($inrush_v, maximumFractionDigits: 2) } V).
inrush-current = El arranque consume un pico de { NUMBER($value, maximumFractionDigits: 0) } A.
cranking-current = Al girar el motor con regularidad, el motor de arranque consume { NUMBER($value, maximumFractionDigits: 0) } A, el { NUMBER($share_percent, maximumFractionDigits: 0) } % de lo que consumiría parado.
cranking-current-raised = Al girar el motor, el motor de arranque consume { NUMBER($value, maximumFractionDigits: 0) } A, el { NUMBER($share_percent, maximumFractionDigits: 0) } % de lo que consumiría parado: más de lo usual.
cranking-current-high = Al girar el motor, el motor de arranque consume { NUMBER($value, maximumFractionDigits: 0) } A, el { NUMBER($share_percent, maximumFractionDigits: 0) } % de lo que consumiría parado: algo lo frena mucho.
cranking-current-stalled = El motor de arranque consume { NUMBER($value, maximumFractionDigits: 0) } A, el { NUMBER($share_percent, maximumFractionDigits: 0) } % de su corriente de bloqueo: apenas hace girar el motor, o nada.
cranking-current-alone = Al girar el motor con regularidad, el motor de arranque consume { NUMBER($value, maximumFractionDigits: 0) } A.
battery-resistance = La batería tiene { NUMBER($value, maximumFractionDigits: 1) } miliohmios, según cómo su tensión sigue a la corriente de arranque.
battery-resistance-size-unknown = La batería tiene { NUMBER($value, maximumFractionDigits: 1) } miliohmios: más que la de un turismo y lo habitual en una pequeña. No consta su corriente nominal.
battery-resistance-cold = La batería tiene { NUMBER($value, maximumFractionDigits: 1) } miliohmios: demasiado para su corriente nominal en caliente, y lo que puede tener en frío.
battery-resistance-high = La batería tiene { NUMBER($value, maximumFractionDigits: 1) } miliohmios, demasiado para { $bound ->
    [rating] su corriente nominal de arranque en frío
   *[other] una batería de automóvil
 }.
ground-resistance = Del motor a la batería la masa tiene { NUMBER($value, maximumFractionDigits: 2) } miliohmios: { NUMBER($drop_v, maximumFractionDigits: 2) } V a { NUMBER($current_a, maximumFractionDigits: 0) } A.
ground-resistance-high = Del motor a la batería la masa tiene { NUMBER($value, maximumFractionDigits: 1) } miliohmios, demasiados: a { NUMBER($current_a, maximumFractionDigits: 0) } A se pierden { NUMBER($drop_v, maximumFractionDigits: 2) } V.
ground-resistance-high-plain = Durante el arranque se perdieron { NUMBER($drop_v, maximumFractionDigits: 1) } V de la tensión de la batería entre el motor y la batería. Una buena conexión pierde la décima parte.
starter-feed-resistance = De la batería al motor de arranque la alimentación tiene { NUMBER($value, maximumFractionDigits: 2) } miliohmios: { NUMBER($drop_v, maximumFractionDigits: 2) } V a { NUMBER($current_a, maximumFractionDigits: 0) } A.
starter-feed-resistance-high = De la batería al motor de arranque la alimentación tiene { NUMBER($value, maximumFractionDigits: 1) } miliohmios, demasiados: a { NUMBER($current_a, maximumFractionDigits: 0) } A se pierden { NUMBER($drop_v, maximumFractionDigits: 2) } V.
starter-feed-resistance-high-plain = Durante el arranque se perdieron { NUMBER($drop_v, maximumFractionDigits: 1) } V de la tensión de la batería en el camino al motor de arranque. Un buen cable pierde la décima parte.
cranking-speed = El motor de arranque hizo girar el motor a { NUMBER($value, maximumFractionDigits: 0) } rpm.
cranking-speed-low = El motor de arranque hizo girar el motor a solo { NUMBER($value, maximumFractionDigits: 0) } rpm.
compression-rate = Las compresiones se siguen a { NUMBER($value, maximumFractionDigits: 2) } por segundo; con el número de cilindros en job.toml eso es una velocidad.
compression-rate-low = Las compresiones se siguen a solo { NUMBER($value, maximumFractionDigits: 2) } por segundo: el motor gira despacio.
relative-compression-even = El cilindro más débil comprime al { NUMBER($value, maximumFractionDigits: 0) } % del mejor, en { $cycles } ciclos: son parejos.
relative-compression-low = El más débil de { $cylinders } cilindros comprime solo al { NUMBER($value, maximumFractionDigits: 0) } % del mejor, en { $cycles } ciclos.
relative-compression-unclear = El cilindro más débil comprime al { NUMBER($value, maximumFractionDigits: 0) } % del mejor, demasiado incierto para decidir.
relative-compression-short = El motor se hizo girar durante muy pocos ciclos ({ $cycles }) para comparar sus cilindros.

# Charging
charging-voltage = Con el motor en marcha la tensión es de { NUMBER($value, maximumFractionDigits: 2) } V.
charging-voltage-low = Con el motor en marcha la tensión es de solo { NUMBER($value, maximumFractionDigits: 2) } V. La gestión de carga puede quererlo así por un tiempo.
charging-voltage-low-discharging = Con el motor en marcha la tensión es de solo { NUMBER($value, maximumFractionDigits: 2) } V y la batería entrega { NUMBER($current_a, maximumFractionDigits: 0) } A.
charging-voltage-none = Con el motor en marcha la tensión es de solo { NUMBER($value, maximumFractionDigits: 2) } V: el alternador no carga.
charging-voltage-high = Con el motor en marcha la tensión es de { NUMBER($value, maximumFractionDigits: 2) } V, demasiado alta.
charging-voltage-at-times = Con el motor en marcha la tensión es de { NUMBER($value, maximumFractionDigits: 2) } V la mayor parte del tiempo, y en una parte de la grabación se mantiene como debe: el alternador puede cargar.
ripple-even = El alternador deja un rizado de { NUMBER($value, maximumFractionDigits: 3) } V a { NUMBER($hz, maximumFractionDigits: 0) } Hz con seis periodos iguales: sus fases trabajan por igual.
ripple-order-missing = El alternador deja un rizado de { NUMBER($value, maximumFractionDigits: 2) } V que se repite a { NUMBER($hz, maximumFractionDigits: 0) } Hz: un diodo o una fase no conduce.
ripple-speed-unknown = Un rizado de { NUMBER($value, maximumFractionDigits: 2) } V se repite a { NUMBER($hz, maximumFractionDigits: 0) } Hz. Sin el régimen del motor no se sabe si todas las fases conducen.
ripple-too-coarse = Un rizado de { NUMBER($value, maximumFractionDigits: 2) } V se muestreó demasiado despacio para conocer su frecuencia real.
ripple-large = Un rizado de { NUMBER($value, maximumFractionDigits: 2) } V se repite a { NUMBER($hz, maximumFractionDigits: 0) } Hz. Es mucho; el régimen del motor, con una frecuencia de muestreo mayor, diría si ha fallado un diodo o una fase.
ripple-not-alternator = Un rizado de { NUMBER($value, maximumFractionDigits: 2) } V a { NUMBER($hz, maximumFractionDigits: 0) } Hz no es de un alternador; lo puede dejar un consumidor conmutado.
ripple-not-recorded = El rizado no se grabó: la grabación es demasiado corta o se muestreó demasiado despacio.
ripple-none = En la tensión no hay un rizado de más de { NUMBER($least_v, maximumFractionDigits: 3) } V.

# Key-off
key-off-current = Tras quitar el contacto quedan { NUMBER($value, maximumFractionDigits: 3) } A ({ NUMBER($ah_a_day, maximumFractionDigits: 1) } Ah al día{ $days ->
    [0] {""}
   *[other] ; en unos { NUMBER($days, maximumFractionDigits: 0) } días la batería ya no arranca el motor
 }).
key-off-current-high = { NUMBER($since_off_min, maximumFractionDigits: 0) } minutos después de quitar el contacto aún quedan { NUMBER($value, maximumFractionDigits: 2) } A: { NUMBER($ah_a_day, maximumFractionDigits: 1) } Ah al día{ $days ->
    [0] {""}
   *[other] ; en unos { NUMBER($days, maximumFractionDigits: 0) } días la batería ya no arranca el motor
 }.
key-off-current-high-early = { NUMBER($since_off_min, maximumFractionDigits: 0) } minutos después de quitar el contacto aún quedan { NUMBER($value, maximumFractionDigits: 2) } A ({ NUMBER($ah_a_day, maximumFractionDigits: 1) } Ah al día{ $days ->
    [0] {""}
   *[other] ; en unos { NUMBER($days, maximumFractionDigits: 0) } días la batería ya no arranca el motor
 }). Algunos vehículos tardan hasta 40 minutos en dormirse.
key-off-current-not-final = Al acabar la grabación aún fluyen { NUMBER($value, maximumFractionDigits: 2) } A; el último escalón llegó demasiado tarde para saber si se quedan.
key-off-current-backwards = El vehículo está apagado y se leen { NUMBER($value, maximumFractionDigits: 2) } A como si la batería se cargara: hay un cargador conectado, o la pinza está al revés o no se puso a cero.
key-off-stage = Etapa del apagado a { NUMBER($value, maximumFractionDigits: 2) } A.
sleep-time = El último escalón del apagado llega { NUMBER($value, maximumFractionDigits: 0) } s después de { $off_seen ->
    [true] quitar el contacto
   *[other] empezar la grabación
 }.
wake-ups = { $value ->
    [0] Una vez dormido, el vehículo sigue dormido.
    [one] Una vez dormido, el vehículo se despierta una vez, durante { NUMBER($longest_s, maximumFractionDigits: 0) } s.
   *[other] Una vez dormido, el vehículo se despierta { $value } veces, hasta { NUMBER($longest_s, maximumFractionDigits: 0) } s.
 }
wake-ups-draining = Una vez dormido, el vehículo se despierta { $value } veces y consume de media { NUMBER($mean_a, maximumFractionDigits: 2) } A.

# Kinds of finding
kind-rest-voltage = Tensión en reposo
kind-cranking-voltage-low = Tensión mínima al arrancar
kind-cranking-current = Corriente de arranque
kind-battery-resistance = Resistencia de la batería
kind-ground-resistance = Resistencia de masa
kind-cranking-speed = Velocidad de arranque
kind-compression-rate = Frecuencia de compresión
kind-relative-compression = Compresión relativa
kind-charging-voltage = Tensión de carga
kind-ripple = Rizado del alternador
kind-key-off-current = Corriente en reposo
kind-key-off-stage = Etapa del apagado
kind-sleep-time = Tiempo hasta dormirse
kind-wake-ups = Despertares

# Channels, system
subject-battery-voltage = tensión de la batería
subject-battery-current = corriente de la batería
subject-starter-current = corriente del motor de arranque
subject-alternator-current = corriente del alternador
subject-feed-voltage-drop = caída de tensión de la alimentación
system-start-and-charge = Batería, motor de arranque y alternador

# Causes
cause-battery-weak = La batería está débil
cause-battery-weak-plain = La batería ya no puede entregar la corriente que exige un arranque; su tensión se hunde.
cause-battery-weak-ruled-out = Una batería débil
cause-ground-resistance-high = La masa entre motor y batería ofrece demasiada resistencia
cause-ground-resistance-high-plain = La corriente de arranque pierde tensión al volver a la batería: una trenza, una unión o un borne está corroído o flojo.
cause-ground-resistance-high-ruled-out = Resistencia en la masa del motor
cause-feed-resistance-high = La alimentación de la batería al motor de arranque ofrece demasiada resistencia
cause-feed-resistance-high-plain = La corriente de arranque pierde tensión hacia el motor de arranque: un cable, una unión o un contacto está corroído, quemado o flojo.
cause-feed-resistance-high-ruled-out = Resistencia en la alimentación del motor de arranque
cause-starter-drag = El motor de arranque o el motor giran con demasiado esfuerzo
cause-starter-drag-plain = El motor de arranque consume mucho más de lo debido y aun así hace girar despacio el motor: él mismo, o algo que ha de mover, va duro.
cause-starter-drag-ruled-out = Un motor de arranque frenado
cause-cylinder-low-compression = Un cilindro del motor tiene poca compresión
cause-cylinder-low-compression-plain = Un cilindro del motor no alcanza la presión de los demás, por eso el motor gira de forma irregular.
cause-cylinder-low-compression-ruled-out = Poca compresión en un cilindro
cause-alternator-phase-fault = Ha fallado un diodo o una fase del alternador
cause-alternator-phase-fault-plain = El alternador trabaja solo con parte de sus bobinados: da menos corriente, se calienta y perturba otros aparatos.
cause-alternator-phase-fault-ruled-out = Un diodo o una fase averiados del alternador
cause-undercharging = La batería no se carga lo suficiente
cause-undercharging-plain = Con el motor en marcha el alternador no sube la tensión, y la batería se vacía al circular.
cause-undercharging-ruled-out = Una carga insuficiente
cause-overcharging = La batería se carga con una tensión demasiado alta
cause-overcharging-plain = La tensión con el motor en marcha es mayor de la que debería permitir el regulador; eso hace gasear la batería y acorta la vida de lámparas y unidades de control.
cause-overcharging-ruled-out = Una tensión de carga excesiva
cause-key-off-drain = Algo sigue consumiendo tras quitar el contacto
cause-key-off-drain-plain = El vehículo aparcado consume más corriente de la debida, y la batería se vacía en unos días.
cause-key-off-drain-ruled-out = Un consumo excesivo en reposo

# Repairs and their proof
repair-battery-weak-1 = Cargar del todo la batería, dejarla reposar y repetir la grabación de un arranque: una batería que solo estaba vacía lo supera.
repair-battery-weak-2 = Limpiar y apretar los bornes, y medir la caída de poste a borne.
repair-battery-weak-3 = Sustituir la batería por otra del mismo tipo y capacidad, y registrarla si el vehículo lo pide.
proof-battery-weak = La misma grabación de un arranque: la tensión se mantiene con la misma corriente.
repair-ground-resistance-high-1 = Medir la caída unión por unión al arrancar: bloque a trenza, trenza a carrocería, carrocería a batería.
repair-ground-resistance-high-2 = Limpiar, apretar o sustituir la unión o trenza con la caída.
proof-ground-resistance-high = La misma grabación: con la misma corriente la caída de la masa es pequeña.
repair-feed-resistance-high-1 = Medir la caída unión por unión al arrancar: poste a borne, cable, fusible, contactos del solenoide.
repair-feed-resistance-high-2 = Limpiar, apretar o sustituir la unión, el cable o el solenoide con la caída.
proof-feed-resistance-high = La misma grabación: con la misma corriente la caída de la alimentación es pequeña.
repair-starter-drag-1 = Girar a mano el motor sin bujías o inyectores, y los accesorios sin correa: así se halla un motor o accesorio duro.
repair-starter-drag-2 = Comprobar el grado del aceite; luego desmontar y probar o sustituir el motor de arranque.
proof-starter-drag = La misma grabación: menos corriente a mayor velocidad de arranque.
repair-cylinder-low-compression-1 = Medir la presión de cada cilindro con un manómetro y encontrar el débil.
repair-cylinder-low-compression-2 = Encontrar por dónde pierde (válvulas, anillos, junta) con una prueba de fugas, y repararlo.
proof-cylinder-low-compression = La misma grabación de la corriente de arranque, con todos los cilindros parejos.
repair-alternator-phase-fault-1 = Comprobar el conector, la salida y la masa del alternador.
repair-alternator-phase-fault-2 = Sustituir el rectificador o el alternador.
proof-alternator-phase-fault = La misma grabación con la misma carga: un rizado pequeño y regular a seis veces la frecuencia eléctrica.
repair-undercharging-1 = Comprobar correa, conector, salida, fusible y masa del alternador, y la caída del cable de carga con carga.
repair-undercharging-2 = Leer lo que ordena la gestión de carga; una tensión baja puede ser intencionada.
repair-undercharging-3 = Sustituir el regulador o el alternador si no obedece la orden.
proof-undercharging = La misma grabación: la tensión sube a su valor regulado y entra corriente en la batería.
repair-overcharging-1 = Comprobar la línea de medida y la masa del regulador: una tensión que no ve no la puede limitar.
repair-overcharging-2 = Sustituir el regulador o el alternador, y después probar la batería.
proof-overcharging = La misma grabación: la tensión queda dentro del margen regulado.
repair-key-off-drain-1 = Dejar que el vehículo se duerma sin tocarlo y medir la caída en cada fusible para hallar el circuito que consume.
repair-key-off-drain-2 = Hallar en ese circuito el consumidor o la unidad que sigue despierta y qué la despierta (puerta, interruptor, bus), y repararlo.
proof-key-off-drain = La misma grabación, lo bastante larga: el vehículo se duerme y queda poca corriente.

# Steps to take next
next-record-cranking = Grabar tensión y corriente de la batería durante un arranque, desde un segundo antes; girar cinco segundos sin arrancar para comparar los cilindros.
next-record-cranking-longer = Grabar la corriente de la batería mientras se gira el motor cinco segundos sin arrancar: con menos vueltas no se pueden comparar los cilindros.
next-record-path-drops = Grabar las caídas del bloque al negativo y del positivo al motor de arranque junto con la corriente de arranque.
next-state-battery-rating = Leer en la etiqueta de la batería su corriente de arranque en frío y escribirla en [unit] como battery_cca_a.
next-charge-and-repeat = Cargar del todo la batería, dejarla reposar unas horas a la temperatura del taller y grabar otro arranque.
next-turn-engine-by-hand = Girar el motor a mano y compararlo con otro igual: distingue un motor duro de un motor de arranque duro.
next-measure-cylinder-pressure = Medir la presión de cada cilindro con un manómetro: la corriente de arranque dice que uno es débil, no cuál.
next-record-charging = Grabar la tensión de la batería con el motor a ralentí acelerado y luz de cruce, a 10.000 muestras por segundo o más, durante dos segundos.
next-record-charging-engine-speed = Grabar el sensor de régimen junto con la tensión de la batería, con su número de dientes en job.toml.
next-record-charging-loaded = Grabar tensión y corriente de la batería con el motor a ralentí acelerado y grandes consumidores conectados.
next-record-key-off = Medir la corriente de la batería, quitar el contacto, cerrar y bloquear el vehículo, y grabar al menos 40 minutos.
next-record-key-off-longer = Grabar de nuevo la corriente en reposo durante 40 minutos o el tiempo que indique el fabricante.
next-turn-battery-clamp = Desconectar cualquier cargador, poner la pinza a cero sin cable, colocarla de modo que la corriente que sale de la batería se lea positiva y grabar otra vez la corriente en reposo.

# Why a cause was not tested
reason-battery-may-be-cold = La resistencia de la batería está entre lo que su corriente nominal permite en caliente y en frío.
reason-battery-size-unknown = Lo que puede tener la batería depende de su tamaño, y no consta su corriente nominal.
reason-charged-at-times = La tensión es baja en una parte de la grabación y se mantiene en otra: un gran consumidor, la gestión de carga o un contacto flojo.
reason-ripple-large = La tensión tiene más rizado de lo habitual durante la carga y la grabación no muestra por qué.
reason-current-backwards = Con el vehículo apagado parece entrar corriente en la batería.
why-never-cranked-with-current = no se grabó ningún arranque con su corriente
why-no-drop-recorded = su caída de tensión no se grabó en ningún arranque
why-too-few-cycles = el motor se hizo girar muy pocas vueltas
why-no-ripple-to-judge = no se grabó un rizado que permita juzgar las fases
why-engine-never-ran = la tensión de la batería no se grabó con el motor en marcha
why-not-watched-until-asleep = no se observó el vehículo hasta que se durmiera

# Labour
labour-test-start-and-charge = Prueba de batería, motor de arranque y alternador por grabación
labour-replace-battery = Sustituir la batería
labour-repair-cable = Reparar un cable o una unión a masa
labour-replace-starter = Sustituir el motor de arranque
labour-replace-alternator = Sustituir el alternador
labour-find-drain = Localizar el consumo en reposo

# Cautions
caution-engine-may-start = Al girarlo, el motor puede arrancar. Evitarlo como indique el fabricante, dejar el selector en P o N y las manos lejos de correas y ventiladores.
    .word = WARNING
    .title = El motor puede arrancar
    .source = { source-practice }
driver-no-start = Puede que el motor no vuelva a arrancar. Párelo solo donde el vehículo pueda quedarse. No insista: el motor de arranque y los cables se calientan.
    .word = CAUTION
    .title = Quizá no arranque
    .source = { source-practice }
driver-not-charged = La batería no se carga como debe. Las luces, la ayuda de la dirección y el motor pueden fallar en marcha. Conduzca solo hasta el taller más cercano y apague lo que no necesite.
    .word = WARNING
    .title = Puede faltar corriente
    .source = { source-practice }
driver-overcharged = La tensión es demasiado alta. La batería puede hervir y soltar gas explosivo. No acerque llamas ni chispas.
    .word = WARNING
    .title = No conduzca
    .source = { source-practice }

# Methods
method-start-attempt = Un arranque empieza donde la corriente pasa la mitad de su pico. El giro regular cuenta desde 0,45 s después. La resistencia de la batería es la pendiente por mínimos cuadrados de tensión sobre corriente en el pico.
method-path-resistance = La resistencia es la pendiente por mínimos cuadrados de la caída sobre la corriente de todo el intento; un error de cero de un canal no influye.
method-cranking-compression = Las jorobas de la corriente se ordenan por su lugar en el ciclo de dos vueltas; cada altura cuenta desde el valle más bajo contiguo. La corriente no dice qué cilindro es débil.
method-charging = La tensión de carga es la mediana con el motor en marcha.
method-alternator-ripple = La fase de la línea más fuerte da el giro del alternador; se miden las amplitudes de sus órdenes y sus sextos. Seis diodos de fases iguales dejan seis periodos por cada periodo eléctrico; lo que se repite más despacio delata una fase desigual.
method-key-off-current = La grabación se divide en escalones; una subida que vuelve es un despertar, el escalón más bajo es lo que queda. Días hasta no arrancar: el 40 % de la carga entre el consumo diario.

# Reasons of the cause sheet
sheet-battery-resists = la tensión cae con la corriente más de lo que permite una batería sana de su tamaño
sheet-battery-holds = al arrancar, la tensión no cae más que la de una batería sana
sheet-cranks-low = al arrancar la tensión cae por debajo de lo usual
sheet-rests-low = la tensión en reposo es la de menos de media carga; de su estado no dice nada
sheet-ground-drops = entre motor y batería la caída sigue a la corriente y es demasiado alta para ella
sheet-ground-carries = el retorno a masa condujo la corriente de arranque con poca caída
sheet-feed-drops = entre batería y motor de arranque la caída sigue a la corriente y es demasiado alta para ella
sheet-feed-carries = la alimentación condujo la corriente de arranque con poca caída
sheet-starter-stands = el motor de arranque consume su corriente de bloqueo: no gira el motor
sheet-draws-much = mientras gira, el motor de arranque consume más de la mitad de lo que consumiría parado: algo lo frena
sheet-draws-more = mientras gira, el motor de arranque consume más de su corriente de bloqueo de lo usual
sheet-draws-usual = el motor de arranque consume lo que uno que gira libre
sheet-cranks-slowly = el motor gira despacio
sheet-cranks-well = el motor gira a una velocidad normal
sheet-battery-not-it = no es la batería lo que lo frena
sheet-battery-explains = una batería débil explica un arranque lento
sheet-path-explains = una resistencia en cable o masa explica un arranque lento
sheet-hump-low = un cilindro que no comprime frena menos al motor de arranque, en el mismo lugar de cada ciclo
sheet-humps-even = todos los cilindros frenan por igual al motor de arranque
sheet-orders-below = el rizado se repite a la frecuencia eléctrica o al doble, no a seis veces: falta o está en cortocircuito un diodo o una fase
sheet-orders-whole = el rizado tiene seis periodos iguales por cada periodo eléctrico
sheet-charges-low-too = el alternador no mantiene la tensión
sheet-charges-nothing = con el motor en marcha la tensión es menor de la que mantiene cualquier gestión de carga
sheet-charges-low = con el motor en marcha la tensión queda por debajo de la que mantiene un alternador
sheet-battery-feeds = con el motor en marcha la batería alimenta el vehículo
sheet-charges = el alternador carga
sheet-phase-explains = una fase que falta explica la tensión baja
sheet-charges-high = con el motor en marcha la tensión queda por encima de la que fija cualquier regulador
sheet-charges-no-more = el regulador limita la tensión
sheet-remains-high = mucho después de quitar el contacto queda más corriente de la que necesita el vehículo dormido
sheet-remains-high-early = la corriente sigue alta más tiempo que cualquier etapa anterior; pocos vehículos tardan aún más
sheet-wakes = el vehículo se despierta una y otra vez y de media consume más que uno dormido
sheet-sleeps = el vehículo entró en reposo y consume poca corriente
sheet-no-ripple = la tensión está quieta: no se rectifica nada

# Fuentes de los límites.
sheet-source-battery-rest = cargada más o menos a medias: 12,24 V a 26,7 °C, batería de electrolito líquido tras horas de reposo (cifras del BCI según una copia pública)
sheet-source-battery-cranking = 9,6 V al arrancar (Chrysler Crossfire 2004, prueba de arranque en frío, según una copia pública); una batería fría tiene menos
sheet-source-starter-half-stall = criterio: un motor da su potencia máxima a la mitad de su corriente de bloqueo, y un motor de arranque que gira libre consume menos; entre ambas está elevada
sheet-source-compressions = criterio: tres cilindros a 130 rpm; los motores con más comprimen más a menudo
sheet-source-battery-own = criterio: 5,45 V entre 545 A, el valor de la batería de un coche pequeño; escriba battery_cca_a en [unit] para el límite de la propia batería
sheet-source-battery-fall = SAE J537 según copias públicas: a -18 °C una batería mantiene 7,2 V durante 30 s con su corriente nominal, 5,45 V menos que 12,65 V; se toma 0,85 de ello para una batería a temperatura de taller y para los primeros instantes (criterio)
sheet-source-battery-fall-cold = SAE J537 según copias públicas: a -18 °C una batería mantiene 7,2 V durante 30 s con su corriente nominal, una caída de 5,45 V desde 12,65 V
sheet-source-ground-army = 0,20 V por cada 100 A para un circuito completo (US Army TM 10-3930-671-24, p. F-303)
sheet-source-cylinders = práctica habitual, sin fuente: cilindros a menos de una cuarta parte del mejor
sheet-source-charging = regulada de 13,2 a 14,3 V a 60 °C y de 14,0 a 15,1 V a -20 °C (Mitsubishi Attrage 2018, según una copia pública); la gestión de carga puede prever menos durante un tiempo
sheet-source-ripple = práctica habitual, sin fuente: las cifras publicadas difieren en un factor de diez; deciden los órdenes, no la altura
sheet-source-key-off = de 5 a 50 mA es normal (Jeep Compass 2021, según una copia pública)
sheet-source-key-off-wait = de 40 a 65 mA tras 40 minutos o más, unos 300 mA antes de 10 minutos (Mazda 6 2021, según una copia pública)
sheet-source-key-off-watch = más de 100 mA durante 2 a 5 minutos (Saturn Aura 2008, según una copia pública)
sheet-source-key-off-stage = criterio: una etapa más corta puede terminar en cualquier momento
sheet-source-ripple-least = criterio: unos cientos de periodos del rizado del alternador
sheet-source-no-start = sin arranque cuando falta el 40 % de la carga (un boletín de General Motors, según una copia pública)
sheet-source-sac-starter-largest = criterio: los motores de arranque consumen unos cientos de amperios, los de camiones hasta dos mil
sheet-source-sac-alternator-largest = criterio: los mayores alternadores de autobuses dan unos cientos de amperios
sheet-source-sac-batteries = baterías de 6, 12 y 24 V, con margen para una caída profunda y para la sobrecarga; práctica habitual, sin fuente
sheet-source-sac-no-larger-drop = ninguna caída supera la tensión de la batería del vehículo, 24 V como máximo; práctica habitual, sin fuente
