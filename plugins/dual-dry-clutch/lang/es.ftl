# Actuator current
actuation-clutch = Accionamiento de embrague: { NUMBER($value, maximumFractionDigits: 1) } A de pico, terminado a los { NUMBER($duration_s, maximumFractionDigits: 2) } s.
actuation-small = Accionamiento pequeño: { NUMBER($value, maximumFractionDigits: 1) } A de pico, terminado a los { NUMBER($duration_s, maximumFractionDigits: 2) } s, del tamaño del de un actuador de marchas.
actuation-unscaled = Accionamiento, terminado a los { NUMBER($duration_s, maximumFractionDigits: 2) } s (no se conoce la escala de la pinza, por eso no hay amperios).
actuation-stall = Intento bloqueado: la corriente sube a { NUMBER($value, maximumFractionDigits: 1) } A y se queda cerca del pico durante { NUMBER($hold_s, maximumFractionDigits: 2) } s; lo que mueve no se mueve.
actuation-stall-plain = Un motor del actuador hizo fuerza durante { NUMBER($hold_s, maximumFractionDigits: 1) } s y no se movió.
actuation-stall-unscaled = Intento bloqueado: la corriente se queda cerca del pico durante { NUMBER($hold_s, maximumFractionDigits: 2) } s (no se conoce la escala de la pinza, por eso no hay amperios).
actuation-absent = La unidad de control despierta a los { NUMBER($woke_s, maximumFractionDigits: 1) } s y trabaja, pero ningún actuador de embrague se activa y consume su corriente en los { NUMBER($listened_s, maximumFractionDigits: 0) } s que siguen; un pulso desde { NUMBER($detectable, maximumSignificantDigits: 2) } { $detectable_unit } se habría visto.
actuation-absent-plain = La unidad de control estaba despierta y trabajaba, pero ningún motor de embrague consumía corriente.
actuation-absent-unwatched = Ningún actuador de embrague se activa; el comienzo del intento no se grabó, así que la unidad de control quizá no lo intentó. Un pulso desde { NUMBER($detectable, maximumSignificantDigits: 2) } { $detectable_unit } se habría visto.
actuation-absent-own-line = No se ve nada ({ $subject-name }) mientras el otro actuador de embrague trabaja; un pulso desde { NUMBER($detectable, maximumSignificantDigits: 2) } { $detectable_unit } se habría visto. Quizá la unidad de control no lo pretendía, o la pinza no está en ese cable.
actuation-absent-own-line-plain = Un motor de embrague no consumió corriente mientras el otro trabajaba.
attempts = { $value ->
    [one] Un intento acaba en bloqueo.
   *[other] { $value } intentos acaban en bloqueo.
 }
attempts-plain = { $value ->
    [one] La unidad de control lo intentó una vez, sin éxito.
   *[other] La unidad de control lo intentó { $value } veces, sin éxito.
 }
gave-up = Tras el último bloqueo, a los { NUMBER($end_s, maximumFractionDigits: 1) } s, la unidad de control no lo intenta más.
gave-up-plain = Después la unidad de control dejó de intentarlo.

