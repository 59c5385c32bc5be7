system-speed-sensor = Sensores de velocidad

# Rotación
sensor-speed = El { $subject-name } da { NUMBER($value, maximumFractionDigits: 1) } rpm.
tooth-rate = El { $subject-name } da { NUMBER($value, maximumFractionDigits: 1) } pulsos por segundo; no se conoce el número de dientes, así que no es una velocidad.
tooth-pattern = La corona del { $subject-name } tiene { $value } posiciones por vuelta, { $missing } de ellas sin diente (patrón { $pattern }, en { $cycles } ciclos).
tooth-pattern-other = Para la corona del { $subject-name } se indican { $stated } posiciones; sus pulsos muestran { $value } por vuelta, { $missing } de ellas sin diente (patrón { $pattern }).
pick-up-engine = Los pulsos del { $subject-name } no son rotación: mientras cambia el régimen del motor siguen siendo { NUMBER($order, maximumFractionDigits: 2) } por vuelta del motor, y su altura no crece con su frecuencia, como debe hacerlo la de una bobina.
pick-up-unclear = Los pulsos del { $subject-name } pueden ser de su corona o inducidos por el motor en marcha: nada en esta grabación los distingue.
sensor-unreadable = Durante { NUMBER($value, maximumFractionDigits: 1) } s la señal del { $subject-name } tiene pulsos que no forman un tren de dientes legible.

# Corona
tooth-fault-none = Todos los dientes de la corona del { $subject-name } se vieron en su sitio durante { $turns } vueltas.
tooth-fault-none-seen = En { $positions } dientes seguidos el { $subject-name } no muestra ninguno que falte, que cuente doble o que esté desplazado.
tooth-fault = La corona del { $subject-name } está dañada en { $value ->
    [one] un punto
   *[other] { $value } puntos
 } de la vuelta, el mismo en cada una de { $turns } vueltas: faltan { $missing }, rotos { $broken }, dobles { $doubled }, desplazados { $displaced }.
tooth-fault-plain = La corona dentada del { $subject-name } está dañada en { $value ->
    [one] un punto
   *[other] { $value } puntos
 }; se ve en cada vuelta.
tooth-fault-unstated = La corona del { $subject-name } tiene { $missing ->
    [one] un punto
   *[other] { $missing } puntos
 } sin diente en cada una de { $turns } vueltas. Puede estar hecha así, o pueden faltar dientes: no se indica cuántos le faltan.
tooth-fault-unequal = Los dientes del { $subject-name } llegan a distancias desiguales, iguales en cada vuelta; ninguno se desvía tanto que se pueda nombrar.
tooth-fault-not-tested = En esta grabación no se pudieron juzgar los dientes del { $subject-name } uno por uno.
ring-runout-amplitude = En una vuelta la señal del { $subject-name } crece y mengua un { NUMBER($value, maximumFractionDigits: 1) } %.
ring-runout-pitch = En una vuelta los dientes del { $subject-name } llegan antes y después en un { NUMBER($value, maximumFractionDigits: 2) } % de un paso.

# Altura
sensor-amplitude = A 100 rpm el { $subject-name } da { NUMBER($value, maximumSignificantDigits: 3) } V.
sensor-amplitude-low = A 100 rpm el { $subject-name } da solo { NUMBER($value, maximumSignificantDigits: 3) } V: demasiado poco para verse a baja velocidad.
sensor-amplitude-beside = A 100 rpm el { $subject-name } da { NUMBER($value, maximumSignificantDigits: 3) } V, solo el { $share } % de lo que da el { $other-name }.
sensor-amplitude-among = A 100 rpm el { $subject-name } da { NUMBER($value, maximumSignificantDigits: 3) } V, solo el { $share } % de lo que da el sensor más débil de otro eje ({ $other-name }).
sensor-amplitude-apart = A 100 rpm el { $subject-name } da { NUMBER($value, maximumSignificantDigits: 3) } V, el { $share } % de lo que da el { $other-name }; pero según el número de dientes los dos giran a velocidades muy distintas, así que sus coronas pueden no ser iguales.
sensor-amplitude-clamped = La señal del { $subject-name } llega a un límite del equipo o de la entrada de la unidad de control; no se conoce su altura.
sensor-level-low = El nivel bajo del { $subject-name } es de { NUMBER($value, maximumSignificantDigits: 3) } { $unit }.
sensor-level-high = El nivel alto del { $subject-name } es de { NUMBER($value, maximumSignificantDigits: 3) } { $unit }.