# Shaft motion
turning-at-rest = El { $subject-name } gira de forma constante durante { NUMBER($steady_s, maximumFractionDigits: 1) } s con el motor en marcha, el selector en P o N y ningún embrague accionado.
turning-at-rest-plain = El { $subject-name } giró a { NUMBER($value, maximumFractionDigits: 0) } rpm durante { NUMBER($steady_s, maximumFractionDigits: 0) } s, con el motor en marcha y el selector en P o N. Debería estar parado.
turning-drives = El { $subject-name } gira; con el selector en posición de marcha puede hacerlo.
turning-vehicle-moves = El { $subject-name } gira mientras el vehículo se mueve, como debe ser.
turning-engine-off = El { $subject-name } gira con el motor parado: lo hacen girar las ruedas, ningún embrague puede moverlo.
turning-commanded = El { $subject-name } gira tras accionarse un embrague, como debe ser.
turning-coasting = El { $subject-name } gira durante { NUMBER($duration_s, maximumFractionDigits: 1) } s y se frena: fue arrastrado y se va parando.
turning-briefly = El { $subject-name } gira durante { NUMBER($duration_s, maximumFractionDigits: 1) } s y no mantiene ninguna velocidad el tiempo suficiente para probar algo.
turning-slow = El { $subject-name } gira despacio; el arrastre del aceite y de los rodamientos puede causarlo.
turning-unsteady = El { $subject-name } gira durante { NUMBER($duration_s, maximumFractionDigits: 1) } s, más de lo que un eje libre tarda en pararse, y no mantiene ninguna velocidad: queda abierto qué lo hace girar.
turning-conditions-unknown = El { $subject-name } gira, pero no se sabe si el motor estaba en marcha ni dónde estaba el selector: que gire, por sí solo, no prueba nada.
turning-command-unknown = El { $subject-name } gira con el selector en P o N; sin una corriente de alimentación que se vea circular no puede decirse si un embrague se accionó a propósito.
turning-command-possible = El { $subject-name } gira con el selector en P o N y empezó o dejó de hacerlo justo después de circular corriente por la alimentación: puede que su embrague se accionara a propósito, despacio o en pequeños pasos.
turning-output = El { $subject-name } gira: el vehículo se mueve.
shaft-speed = El { $subject-name } gira a { NUMBER($value, maximumFractionDigits: 0) } rpm (mediana).
shaft-speed-if-turning = Si sus impulsos son los de una rueda que gira, el { $subject-name } gira a { NUMBER($value, maximumFractionDigits: 0) } rpm (mediana).
shaft-at-rest = El { $subject-name } está parado de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s; { rest-proof }
shaft-at-rest-engine-off = El { $subject-name } está parado de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s; el motor no estaba en marcha, así que un embrague que no desembraga no podría haberlo hecho girar.
shaft-at-rest-engine-unknown = El { $subject-name } está parado de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s; no se sabe si el motor estaba en marcha, así que con esto no se descarta un embrague que no desembraga.
shaft-at-rest-vr = El { $subject-name } no da impulsos de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s. Un sensor inductivo calla en reposo y también a velocidad muy baja; { rest-proof }
shaft-at-rest-creep = El { $subject-name } no gira de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s; flancos de diente aislados muestran que se desplaza muy despacio o que un diente está ante el sensor.
shaft-at-rest-briefly = El { $subject-name } está parado de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s; con el motor en marcha fue demasiado poco tiempo para descartar un embrague que no desembraga.
shaft-at-rest-in-gear = El { $subject-name } está parado de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s; con una marcha engranada pueden retenerlo las ruedas, así que con esto no se descarta un embrague que no desembraga.
shaft-rest-in-noise = El { $subject-name } no muestra ningún diente de { NUMBER($start_s, maximumFractionDigits: 1) } a { NUMBER($end_s, maximumFractionDigits: 1) } s, pero el ruido ocultaría hasta { NUMBER($below_hz, maximumFractionDigits: 0) } dientes por segundo: no se sabe si está parado o gira despacio.
shaft-silent = El canal del { $subject-name } no muestra ningún impulso, y nada en él prueba que lo habría mostrado: un eje parado, un sensor muerto y un cable sin conectar se ven igual. Una grabación en la que el eje gire lo aclararía.
attribution-contradicted = El actuador del embrague { $actuator } se bloquea, pero es el eje de entrada { $shaft } el que gira. O hay cables intercambiados o hay dos averías.
attribution-feed = La corriente de alimentación no muestra ningún accionamiento, pero la línea del eje de entrada { $shaft } sube y baja unas pocas veces, como la corriente de un actuador. Sus cables pueden estar intercambiados.
attribution-feed-steps = La corriente de alimentación sube cada vez de una muestra a la siguiente, como la salida de un sensor conmutado y como no puede hacerlo la corriente de un motor. Los cables de la alimentación y de un sensor pueden estar intercambiados.
attribution-feed-swings = La corriente de alimentación oscila una y otra vez pasando por cero, como la tensión de un sensor de bobina y como no puede hacerlo la corriente de una alimentación. Los cables de la alimentación y de un sensor pueden estar intercambiados.
shaft-untested = Ninguna grabación muestra que el canal del { $subject-name } funcione: de este eje no se sabe nada.
shaft-silent-engine-off = El canal del { $subject-name } no muestra ningún impulso; con el motor parado nada habría hecho girar el eje, así que de su sensor no se sabe nada.
shaft-motion-too-short = Del { $subject-name } se grabó demasiado poco para saber si gira o está parado.
rest-proof = { $alive ->
    [pulsed] su sensor dio impulsos en esta grabación
    [toggled] su sensor conmutó en esta grabación
    [quiescent] su sensor lleva la corriente de uno vivo
   *[other] su sensor está vivo
 }; por encima de unos { NUMBER($unseen, maximumSignificantDigits: 2) } { $unseen_unit ->
    [rpm] rpm
   *[other] Hz
 } se habría visto girar.
rotation-refused-undersampled = Los impulsos del { $subject-name } no se toman por velocidad: solo { $detail } muestras por diente, cualquier velocidad podría ser falsa.
rotation-refused-dithering = Los impulsos del { $subject-name } no se toman por giro: varían un { $detail } % de uno al siguiente, como un flanco de diente que tiembla ante el sensor.
rotation-refused-small-swing = Los impulsos del { $subject-name } no se toman por giro: oscilan solo { $detail } V, demasiado poco para la señal propia del sensor.
rotation-refused-spikes = Los impulsos del { $subject-name } no se toman por giro: son agujas del { $detail } % del periodo, no dientes.
rotation-refused-too-regular = Los impulsos del { $subject-name } no se toman por giro: su ritmo varía solo un { $detail } %, más constante que cualquier motor; es más probable una fuente eléctrica.
rotation-refused-irregular = Los impulsos del { $subject-name } no se toman por giro: el { $detail } % de ellos falta o está doblado sin un patrón.
rotation-refused-hum = Los impulsos del { $subject-name } no se toman por giro: son zumbido de la red a { $detail } Hz.
rotation-refused-noise = No se puede leer si el { $subject-name } gira: el ruido ocultaría dientes de hasta { $detail } por segundo.
rotation-refused-steady = Los impulsos del { $subject-name } no se toman por giro: con el motor a régimen constante podrían venir igualmente del motor o del alternador por inducción. Un cambio de régimen lo aclararía.
rotation-refused-copy = Los impulsos del { $subject-name } no se toman por giro: son una copia pequeña de otro canal ({ $detail-name }).

# Supply
supply-sag = Con el accionamiento más fuerte la alimentación cae { NUMBER($value, maximumFractionDigits: 2) } V, hasta { NUMBER($extreme_v, maximumFractionDigits: 1) } V.
supply-sag-unscaled = Con el accionamiento más fuerte la alimentación cae { NUMBER($value, maximumFractionDigits: 2) } V, hasta { NUMBER($extreme_v, maximumFractionDigits: 1) } V; no se sabe con qué corriente, y un motor que se mueve no debería hacerla caer tanto.
supply-sag-plain = Mientras trabajaba un motor, la tensión cayó { NUMBER($value, maximumFractionDigits: 1) } V.
ground-drop = Con el accionamiento más fuerte la masa sube { NUMBER($value, maximumFractionDigits: 2) } V.
ground-drop-plain = Mientras trabajaba un motor, se perdieron { NUMBER($value, maximumFractionDigits: 1) } V en el cable de masa.
feed-resistance = Resistencia del circuito ({ $subject-name }): { NUMBER($value, maximumFractionDigits: 1) } miliohmios, por cómo la tensión sigue a la corriente a lo largo de { NUMBER($swing_a, maximumFractionDigits: 0) } A.
feed-resistance-plain = Los cables de la caja tienen demasiada resistencia ({ NUMBER($value, maximumFractionDigits: 0) } miliohmios).
fuse-duty = En su segundo más duro la línea lleva { NUMBER($rms_a, maximumFractionDigits: 0) } A eficaces, el { NUMBER($value, maximumFractionDigits: 0) } % del valor nominal del fusible.