# Polaridad
sensor-polarity-usual = El { $subject-name } está conectado como es habitual: su señal sube por el hueco de la corona ({ $gaps } huecos).
sensor-polarity-reversed = El { $subject-name } parece conectado al revés: su señal baja por el hueco de la corona ({ $gaps } huecos), donde lo habitual es que suba.
cam-phase = El flanco del árbol de levas llega { NUMBER($value, maximumFractionDigits: 1) } grados de cigüeñal después del hueco de su corona, en { $turns } vueltas, con una dispersión de { NUMBER($scatter, maximumFractionDigits: 1) } grados (todos los flancos: { $all }).
cam-phase-off = El flanco del árbol de levas llega { NUMBER($value, maximumFractionDigits: 1) } grados de cigüeñal después del hueco de su corona, y no donde dice la hoja de límites (todos los flancos: { $all }).
cam-phase-off-plain = El árbol de levas no gira al paso del cigüeñal como debe.

# Interrupciones
sensor-dropout-none = El { $subject-name } no perdió ningún pulso mientras giraba su eje.
sensor-dropout-once = El { $subject-name } se interrumpe una vez ({ NUMBER($lost_s, maximumFractionDigits: 2) } s) y sigue en fase; una vez puede ser una punta que se movió.
sensor-dropout-twice = El { $subject-name } se interrumpe dos veces ({ NUMBER($lost_s, maximumFractionDigits: 2) } s en total) y sigue en fase: el eje siguió girando, la señal no.
sensor-breaks-off = El { $subject-name } se interrumpe { $value } veces ({ NUMBER($lost_s, maximumFractionDigits: 2) } s en total) y sigue en fase: el eje siguió girando, la señal no.
sensor-gone-silent = El { $subject-name } no da ningún pulso durante { NUMBER($value, maximumFractionDigits: 1) } s mientras el { $witness-name } muestra que su rueda gira.
sensor-silent-several = El { $subject-name } no da ningún pulso durante { NUMBER($value, maximumFractionDigits: 1) } s mientras giran otras { $witnesses } ruedas, entre ellas la del { $witness-name }.
sensor-silent-standing = El { $subject-name } no da ningún pulso durante { NUMBER($value, maximumFractionDigits: 1) } s mientras el { $witness-name } sigue, y otra rueda tampoco da ninguno. En el elevador las ruedas sin tracción no giran: esto no prueba ningún fallo.
sensor-silent-driven = El { $subject-name } no da ningún pulso durante { NUMBER($value, maximumFractionDigits: 1) } s mientras gira el motor, como muestra el { $witness-name }.
sensor-silent-at-times = El { $subject-name } cesa estando en giro y calla durante { NUMBER($value, maximumFractionDigits: 1) } s mientras el { $witness-name } sigue.
sensor-no-pulse = El { $subject-name } no da ningún pulso, y nada prueba que su eje girara ni que el canal lo habría mostrado: un eje parado, un sensor muerto y un cable sin conectar se ven igual.
sensor-no-pulse-alive = El { $subject-name } consume la corriente de un sensor vivo y no da ningún pulso; nada prueba que su eje girara.

# Pareja
speed-difference = Las ruedas del { $subject-name } y del { $other-name } difieren un { NUMBER($value, maximumFractionDigits: 2) } %; la del { $faster-name } es la más rápida.

kind-sensor-speed = Velocidad en un sensor
kind-tooth-rate = Frecuencia de dientes
kind-tooth-pattern = Patrón de la corona
kind-no-rotation = Pulsos que no son rotación
kind-sensor-unreadable = Pulsos que no se pueden leer
kind-tooth-fault = Dientes de la corona
kind-ring-runout = Alabeo de la corona
kind-sensor-amplitude = Altura de la señal del sensor
kind-sensor-polarity = Polaridad del sensor
kind-cam-phase = Fase del árbol de levas
kind-sensor-dropout = Interrupciones del sensor
kind-sensor-silent = Sensor sin pulsos
kind-speed-difference = Diferencia entre dos ruedas

mark-sensor-speed = gira
mark-tooth-rate = gira
mark-no-rotation = sin rotación
mark-tooth-fault = diente
mark-ring-runout = alabeo
mark-sensor-amplitude = altura
mark-sensor-polarity = polaridad
mark-sensor-dropout = se interrumpe
mark-sensor-silent = sin pulsos

subject-wheel-speed-n = sensor de la rueda { $n }
subject-crank-sensor = sensor del cigüeñal
subject-cam-sensor = sensor del árbol de levas
subject-speed-sensor-n = sensor de velocidad { $n }