# Gear train
gear-ratio = El { $subject-name } gira { NUMBER($value, maximumFractionDigits: 3) } veces por cada vuelta del eje de salida.
gear-ratio-named = El { $subject-name } gira { NUMBER($value, maximumFractionDigits: 3) } veces por cada vuelta del eje de salida: marcha { $gear }.
shift = Cambio de marcha en { NUMBER($duration_s, maximumFractionDigits: 2) } s.
slip = Con la marcha mantenida, el motor gira { NUMBER($value, maximumFractionDigits: 0) } rpm ({ NUMBER($percent, maximumFractionDigits: 0) } %) más deprisa que el { $subject-name }, que su embrague debería unir a él.
slip-plain = En una misma marcha el motor giró { NUMBER($value, maximumFractionDigits: 0) } rpm más deprisa que el eje que su embrague debe sujetar.
slip-none = Con la marcha mantenida, el motor y el { $subject-name } giran igual (con menos de { NUMBER($value, maximumFractionDigits: 0) } rpm de diferencia).
double-engagement = La salida se frena un { NUMBER($value, maximumFractionDigits: 0) } % en { NUMBER($duration_s, maximumFractionDigits: 2) } s, desde que se cierra un embrague hasta que se abre el otro: los dos transmiten a la vez.
double-engagement-slight = La salida se frena un { NUMBER($value, maximumFractionDigits: 0) } % en { NUMBER($duration_s, maximumFractionDigits: 2) } s, desde que se cierra un embrague hasta que se abre el otro: menos de lo que demuestra que los dos transmiten a la vez.
double-engagement-plain = Durante un momento los dos embragues agarraron a la vez y frenaron el vehículo.

# Sensor health
sensor-dead = El sensor del { $subject-name } no muestra nada mientras el motor mueve el vehículo por ese eje.
sensor-dead-plain = El sensor del { $subject-name } no mostró nada mientras el vehículo circulaba por ese eje.
sensor-silent = El sensor del { $subject-name } no muestra nada en absoluto mientras el vehículo circula y cambia de marcha, cosa que hace por un eje y otro.
sensor-silent-plain = El sensor del { $subject-name } no mostró nada mientras el vehículo circulaba y cambiaba de marcha.
sensor-dropouts = El sensor del { $subject-name } se corta { $value } veces ({ NUMBER($lost_s, maximumFractionDigits: 1) } s en total) y sigue a la misma velocidad: el eje siguió girando, la señal no.
sensor-dropouts-plain = La señal del { $subject-name } se cortó { $value } veces mientras el eje seguía girando.

# Kinds of observation
kind-actuation = Movimiento de actuador
kind-actuation-stall = Actuador forzado contra un tope
kind-actuation-absent = Actuador que debió moverse y no lo hizo
kind-attempts = Intentos que acaban bloqueados
kind-gave-up = Aprendizaje abandonado por la unidad de control
kind-shaft-turning = Eje girando
kind-attribution-contradicted = El bloqueo y el eje no concuerdan
kind-shaft-untested = Eje del que no se sabe nada
kind-shaft-at-rest = Eje parado
kind-shaft-turning-at-rest = Eje que gira donde debe estar parado
kind-shaft-speed = Velocidad del eje
kind-gear-ratio = Relación de transmisión
kind-slip = Patinaje del embrague
kind-shift = Cambio de marcha
kind-supply-sag = Tensión de alimentación bajo carga
kind-fuse-duty = Carga del fusible
kind-sensor-fault = Señal del sensor de velocidad
kind-ground-drop = Tensión de masa bajo carga
kind-rotation-refused = Impulsos que no son giro
kind-double-engagement = Dos marchas a la vez

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

# Subjects
subject-supply-current = corriente de alimentación de la caja
subject-input-shaft-n = eje de entrada { $n }
subject-output-shaft = eje de salida
subject-actuator-current-n = corriente del actuador del embrague { $n }
subject-gear-motor-current-n = corriente del actuador de marchas { $n }
subject-selector = posición del selector

# causes
cause-clutch-n-drag = El embrague { $n } no desembraga
cause-clutch-n-drag-plain = El embrague { $n } no se abre. Sigue moviendo su eje en la caja de cambios. Por eso la caja no puede aprender el punto de contacto del embrague, y el vehículo puede avanzar solo.
cause-clutch-n-drag-ruled-out = El embrague { $n } no se abre

cause-clutch-n-slip = El embrague { $n } patina
cause-clutch-n-slip-plain = El embrague { $n } no sujeta. El motor gira más deprisa que el eje que el embrague debe sujetar.
cause-clutch-n-slip-ruled-out = El embrague { $n } patina

cause-clutch-actuator-jam = Un actuador de embrague está agarrotado
cause-clutch-actuator-jam-plain = Dos motores mueven los embragues. Uno de ellos hace fuerza y no puede moverse.
cause-clutch-actuator-jam-ruled-out = Un actuador de embrague agarrotado