# Causas
cause-sensor-dead = Un sensor de velocidad no da señal
cause-sensor-dead-plain = Uno de los sensores de velocidad no da señal aunque gira lo que vigila: el sensor, su conector o su cableado está interrumpido o en cortocircuito.
cause-sensor-dead-ruled-out = Un sensor de velocidad sin señal
cause-sensor-intermittent = Un sensor de velocidad hace mal contacto
cause-sensor-intermittent-plain = La señal de un sensor de velocidad se interrumpe una y otra vez mientras la rueda o el eje sigue girando: un conector, un cable o el propio sensor hace mal contacto.
cause-sensor-intermittent-ruled-out = Un sensor de velocidad con mal contacto
cause-tooth-ring-damaged = La corona dentada de un sensor de velocidad está dañada
cause-tooth-ring-damaged-plain = La corona dentada que lee un sensor de velocidad está dañada en un punto, que se ve en cada vuelta. El propio sensor hace lo que debe.
cause-tooth-ring-damaged-ruled-out = Una corona dentada dañada
cause-ring-runout-high = La corona dentada de un sensor de velocidad no gira centrada
cause-ring-runout-high-plain = La corona dentada que lee un sensor de velocidad está descentrada o alabeada, de modo que su señal cambia en cada vuelta.
cause-ring-runout-high-ruled-out = Una corona dentada que no gira centrada
cause-air-gap-large = Un sensor de velocidad está demasiado lejos de su corona
cause-air-gap-large-plain = La señal de un sensor de velocidad es demasiado débil para su velocidad: la distancia entre el sensor y su corona dentada es excesiva, o el sensor está agotado. A baja velocidad se pierde su señal.
cause-air-gap-large-ruled-out = Un sensor de velocidad demasiado lejos de su corona
cause-sensor-polarity-reversed = Los dos cables de un sensor de velocidad están intercambiados
cause-sensor-polarity-reversed-plain = Los dos cables de un sensor de velocidad parecen intercambiados, de modo que la unidad de control lee cada diente un poco antes o después de tiempo.
cause-sensor-polarity-reversed-ruled-out = Cables intercambiados de un sensor de velocidad
cause-pick-up = Lo que muestra un sensor de velocidad es una interferencia
cause-pick-up-plain = El cable de un sensor de velocidad capta interferencias del motor en marcha y muestra una velocidad aunque allí no gira nada: falla su blindaje, su par trenzado o una masa.
cause-pick-up-ruled-out = Interferencias en el cable de un sensor de velocidad

# Reparaciones
repair-sensor-dead-1 = Comprobar primero que la punta del equipo estaba en la señal del sensor; después el conector, la alimentación, la masa y los dos cables del sensor hasta la unidad de control.
repair-sensor-dead-2 = Si están bien, mirar el sensor y la corona, y sustituir el sensor.
proof-sensor-dead = La misma grabación otra vez: el sensor da pulsos siempre que los da el otro.
repair-sensor-intermittent-1 = Mover a mano el conector y el mazo mientras se graba, y encontrar el punto en que se interrumpe la señal.
repair-sensor-intermittent-2 = Reparar allí el conector o el cable; sustituir el sensor si la señal se interrumpe en el propio sensor.
proof-sensor-intermittent = La misma grabación otra vez, moviendo el mazo a mano: no se pierde ningún pulso.
repair-tooth-ring-damaged-1 = Mirar toda la corona, una vuelta entera: un diente roto, mellado o doblado, óxido que la levanta, metal pegado a ella. Limpiarla primero.
repair-tooth-ring-damaged-2 = Si la limpieza no basta, sustituir la corona, o el rodamiento o el eje que la lleva.
proof-tooth-ring-damaged = La misma grabación otra vez: todos los dientes en su sitio en cada vuelta.
repair-ring-runout-high-1 = Medir con reloj comparador el alabeo de la corona y el juego del rodamiento, y compararlos con los límites del fabricante.
repair-ring-runout-high-2 = Limpiar el asiento y volver a montar la corona, o sustituir la corona o el rodamiento.
proof-ring-runout-high = La misma grabación otra vez: la señal es uniforme en la vuelta.
repair-air-gap-large-1 = Medir la distancia entre el sensor y la corona donde se pueda llegar, y limpiar de óxido y metal el sensor, su asiento y la corona.
repair-air-gap-large-2 = Comparar la resistencia de la bobina con la del otro lado; sustituir el sensor si la distancia es correcta.
proof-air-gap-large = La misma grabación otra vez: los dos lados dan lo mismo a la misma velocidad.
repair-sensor-polarity-reversed-1 = Comparar los dos cables en el conector del sensor y en la unidad de control con el esquema del fabricante antes de cambiar nada: algunos fabricantes usan la otra polaridad.
repair-sensor-polarity-reversed-2 = Si están intercambiados, corregirlos donde se hizo la última reparación.
proof-sensor-polarity-reversed = La misma grabación otra vez: la señal sube por el hueco.
repair-pick-up-1 = Comprobar el blindaje y el par trenzado del sensor y su paso junto al alternador, el encendido y los motores; comprobar las masas de motor y carrocería.
repair-pick-up-2 = Comprobar con el sensor desconectado: lo que queda en el cable viene de otra parte. Reparar el blindaje o la masa.
proof-pick-up = La misma grabación otra vez con el motor en marcha y la rueda parada: ningún pulso.