cause-clutch-actuator-n-jam = El actuador del embrague { $n } está agarrotado
cause-clutch-actuator-n-jam-plain = El motor del embrague { $n } hace fuerza y no puede moverse.
cause-clutch-actuator-n-jam-ruled-out = Un actuador agarrotado del embrague { $n }

cause-gear-actuator-jam = Un actuador de marchas está agarrotado
cause-gear-actuator-jam-plain = Un motor que cambia las marchas hace fuerza y no puede moverse.
cause-gear-actuator-jam-ruled-out = Un actuador de marchas agarrotado

cause-actuation-jam = Un mecanismo dentro de la caja está agarrotado
cause-actuation-jam-plain = Un motor de la caja hace fuerza y no puede moverse. El cable medido alimenta todos los motores, así que no dice cuál es.
cause-actuation-jam-ruled-out = Un mecanismo agarrotado

cause-actuator-open-circuit = Un actuador no está conectado
cause-actuator-open-circuit-plain = La unidad de control intenta mover un motor y no pasa corriente. Un cable, un conector o el motor está cortado.
cause-actuator-open-circuit-ruled-out = Un actuador sin conexión

cause-supply-weak = La alimentación eléctrica de la caja es débil
cause-supply-weak-plain = Cuando la caja trabaja, su tensión cae demasiado. Sus motores reciben poca potencia. La caja en sí puede estar bien.
cause-supply-weak-ruled-out = Una alimentación eléctrica débil

cause-shaft-sensor-n-fault = El sensor de velocidad del eje de entrada { $n } está averiado
cause-shaft-sensor-n-fault-plain = La señal de este sensor no puede venir de un eje, ni girando ni parado. Falla el sensor, su conector o su cable.
cause-shaft-sensor-n-fault-ruled-out = Un sensor averiado del eje de entrada { $n }

cause-double-engagement = Hay dos marchas engranadas a la vez
cause-double-engagement-plain = Los dos ejes de la caja sujetan las ruedas a la vez. Eso no debe ocurrir nunca.
cause-double-engagement-ruled-out = Dos marchas a la vez

cause-relearn-not-completed = El procedimiento de aprendizaje no se completó
cause-relearn-not-completed-plain = Las piezas se mueven como deben. La unidad de control dejó de aprender antes del final. Nada habla a favor de abrir la caja.
cause-relearn-not-completed-ruled-out = Un aprendizaje que solo quedó sin terminar

reason-teeth-unknown = El vehículo se mueve, pero no se conoce el número de dientes de una rueda, así que las velocidades no pueden compararse.
reason-scale-unknown = No se conoce la escala de la pinza, así que los accionamientos no pueden juzgarse por su tamaño.
reason-engine-contradicted = Lo que se escribió sobre el motor no concuerda con la grabación.
reason-conditions-unknown = Un eje gira, pero no se conocen motor ni selector; que gire, por sí solo, no prueba nada.
reason-attribution-contradicted = Las corrientes y los ejes no concuerdan tal como están nombrados los canales: puede haber cables intercambiados.
reason-odd-wheel = La rueda de un sensor de velocidad da un impulso de más en cada vuelta: puede estar hecha así, o uno de sus dientes está dañado.
reason-shaft-untested = El canal de un eje de entrada no muestra impulsos en ninguna grabación, así que de ese eje no se sabe nada.
reason-shaft-unreadable = Los impulsos del sensor de un eje de entrada no se pueden leer, así que no se sabe si ese eje giró.
reason-command-unknown = Un eje gira, pero no se grabó ninguna corriente de alimentación que se viera circular y que mostrara el accionamiento de un embrague.
reason-command-possible = Un eje empezó o dejó de girar justo después de moverse un actuador; puede que su embrague se accionara a propósito.
reason-shaft-unsteady = Un eje gira más tiempo del que tardaría en pararse por sí solo, pero sin una velocidad constante.
reason-slight-tie-up = En un cambio de marcha la salida se frena, pero demasiado poco para demostrar que los dos embragues estaban cerrados a la vez.
reason-sag-at-unknown-current = La alimentación cae casi hasta su límite, y no se conoce la corriente con que lo hace.

# next
next-record-own-actuator-current = Medir la corriente de cada actuador de embrague en su propio cable y grabar otra vez la misma operación.
next-record-supply-current = Grabar la corriente por el fusible de la caja durante todo el procedimiento de aprendizaje.
next-record-both-shafts = Grabar los sensores de velocidad de los dos ejes de entrada junto con la corriente de alimentación.
next-record-engine-running-park = Grabar los dos ejes de entrada durante al menos 30 segundos con el motor en marcha y el selector en P, y anotar ambas cosas en job.toml.
next-check-leads = Comprobar que cada pinza y cada cable de sensor está en el embrague cuyo nombre lleva y hacer otra vez la misma grabación.
next-record-engine-running-park-plain = Grabar los dos ejes de entrada durante medio minuto, con el motor en marcha y el selector en P.
next-record-shaft-turning = Comprobar que el cable está en la señal del sensor y grabarla mientras su eje gira: al accionar el embrague o en carretera.
next-change-engine-speed = Grabar de nuevo y subir el régimen del motor a vez y media durante unos segundos, y dejarlo caer: un eje y una inducción eléctrica se separan entonces.
next-record-whole-relearn = Grabar el procedimiento de aprendizaje desde antes de que empiece hasta después de que termine.
next-record-supply-voltage = Grabar la tensión en el conector de la caja, entre alimentación y masa, mientras toma su corriente más alta.
next-record-ground-voltage = Grabar la caída de tensión de la masa de la caja al polo negativo de la batería mientras toma su corriente más alta.
next-record-engine-speed = Grabar el sensor de régimen del motor junto con los dos ejes de entrada.
next-repeat-cold-and-warm = Hacer la misma grabación en frío y en caliente.
next-measure-actuator-resistance = Con el contacto quitado y el conector separado, medir la resistencia del devanado de cada actuador de embrague y de su cableado.

caution-spring-force = Los muelles de embragues y actuadores conservan su fuerza desmontados. Soltarlos y montarlos solo con la herramienta y el procedimiento del fabricante.
    .word = WARNING
    .title = Fuerza de muelles
    .source = { source-practice }
caution-stored-pressure = Algunas unidades guardan aceite a alta presión en un acumulador, también con el motor parado. Descargarlo según el procedimiento del fabricante antes de abrir un tubo, el acumulador o un actuador; proteger los ojos.
    .word = WARNING
    .title = Presión acumulada
    .source = { source-practice }
caution-lifting = Una caja de cambios pesa mucho, su centro de gravedad no está en el medio, y un volante bimasa con embrague añade su peso. Asegurar el vehículo en el elevador, sostener el motor antes de soltar sus soportes y atar la caja a un gato previsto para su peso.
    .word = WARNING
    .title = Carga pesada
    .source = { source-practice }
caution-hot-parts = Un embrague que ha patinado, el escape y el aceite caliente queman la piel aun mucho después. Dejar que se enfríen.
    .word = CAUTION
    .title = Piezas calientes
    .source = { source-practice }
caution-clutch-dust = El polvo de embrague daña los pulmones y puede contener amianto. Usar un recinto con aspirador HEPA o el método húmedo a baja presión; no cepillarlo nunca en seco ni soplarlo con aire comprimido.
    .word = WARNING
    .title = Polvo de embrague
    .source = 29 CFR 1910.1001, apéndice F, prácticas de trabajo con embragues y frenos

sheet-shaft-let-go = se vio que su embrague soltó este eje; así que el intento no falla porque el embrague no desembrague
sheet-circuit-untested = el módulo indica el circuito del actuador, y ninguna grabación lo comprobó
sheet-weak-code-source = una fuente pública débil para el código; criterio
sheet-open-cannot-turn = un embrague abierto no puede hacer girar su eje durante segundos a velocidad constante
sheet-drag-would-turn = un embrague que no desembraga habría hecho girar su eje con el motor en marcha
sheet-did-not-turn = el eje se grabó y no giró donde no debe
sheet-controller-fails = la unidad de control intentó mover el embrague y no pudo, como ocurre con un embrague que no se abre
sheet-other-shaft-rests = en las mismas condiciones el otro eje está parado: motor y selector están como se indicó
sheet-sensor-may-lie = un sensor averiado puede mostrar lo que no hay
sheet-module-stuck = la unidad de control da este embrague por pegado
sheet-slips = en una marcha mantenida el motor gira más deprisa que el eje que mueve el embrague cerrado
sheet-turn-alike = en una marcha mantenida el motor y el eje giran igual
sheet-module-slip = la unidad de control informa de patinaje de este embrague
sheet-own-stall = este actuador consume su corriente de bloqueo y no se mueve
sheet-own-moved = este actuador se movió sin bloqueo
sheet-drag-behind = su embrague arrastra: lo que no se mueve puede ser el mecanismo tras el actuador
sheet-gear-stall = un actuador de marchas consume su corriente de bloqueo y no se mueve
sheet-gear-no-stall = los actuadores de marchas se grabaron y no se bloquearon
sheet-gear-stalled = un actuador de marchas se bloqueó
sheet-module-gear = la unidad de control señala el accionamiento de marchas
sheet-feed-stall = la alimentación muestra la corriente de bloqueo de un mecanismo que no puede moverse; una pinza en la alimentación no dice cuál
sheet-something-stalls = algo en la alimentación consume su corriente de bloqueo y no se mueve
sheet-feed-no-stall = la alimentación se grabó y ningún actuador se bloqueó
sheet-moved-freely = se vio que los actuadores se movían libremente
sheet-drew-nothing = la unidad de control despertó y trabajó, y los actuadores de embrague no consumieron corriente
sheet-drew-nothing-start = ningún actuador de embrague se activó, aunque el comienzo del intento no se grabó
sheet-one-draws-nothing = un actuador de embrague no consume corriente en su propio cable mientras el otro trabaja
sheet-drew-current = un actuador de embrague se activó y consumió su corriente
sheet-into-stall = un actuador consume su corriente de bloqueo
sheet-module-open = la unidad de control midió el circuito abierto
sheet-module-circuit = la unidad de control señala el circuito del actuador
sheet-supply-loses = mientras trabajaban los actuadores, en el cableado de alimentación cayó más tensión de la debida
sheet-supply-held = la tensión de alimentación se mantuvo mientras trabajaban los actuadores
sheet-ground-rises = mientras trabajaban los actuadores, en el cableado de masa cayó más tensión de la debida
sheet-slope = la pendiente de la tensión frente a la corriente es la resistencia de la alimentación, y es demasiado alta
sheet-module-supply = la unidad de control señala su alimentación
sheet-sensor-breaks = el sensor no da señal o su señal se corta mientras su eje tiene que estar girando
sheet-sensor-whole = el sensor se grabó y su tren de impulsos no tiene huecos
sheet-module-sensor = la unidad de control señala este sensor
sheet-slows-hard = la salida se frena mucho desde que se cierra un embrague hasta que se abre el otro
sheet-never-slowed = se grabó el trayecto y la salida nunca se frenó así
sheet-module-two-gears = la unidad de control informa de más de una marcha engranada
sheet-shaft-stands = un eje de entrada está parado: nada es arrastrado
sheet-not-learned = la unidad de control dice que la posición del embrague no se aprendió
sheet-fault-stops = se midió una avería que impide el aprendizaje
sheet-drag-explains = un embrague que no desembraga explica el intento
sheet-drag-explains-stall = un embrague que no desembraga explica el intento que se bloquea