# A continuación
next-record-second-witness = Grabar este sensor junto con otro que deba girar con él (todas las ruedas con el vehículo en marcha, el cigüeñal y el árbol de levas con el motor girando).
next-record-sensor-turning = Grabar el sensor mientras gira su rueda o su eje, desde parado hasta tomar velocidad y de vuelta, durante al menos diez segundos.
next-record-sensor-again = Grabar el sensor de nuevo con al menos diez muestras por diente y un rango adecuado a su señal.
next-move-harness = Grabar de nuevo durante un minuto moviendo a mano el conector y el mazo.
next-look-at-ring = Mirar la corona dentada por el alojamiento del sensor, una vuelta entera.
next-compare-other-wheel = Grabar el sensor del otro lado del mismo eje junto con este, a la misma velocidad.
next-check-polarity = Comparar los dos cables del sensor con el esquema del fabricante.
next-check-valve-timing = Comprobar la distribución con las marcas del fabricante: cadena o correa, tensor y las coronas de los sensores en sus ejes.
next-change-speed = Grabar el régimen del motor junto con el sensor y cambiarlo en la mitad mientras la rueda o el eje está parado: una interferencia cambia con él, una rotación no.
next-state-missing-teeth = Escribir en job.toml cuántos dientes le faltan a la corona de fábrica ([unit] missing_teeth, 0 si ninguno).

# Por qué
why-no-pulse = el sensor no dio ningún pulso y nada muestra que su eje girara
why-too-little-turning = su eje giró demasiado poco tiempo
why-too-few-turns = demasiado pocas vueltas, o muestras por diente, para juzgar los dientes uno por uno
why-no-coil = con esta clase de sensor la altura de la señal no dice nada de la distancia, o no se conoce su escala o su número de dientes
why-no-gap = solo una bobina ante una corona con hueco muestra su polaridad

# Razones
reason-sensor-not-seen = Un sensor no da ningún pulso, y nada en la grabación prueba que su eje girara.
reason-wheels-may-stand = Varias ruedas no dan ningún pulso mientras giran otras. En el elevador las ruedas sin tracción no giran.
reason-sensor-unreadable = Los pulsos de un sensor no se pueden leer como tren de dientes.
reason-may-be-pick-up = Los pulsos de un sensor pueden ser inducidos por el motor en marcha.
reason-cam-phase-off = El árbol de levas está en otra posición respecto al cigüeñal que la que dice la hoja de límites.
reason-gap-unstated = A una corona le faltan dientes en un punto en que puede estar hecha así.
reason-pitches-unequal = Los dientes de una corona llegan a distancias desiguales, y la grabación no dice cuál de ellos se desvía.
reason-broke-off-once = Un sensor se interrumpió una vez, lo que puede deberse a la punta.
reason-near-the-limit = Un valor medido está tan cerca de su límite que no es ni bueno ni malo.
reason-wheels-apart = Un sensor da menos que el otro de su eje, pero las dos ruedas giran a velocidades muy distintas: puede que el número de dientes no valga para ambas.

caution-brake-dust = El polvo de freno daña los pulmones y puede contener amianto. No soplarlo nunca con aire comprimido; limpiarlo en húmedo o aspirarlo con filtro HEPA.
    .word = WARNING
    .title = Polvo de freno
    .source = 29 CFR 1910.1001 apéndice F, prácticas de trabajo en embragues y frenos
driver-speed-unknown = El antibloqueo de los frenos y el control de estabilidad pueden fallar o actuar cuando no deben. Si el sensor es del motor o de la caja, puede faltar la tracción. Conduzca despacio, a distancia y solo hasta el taller.
    .word = WARNING
    .title = Conduzca con cuidado
    .source = { source-practice }