# Shafts, wheels and wires
rotation-refused-too-quick = Los impulsos del { $subject-name } no se toman por giro: la velocidad cambiaría en { $detail } rpm en un segundo, más deprisa de lo que permite la inercia del eje.
rotation-refused-current = Los impulsos del { $subject-name } no se toman por giro: van al compás de otro canal ({ $detail-name }), como hace una inducción eléctrica.
wrong-gear = El { $subject-name } gira { NUMBER($value, maximumFractionDigits: 3) } veces por cada vuelta del eje de salida, una relación que no tiene ninguna de sus marchas (la más próxima: marcha { $nearest }): otro juego de engranajes o grupo final, un número de dientes equivocado o sensores cambiados entre sí.
sensor-contact = El sensor del { $subject-name } pierde el contacto { $value } veces ({ NUMBER($lost_s, maximumFractionDigits: 1) } s en total) y sigue a la misma velocidad: se abre un conector, un cable o una unión.
sensor-contact-plain = El sensor del { $subject-name } perdió el contacto { $value } veces mientras el eje seguía girando.
sensor-missing-teeth = La rueda del { $subject-name } tiene { $value ->
    [one] un hueco
   *[other] { $value } huecos
 } donde debe haber dientes, en el mismo sitio en cada una de { $turns } vueltas.
sensor-missing-teeth-plain = La rueda dentada del { $subject-name } tiene un defecto en un punto, que se ve en cada vuelta.
sensor-doubled-teeth = { $value ->
    [one] Un diente del { $subject-name } cuenta
   *[other] { $value } dientes del { $subject-name } cuentan
 } doble, en el mismo sitio en cada una de { $turns } vueltas: una muesca, una mella o metal en la rueda.
sensor-doubled-teeth-plain = La rueda dentada del { $subject-name } tiene un defecto en un punto, que se ve en cada vuelta.
tooth-wheel-gap = La rueda del { $subject-name } tiene { $positions } posiciones, { $value } de ellas sin diente. Muchas ruedas se hacen así; si esta no lo es, faltan dientes.
tooth-wheel-extra = La rueda del { $subject-name } da por vuelta { $value } impulsos más que sus { $positions } posiciones, siempre en el mismo lugar. Algunas ruedas se hacen así; si esta no lo es, un diente tiene una muesca o hay metal pegado.
tooth-wheel-extra-alike = Las ruedas de los dos ejes de entrada dan por vuelta { $value } impulsos más que sus { $positions } posiciones, siempre en el mismo lugar: están hechas así.
tooth-wheel-other = La rueda del { $subject-name } se declaró con { $stated } posiciones; sus impulsos muestran { $positions } por vuelta, { $value } de ellas sin diente, y con ellas se lee la velocidad.
crosstalk = El cable ({ $subject-name }) lleva el { NUMBER($share_percent, maximumFractionDigits: 0) } % de la señal de otro ({ $from-name }): inducción eléctrica, no giro.
kind-wrong-gear = Relación que no tiene ninguna marcha
kind-crosstalk = Inducción entre cables
kind-tooth-wheel = Rueda dentada
next-look-at-wheel = Mirar la rueda por el alojamiento del sensor, una vuelta entera: un diente roto o con muesca, metal pegado a ella.
driver-creep = El vehículo puede avanzar solo. No lo deje nunca con el motor en marcha: ponga P, accione el freno de estacionamiento y llévese la llave.
    .word = WARNING
    .title = No conduzca
    .source = { source-practice }
driver-slip = El embrague se calienta, y la tracción puede fallar cuando más falta hace. No deje el motor en marcha.
    .word = WARNING
    .title = No conduzca
    .source = { source-practice }
driver-lock = La transmisión puede frenar o bloquear las ruedas sin aviso. No deje el motor en marcha.
    .word = DANGER
    .title = No conduzca
    .source = { source-practice }
driver-no-drive = Puede que el vehículo no se mueva o que pierda la tracción en marcha. Hágalo llevar al taller.
    .word = WARNING
    .title = La tracción puede fallar
    .source = { source-practice }
driver-tow = Remolcar solo como dice el manual: con las ruedas motrices levantadas o sobre un camión. Sin corriente puede quedar una marcha engranada, y P quizá no sujete.
    .word = WARNING
    .title = Remolque
    .source = { source-practice }
sheet-wheel-every-turn = falta un diente o cuenta doble en el mismo sitio en cada vuelta: la rueda dentada o algo pegado a ella

# methods
method-actuator-current = Un accionamiento empieza y acaba al 15 % de su pico de referencia sobre la corriente de reposo. Un bloqueo se mantiene al 70 % o más de su pico de referencia durante al menos 0,4 s. La carga es la integral de la corriente sobre la de reposo. La incertidumbre une la exactitud de la pinza y el ruido.
method-shaft-motion = La velocidad es la mediana de los periodos de diente, por el número de dientes; su incertidumbre une el muestreo y la dispersión. El giro cuenta como anómalo solo con el motor en marcha, el selector en P o N, ningún accionamiento de embrague en la corriente de alimentación, velocidad constante durante 2 s y un tren de dientes verdadero. No se toman por giro: muestreo insuficiente, flanco que tiembla, oscilación pequeña, agujas, regularidad de reloj, copia de otro canal.
method-supply = La resistencia es la pendiente de mínimos cuadrados de la tensión frente a la corriente en todos los accionamientos, cada uno frente a su entorno; su incertidumbre une el error típico del ajuste y la exactitud de la pinza. No se afirma ningún tiempo de fusión de un fusible.
method-gear-train = La relación es la velocidad de entrada entre la de salida con la marcha mantenida. El patinaje es el régimen del motor menos la velocidad del eje con la marcha mantenida; el arranque queda fuera. Un cambio dura desde que el motor se aparta un 2 % de la relación que mantenía hasta que llega por primera vez al 5 % del otro eje; ninguna norma define este tiempo.
method-sensor-health = Un hueco dura al menos cuatro periodos con la misma velocidad antes y después. Un sensor está muerto cuando el motor mantiene una relación con la salida que el otro eje no explica, o cuando calla durante un trayecto con cambio de marcha.
method-drive-conditions = La palanca y las aplicaciones de embrague ordenadas se leen de lo declarado y de la corriente de alimentación; un eje que gira tras una aplicación puede hacerlo.
method-recording-checks = La pinza de la alimentación debe reposar donde reposa una unidad de control y apuntar hacia arriba; cada sensor debe muestrearse con rapidez suficiente para mostrar el ralentí; un vehículo en marcha necesita sus números de dientes.
method-attribution = Un actuador bloqueado se compara con el eje que gira donde no debe: si no son del mismo embrague, puede haber cables cambiados.
method-shafts-untested = Un eje cuenta como comprobado solo si su canal mostró un impulso en alguna grabación del trabajo.

# repairs
repair-clutch-n-drag-1 = Separar la caja del motor, desmontarla y abrir la carcasa del embrague.
repair-clutch-n-drag-2 = Inspeccionar el embrague { $n }, su cojinete de desembrague, su palanca y el recorrido del actuador; medir desgaste y libertad de movimiento según los límites del fabricante.
repair-clutch-n-drag-3 = Sustituir lo que esté fuera de los límites y ajustar el embrague según el procedimiento del fabricante.
repair-clutch-n-drag-4 = Montar la caja y hacer el procedimiento de aprendizaje.
proof-clutch-n-drag = La misma grabación otra vez: motor en marcha, selector en P, los dos ejes de entrada parados y el procedimiento de aprendizaje completado.
opens-clutch-n-drag = Se desmonta la caja y se abre la carcasa del embrague, porque el embrague { $n } no puede verse ni medirse desde fuera.
destroyed-clutch-n-drag = Retenes, juntas, tornillos de un solo uso y anillos de retención de la carcasa del embrague y de la fijación de la caja.

repair-clutch-n-slip-1 = Comprobar los valores aprendidos del embrague y repetir el procedimiento de aprendizaje antes de abrir nada.
repair-clutch-n-slip-2 = Si el patinaje sigue, desmontar la caja, abrir la carcasa del embrague y medir en el embrague { $n } el desgaste, el aceite y los daños por calor.
repair-clutch-n-slip-3 = Sustituir lo que esté fuera de los límites, montar y hacer el procedimiento de aprendizaje.
proof-clutch-n-slip = El mismo trayecto grabado otra vez: con el embrague cerrado, eje y motor giran a la misma velocidad.
opens-clutch-n-slip = Se desmonta la caja y se abre la carcasa del embrague, porque el embrague { $n } no puede verse ni medirse desde fuera.
destroyed-clutch-n-slip = Retenes, juntas, tornillos de un solo uso y anillos de retención de la carcasa del embrague y de la fijación de la caja.

repair-clutch-actuator-jam-1 = Grabar la corriente propia de cada actuador de embrague para hallar cuál de los dos está agarrotado.
repair-clutch-actuator-jam-2 = Desmontar ese actuador desde fuera y mover a mano la palanca del embrague con la herramienta del fabricante: una palanca dura es avería del embrague, una libre es avería del actuador.
repair-clutch-actuator-jam-3 = Sustituir la pieza agarrotada y hacer el procedimiento de aprendizaje.
proof-clutch-actuator-jam = La misma grabación otra vez: cada accionamiento es corto, su corriente vuelve a caer y el procedimiento de aprendizaje se completa.

repair-clutch-actuator-n-jam-1 = Desmontar desde fuera el actuador del embrague { $n } y mover a mano la palanca del embrague con la herramienta del fabricante: una palanca dura es avería del embrague, una libre es avería del actuador.
repair-clutch-actuator-n-jam-2 = Sustituir la pieza agarrotada y hacer el procedimiento de aprendizaje.
proof-clutch-actuator-n-jam = La misma grabación otra vez: cada accionamiento del actuador { $n } es corto, su corriente vuelve a caer y el procedimiento de aprendizaje se completa.

repair-gear-actuator-jam-1 = Desmontar desde fuera el actuador de marchas, hasta donde el fabricante lo permita, y comprobar que el mecanismo de cambio se mueve libremente.
repair-gear-actuator-jam-2 = Sustituir la pieza agarrotada y hacer el procedimiento de aprendizaje.
proof-gear-actuator-jam = La misma grabación otra vez: cada marcha entra con un accionamiento corto y el procedimiento de aprendizaje se completa.
opens-gear-actuator-jam = Se abre la carcasa de la caja, porque el mecanismo de cambio está dentro.
destroyed-gear-actuator-jam = Aceite de la caja, sellador de la carcasa, retenes y tornillos de un solo uso.

repair-actuation-jam-1 = Hallar primero el mecanismo agarrotado: grabar la corriente propia de cada motor durante la misma operación.
repair-actuation-jam-2 = No hay que abrir nada hasta que esa grabación nombre el mecanismo.
proof-actuation-jam = La misma grabación otra vez: cada accionamiento es corto, su corriente vuelve a caer y el procedimiento de aprendizaje se completa.

repair-actuator-open-circuit-1 = Con los conectores separados, medir el circuito del actuador desde la unidad de control hasta el motor: continuidad, presión de los contactos, corrosión.
repair-actuator-open-circuit-2 = Reparar el cableado o el conector, o sustituir el actuador si su propio devanado está interrumpido.
repair-actuator-open-circuit-3 = Hacer el procedimiento de aprendizaje.
proof-actuator-open-circuit = La misma grabación otra vez: pasa corriente en cada accionamiento y el procedimiento de aprendizaje se completa.