# Trabajo
labour-check-sensor-wiring = Comprobar el conector y el cableado de un sensor de velocidad
labour-replace-speed-sensor = Sustituir un sensor de velocidad
labour-replace-tooth-ring = Sustituir una corona dentada

# Hojas
sheet-silent-beside-one = la otra rueda gira y este sensor no da ningún pulso
sheet-silent-beside-several = gira lo que debe girar con su eje, y este sensor no da ningún pulso
sheet-gives-pulses = el sensor da pulsos mientras gira su eje
sheet-breaks-off-often = los pulsos se interrumpen varias veces y siguen en fase: el eje siguió girando
sheet-breaks-off-twice = los pulsos se interrumpen dos veces y siguen en fase: el eje siguió girando
sheet-silent-at-times = los pulsos cesan estando en giro mientras sigue girando lo que gira con el eje
sheet-never-breaks-off = no se perdió ningún pulso mientras giraba el eje
sheet-tooth-at-one-place = un diente falta, está roto, doble o desplazado en el mismo punto de cada vuelta
sheet-teeth-whole = todos los dientes se vieron en cada vuelta
sheet-varies-once-a-turn = la señal crece y mengua una vez por vuelta, o sus dientes llegan antes y después, en fase con la rueda
sheet-even-over-the-turn = la señal es uniforme en la vuelta
sheet-weaker-than-its-twin = a la misma velocidad da menos de la mitad que el sensor del otro lado
sheet-weak-alone = su tensión es demasiado pequeña para su velocidad
sheet-weak-among-others = a la misma velocidad da menos de dos quintas partes de cualquier otro sensor de su tipo
sheet-strong-enough = su tensión es suficiente para su velocidad
sheet-crosses-downwards = la señal baja por el hueco de la corona, donde lo habitual es que suba
sheet-crosses-upwards = la señal sube por el hueco de la corona, como es habitual
sheet-follows-the-engine = los pulsos siguen al motor mientras cambia su régimen, y su altura no sigue a su frecuencia como debe hacerlo la de una bobina
sheet-is-rotation = los pulsos son los de un eje que gira

# Métodos
method-sensor-rotation = La velocidad es la frecuencia de dientes en una vuelta dividida por las posiciones, la mediana de cada tramo en que no cambia más del 4 %. Los pulsos de una bobina son inducidos si mantienen una relación con el motor mientras cambia su régimen y su amplitud crece menos que la frecuencia elevada a 0,4.
method-tooth-ring = Cada punto de la corona se promedia en las vueltas. Un diente falta si se ve en menos de la mitad, está roto por debajo de 0,6 de la amplitud de sus vecinos o si el hueco guarda un resto de su onda, y está desplazado desde un cuarto de paso. El alabeo es el primer armónico de la vuelta.
method-sensor-amplitude = La amplitud de una bobina es la mitad de pico a pico, dividida por la frecuencia de dientes y dada a 100 rpm. Los niveles de un sensor que conmuta son las modas de su histograma (IEEE Std 181).
method-sensor-polarity = Sobre un hueco la señal de una bobina está en su punto medio; se cuenta en todos los huecos si llega desde abajo o desde arriba.
method-cam-phase = Entre los dientes de la corona del cigüeñal el ángulo se interpola; los flancos del árbol de levas se reúnen en todas las vueltas de hueco a hueco, y cuenta su mediana.
method-sensor-interruptions = Una interrupción sigue en fase, o tras menos de un segundo a la misma velocidad. El silencio cuenta si otro sensor que debe girar con este supera 30 rpm durante un segundo y un sensor sano se habría visto a esa velocidad.
method-sensor-pair = Las velocidades de las dos ruedas se comparan punto por punto en una misma escala de tiempo; el valor es la mediana.

# Fuentes de los límites.
sheet-source-speed-coil = a 100 rpm; un circuito integrado para bobinas se arma a 45 mV (hoja de datos LM1815, TI SNOSBU8F), y una rueda debe verse desde el paso de una persona; criterio
sheet-source-speed-beside = práctica habitual, sin fuente: las bobinas de un eje dan lo mismo con un tercio de diferencia; la mitad es un entrehierro mayor en una décima del paso
sheet-source-speed-among = práctica habitual, sin fuente: las bobinas ante coronas con el mismo número de dientes dan de un eje a otro como mucho el doble o la mitad
sheet-source-speed-field = el campo decae como exp(-2 pi x / paso): un 25 % es una excentricidad del 4 % del paso a cada lado; práctica habitual, sin fuente
sheet-source-speed-runout = práctica habitual, sin fuente: un anillo descentrado un 2 % de su radio