repair-supply-weak-1 = Cargar y comprobar la batería.
repair-supply-weak-2 = Medir bajo carga la caída de tensión de la alimentación y de la masa de la caja, unión por unión, y reparar la unión en la que cae.
repair-supply-weak-3 = Repetir el procedimiento de aprendizaje antes de juzgar la caja.
proof-supply-weak = La misma grabación otra vez: la tensión en la caja aguanta con su corriente más alta.

repair-shaft-sensor-n-fault-1 = Comprobar el conector, el cableado, la alimentación y el entrehierro del sensor.
repair-shaft-sensor-n-fault-2 = Si están bien, sustituir el sensor y hacer el procedimiento de aprendizaje.
proof-shaft-sensor-n-fault = La misma grabación otra vez: una señal de dientes limpia y constante del sensor { $n }.

repair-double-engagement-1 = No circular con el vehículo.
repair-double-engagement-2 = Comprobar el mecanismo de cambio y sus actuadores; hallar qué marcha queda metida.
repair-double-engagement-3 = Sustituir la pieza averiada y hacer el procedimiento de aprendizaje.
proof-double-engagement = La misma grabación otra vez: en punto muerto los dos ejes de entrada giran libres uno del otro.

repair-relearn-not-completed-1 = Cumplir las condiciones del procedimiento de aprendizaje del fabricante: batería, temperatura, selector, puertas, freno.
repair-relearn-not-completed-2 = Repetir el procedimiento y grabarlo de principio a fin.
proof-relearn-not-completed = Una grabación del procedimiento de aprendizaje que termina por sí mismo, sin ningún intento abandonado.

# why
# Por qué no se comprobó una causa aunque se grabaron sus canales.

why-not-at-rest-with-the-engine-running = no se grabó con el motor en marcha y el embrague abierto
why-no-gear-held = ninguna grabación mantiene una marcha
why-never-driven = su motor nunca se accionó
why-never-under-load = la alimentación nunca se grabó bajo carga
why-no-pulse-in-any-recording = el sensor no dio ningún pulso en ninguna grabación
why-no-gear-change = no se grabó ningún cambio de marcha
why-no-code-says-so = ningún código lo dice

system-dual-dry-clutch = Cambio automatizado con dos embragues en seco
sheet-vehicle-supply = una batería débil, una carga insuficiente o una mala masa del motor vuelve lento cualquier actuador
sheet-alternator-pick-up = el rizado de un diodo averiado del alternador se acopla en los cables de los sensores

# Work
labour-first-step = Comprobar alimentación y masa de la caja de cambios y repetir el aprendizaje
labour-teardown = Desmontar y abrir la caja de cambios
labour-clutch = Sustituir el doble embrague
labour-clutch-actuator = Sustituir un actuador de embrague
labour-gear-actuator = Sustituir un actuador de marchas
labour-feed = Reparar la alimentación, la masa o el cableado de los actuadores
labour-shaft-sensor = Sustituir un sensor de revoluciones de un eje de entrada
labour-reassembly = Cerrar y montar la caja de cambios
labour-relearn = Repetir el aprendizaje del cambio

# Fuentes de los límites.
sheet-source-ddc-peak = práctica habitual, sin fuente: los accionamientos sanos de embrague tienen en la alimentación picos de 13 a 18 A
sheet-source-ddc-small = criterio: los sucesos menores son de la propia unidad de control
sheet-source-ddc-quiescent = práctica habitual, sin fuente: la unidad de control y las válvulas en reposo consumen de 0,3 a 2 A
sheet-source-ddc-parked = práctica habitual, sin fuente: una caja en buen estado en P con el motor en marcha tiene ambos ejes de entrada parados; el rozamiento de los rodamientos puede arrastrar despacio un eje libre
sheet-source-ddc-coast = práctica habitual, sin fuente: un eje liberado se detiene en unos 2 s
sheet-source-ddc-speed-up = criterio: es lo que tarda un eje en alcanzar el régimen tras acoplarse su embrague
sheet-source-ddc-sag = práctica habitual, sin fuente: más de 1 V perdido en una alimentación en uso suele ser una avería; aquí más amplio, porque un actuador bloqueado consume más
sheet-source-ddc-ground = práctica habitual, sin fuente: como máximo 0,5 V en todo el camino de masa bajo carga
sheet-source-ddc-feed = práctica habitual, sin fuente: 30 A pierden en 50 miliohmios 1,5 V, el límite de la caída de tensión
sheet-source-ddc-fuse = criterio: lea el valor en el fusible del propio vehículo y póngalo aquí
sheet-source-ddc-fuse-duty = criterio: corriente eficaz del segundo más exigente frente al valor nominal; no se afirma ningún tiempo de fusión
sheet-source-ddc-slip = práctica habitual, sin fuente: un embrague cerrado no patina; el microdeslizamiento controlado queda por debajo
sheet-source-ddc-shift = práctica habitual, sin fuente: un cambio de marcha tarda de 0,2 a 0,5 s
sheet-source-ddc-smallest = criterio: el motor más pequeño consume más, y el fusible no soporta durante segundos más que su valor nominal
sheet-source-ddc-stall = criterio: un motor que no puede girar consume la tensión de alimentación entre su bobinado y su cableado, decenas de amperios
sheet-source-ddc-cut = criterio: la unidad de control corta en segundos la corriente de un motor que no puede girar
sheet-source-ddc-supply = práctica habitual, sin fuente: la electrónica de sistemas de 12 V funciona de 6 a 16 V, con margen; ISO 16750-2 no se consultó
