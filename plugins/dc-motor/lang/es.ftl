# Start and run
motor-inrush = Al conectarse, el motor consume un pico de { NUMBER($value, maximumFractionDigits: 1) } A.
motor-runs = En marcha regular el motor consume { NUMBER($value, maximumFractionDigits: 2) } A{ $share_percent ->
    [0] {""}
   *[other] , el { NUMBER($share_percent, maximumFractionDigits: 0) } % de su corriente de bloqueo
 }.
motor-runs-raised = En marcha regular el motor consume { NUMBER($value, maximumFractionDigits: 2) } A, el { NUMBER($share_percent, maximumFractionDigits: 0) } % de su corriente de bloqueo: más de lo usual.
motor-runs-hard = En marcha el motor consume { NUMBER($value, maximumFractionDigits: 1) } A, el { NUMBER($share_percent, maximumFractionDigits: 0) } % de su corriente de bloqueo: algo lo frena mucho.
motor-runs-beyond-sheet = En marcha el motor consume { NUMBER($value, maximumFractionDigits: 2) } A, y no es lo que la hoja de límites dice de los de su clase.
motor-runs-alone = En marcha regular el motor consume { NUMBER($value, maximumFractionDigits: 2) } A.
motor-draws-nothing = Con { NUMBER($volts, maximumFractionDigits: 1) } V en sus bornes el motor no consume nada.
motor-draws-nothing-flat = Con { NUMBER($volts, maximumFractionDigits: 1) } V en el motor el canal de corriente no muestra nada, ni siquiera ruido: quizá no estaba conectado.
motor-resistance-start = Bobinado y escobillas tienen { NUMBER($value, maximumFractionDigits: 0) } miliohmios: el arranque empieza en { NUMBER($current_a, maximumFractionDigits: 1) } A.
motor-resistance-stall = Parado, el motor tiene { NUMBER($value, maximumFractionDigits: 0) } miliohmios.
motor-start = El motor se acelera con una constante de tiempo de { NUMBER($value, maximumFractionDigits: 3) } s; en marcha su fuerza contraelectromotriz es el { NUMBER($back_emf_percent, maximumFractionDigits: 0) } % de la tensión.
motor-stall = Durante { NUMBER($value, maximumFractionDigits: 2) } s el motor consume { NUMBER($current_a, maximumFractionDigits: 1) } A y no gira.
motor-stall-plain = El motor estaba conectado y no giró.
motor-stall-current-only = Durante { NUMBER($value, maximumFractionDigits: 2) } s el motor consume { NUMBER($current_a, maximumFractionDigits: 1) } A sin señal de giro; su tensión no se grabó.
motor-stall-later = El motor giró al principio; después consume { NUMBER($current_a, maximumFractionDigits: 1) } A durante { NUMBER($value, maximumFractionDigits: 2) } s y está parado: encontró un obstáculo o el final de lo que mueve.
motor-stall-later-plain = El motor giró y después se paró aunque estaba conectado.
motor-stall-unclear = Durante { NUMBER($value, maximumFractionDigits: 2) } s el motor consume { NUMBER($current_a, maximumFractionDigits: 1) } A; esta grabación no permite saber si giraba.

# Speed and commutation
motor-speed = El motor gira a { NUMBER($value, maximumFractionDigits: 0) } rpm, según el rizado de sus { $bars } delgas.
motor-speed-low = El motor gira a solo { NUMBER($value, maximumFractionDigits: 0) } rpm, según el rizado de sus { $bars } delgas.
commutation-rate = La conmutación deja un rizado de { NUMBER($value, maximumFractionDigits: 0) } Hz; con el número de delgas en job.toml eso es una velocidad.
commutation-gap = La corriente se hunde un { NUMBER($depth_percent, maximumFractionDigits: 0) } % { $value ->
    [one] una vez
   *[other] { $value } veces
 } por vuelta, en { $turns } vueltas: una delga, su bobina o una escobilla no conduce.
commutation-gap-plain = En el mismo punto de cada vuelta se interrumpe la corriente del motor.
commutation-gap-none = En { NUMBER($turns, maximumFractionDigits: 0) } vueltas ninguna delga deja un hueco de más del { $depth_percent } % en la corriente.
commutation-gap-not-tested = El rizado de la conmutación no es lo bastante claro para ver un hueco.
commutation-gap-unclear = La corriente se hunde { NUMBER($hz, maximumFractionDigits: 0) } veces por segundo; la grabación no dice si lo hace el motor o una alimentación conmutada.
commutation-uneven = En { NUMBER($turns, maximumFractionDigits: 0) } vueltas la corriente oscila un { NUMBER($swing_percent, maximumFractionDigits: 0) } % a { NUMBER($hz, maximumFractionDigits: 0) } Hz, una o dos veces por vuelta: una delga, su bobina o una escobilla conduce de otro modo que las demás. Ninguna carga varía tanto dentro de una vuelta.
commutation-uneven-plain = En un punto de cada vuelta el bobinado o las escobillas del motor no conducen como deben.
commutation-uneven-unclear = La corriente oscila un { NUMBER($swing_percent, maximumFractionDigits: 0) } % a { NUMBER($hz, maximumFractionDigits: 0) } Hz y sus múltiplos; la grabación no dice si es el rizado de un motor sano o una delga que conduce mal.
commutation-rate-unclear = La corriente oscila { NUMBER($hz, maximumFractionDigits: 0) } veces por segundo: el rizado de un motor a { NUMBER($rpm, maximumFractionDigits: 0) } rpm, o una delga de uno más rápido que conduce mal; la grabación no dice cuál de los dos.

# Load over the turn
load-even = Dentro de una vuelta la carga varía como mucho un { NUMBER($value, maximumFractionDigits: 0) } % de su media.
load-uneven = Una vez por vuelta la carga sube y baja un { NUMBER($value, maximumFractionDigits: 0) } % de su media: el motor, o lo que mueve, va duro en un punto.
load-uneven-plain = Una vez en cada vuelta el motor trabaja contra más resistencia que en el resto.
load-uneven-unclear = Una vez por vuelta la carga varía un { NUMBER($value, maximumFractionDigits: 0) } % de su media: más de lo habitual y demasiado poco para hablar de un punto duro.
load-not-tested = No se habría visto una carga que varía hasta un { NUMBER($least_percent, maximumFractionDigits: 0) } % dentro de la vuelta.

# Wiring
wiring-resistance = El cableado al motor tiene { NUMBER($value, maximumFractionDigits: 0) } miliohmios: { NUMBER($drop_v, maximumFractionDigits: 2) } V a { NUMBER($current_a, maximumFractionDigits: 1) } A.
wiring-resistance-high = El cableado al motor tiene { NUMBER($value, maximumFractionDigits: 0) } miliohmios, demasiados: a { NUMBER($current_a, maximumFractionDigits: 1) } A se pierden { NUMBER($drop_v, maximumFractionDigits: 1) } V.
wiring-resistance-high-plain = En el camino al motor se pierden { NUMBER($drop_v, maximumFractionDigits: 1) } V de la alimentación.

# Three phases
electrical-rate = Las corrientes de fase alternan a { NUMBER($value, maximumFractionDigits: 1) } Hz.
phases-alike = Las fases conducen por igual: { NUMBER($u_a, maximumFractionDigits: 1) }, { NUMBER($v_a, maximumFractionDigits: 1) } y { NUMBER($w_a, maximumFractionDigits: 1) } A eficaces.
phases-unequal = Las fases conducen de forma desigual: { NUMBER($u_a, maximumFractionDigits: 1) }, { NUMBER($v_a, maximumFractionDigits: 1) } y { NUMBER($w_a, maximumFractionDigits: 1) } A eficaces.
phase-missing = La fase { $missing } no conduce; las otras dos llevan la misma corriente de ida y vuelta.
phases-unclear = Las corrientes de fase no suman cero: una pinza está suelta, invertida o tiene otro factor, y las fases no se pueden comparar.
link-ripple = La corriente del inversor varía un { NUMBER($value, maximumFractionDigits: 0) } % de su media.
link-ripple-single-phase = La corriente del inversor cae a cero { NUMBER($hz, maximumFractionDigits: 0) } veces por segundo: alimenta solo dos hilos del motor.

# Kinds of finding
kind-running-current = Corriente en marcha
kind-motor-resistance = Resistencia del motor
kind-motor-start = Aceleración
kind-motor-stall = Bloqueo
kind-motor-speed = Velocidad del motor
kind-commutation-rate = Frecuencia de conmutación
kind-commutation-gap = Hueco en la conmutación
kind-load-variation = Carga a lo largo de la vuelta
kind-wiring-resistance = Resistencia del cableado
kind-electrical-rate = Frecuencia eléctrica
kind-phase-imbalance = Desequilibrio de fases
kind-link-ripple = Rizado de la corriente de entrada

# Channels, system
subject-motor-current = corriente del motor
subject-motor-voltage = tensión del motor
subject-phase-current-u = corriente de la fase u
subject-phase-current-v = corriente de la fase v
subject-phase-current-w = corriente de la fase w
subject-link-current = corriente de entrada del inversor
system-dc-motor = Motor eléctrico

# Causes
cause-motor-tight = El motor gira con demasiado esfuerzo
cause-motor-tight-plain = El motor trabaja contra una resistencia que no debería existir: un cojinete gastado, una bomba o ventilador obstruido, un mecanismo duro.
cause-motor-tight-ruled-out = Un motor que gira con esfuerzo
cause-motor-jammed = El motor está bloqueado
cause-motor-jammed-plain = El motor recibe corriente y no gira; él, o lo que mueve, está atascado.
cause-motor-jammed-ruled-out = Un motor bloqueado
cause-commutator-fault = El colector o una escobilla del motor está dañado
cause-commutator-fault-plain = En un punto de cada vuelta el motor no recibe corriente; un día puede pararse ahí y no volver a arrancar.
cause-commutator-fault-ruled-out = Un colector dañado
cause-motor-wiring-resistance = El cableado al motor ofrece demasiada resistencia
cause-motor-wiring-resistance-plain = Parte de la tensión se pierde camino del motor, en un conector, un relé, una unión o una masa.
cause-motor-wiring-resistance-ruled-out = Resistencia en el cableado del motor
cause-motor-open-circuit = El circuito del motor está abierto
cause-motor-open-circuit-plain = El motor está conectado y no circula corriente: su bobinado, escobillas, conector o masa está interrumpido.
cause-motor-open-circuit-ruled-out = Un circuito del motor abierto
cause-motor-phase-missing = Una fase del motor no conduce
cause-motor-phase-missing-plain = Uno de los tres hilos del motor no conduce: el motor vibra, da poco par y se calienta.
cause-motor-phase-missing-ruled-out = Una fase que falta

# Repairs and their proof
repair-motor-tight-1 = Comparar con un motor igual en buen estado, sin carga y con carga.
repair-motor-tight-2 = Desacoplar lo que mueve: la corriente dice si va duro el motor o su carga. Reparar o sustituir esa parte.
proof-motor-tight = La misma grabación: menor corriente en marcha a mayor velocidad.
repair-motor-jammed-1 = Desconectar la alimentación y buscar qué retiene al motor: girarlo a mano, a él o a lo que mueve.
repair-motor-jammed-2 = Liberar o sustituir lo atascado; un motor que estuvo mucho tiempo parado con corriente tiene el bobinado quemado y se sustituye.
proof-motor-jammed = La misma grabación: la corriente cae del pico inicial a la de marcha.
repair-commutator-fault-1 = Comprobar que el conector o la alimentación no se corten al mismo ritmo.
repair-commutator-fault-2 = Sustituir el motor, o sus escobillas e inducido si el fabricante los ofrece.
proof-commutator-fault = La misma grabación: un rizado regular sin huecos durante muchas vueltas.
repair-motor-wiring-resistance-1 = Medir la caída con carga unión por unión: fusible, relé, conector, cable, masa.
repair-motor-wiring-resistance-2 = Reparar la unión con la caída de tensión; un relé con contactos quemados se sustituye.
proof-motor-wiring-resistance = La misma grabación: casi toda la tensión llega al motor.
repair-motor-open-circuit-1 = Con el conector quitado medir la resistencia del bobinado girando el eje a mano: no debe cortarse.
repair-motor-open-circuit-2 = Reparar conector, cable o masa, o sustituir el motor si su bobinado o escobillas están interrumpidos.
proof-motor-open-circuit = La misma grabación: al conectar el motor circula corriente.
repair-motor-phase-missing-1 = Apagar el inversor y esperar lo que indique el fabricante; después medir cada bobinado y cada hilo de conector a conector.
repair-motor-phase-missing-2 = Reparar hilo o conector; si están enteros, se sustituye el motor (bobinado abierto) o el inversor (semipuente muerto).
proof-motor-phase-missing = La misma grabación: tres corrientes de fase iguales.

# Steps to take next
next-record-motor-start = Grabar corriente y tensión del motor en su conector, desde antes de conectarlo hasta un segundo en marcha, a 10.000 muestras por segundo o más.
next-record-motor-supply = Grabar la tensión en la fuente (batería o fusible) junto con tensión y corriente en el motor.
next-record-motor-known-good = Hacer la misma grabación en un motor igual en buen estado y poner su corriente y velocidad en una hoja de límites.
next-record-phases = Medir los tres hilos de fase del motor con el mismo factor y grabarlos juntos en marcha.
next-measure-motor-winding = Con el conector quitado medir la resistencia del bobinado y comprobar que la pinza rodeaba el hilo.
next-turn-motor-by-hand = Con la alimentación desconectada girar el motor a mano una vuelta entera y buscar un punto duro; después girar por separado lo que mueve.
next-state-motor-bars = Indicar el número de delgas del colector (motor_bars en job.toml) para distinguir una delga del rizado de todas.

# Why a cause was not tested
why-motor-never-ran = no se grabó ningún arranque que se pudiera leer hasta que el motor gira con regularidad
why-motor-never-driven = el motor nunca se conectó
why-no-commutation-seen = el rizado de su conmutación no se vio con suficiente claridad
why-no-voltage-at-source = la tensión no se grabó en los dos extremos del cableado
why-phases-not-balanced = sus corrientes de fase no se grabaron de modo que se puedan comparar

# What held the verdict open
reason-commutation-unclear = La corriente se repite con la vuelta y no se sabe si lo causa una delga o el rizado de un motor sano.
reason-load-unclear = La carga varía dentro de la vuelta más de lo habitual y no se sabe si es un fallo.

# Labour
labour-test-motor = Prueba de un motor eléctrico por grabación
labour-repair-motor-wiring = Reparar el cableado de un motor
labour-replace-motor = Sustituir un motor

# Cautions
caution-motor-starts = Bombas y ventiladores pueden arrancar solos, también con el contacto quitado. Desconectar su alimentación antes de meter la mano.
    .word = WARNING
    .title = El motor puede arrancar
    .source = { source-practice }
caution-hot-motor = Un motor que estuvo parado con corriente, su conector y sus cables pueden quemar.
    .word = CAUTION
    .title = Partes calientes
    .source = { source-practice }
driver-motor-stops = Lo que mueve este motor puede pararse en cualquier momento. Si es la bomba de combustible, el ventilador del radiador, la dirección o el freno, no conduzca.
    .word = WARNING
    .title = Puede pararse sin aviso
    .source = { source-practice }
driver-motor-hot = Un motor que gira con esfuerzo o no gira se calienta y puede arder. Apáguelo y no insista.
    .word = WARNING
    .title = Se calienta
    .source = { source-practice }

# Methods
method-motor-run = Desde la conexión la corriente cae de forma exponencial (V = R i + k w, J dw/dt = k i - T); extrapolada a la conexión da la resistencia. Un bloqueo se mantiene 0,2 s al 82 % del pico o más y no muestra rizado ni fuerza contraelectromotriz.
method-motor-speed = Las ondas por vuelta son el mínimo común múltiplo de escobillas (dos) y delgas. La línea más fuerte puede ser un orden bajo del giro; entonces cuenta la línea de la que lo es. Un hueco debe llegar en cada vuelta y más despacio al acelerar, o subir la tensión de la fuente. Las líneas a la frecuencia de giro o al doble que ninguna carga puede causar, porque la inercia del rotor divide las de la carga por raíz(1 + (2 pi f tau)^2), son de una delga; las menores, una vez por vuelta, dan la variación de la carga.
method-wiring-resistance = La resistencia es la pendiente de la diferencia de tensiones sobre la corriente cuando esta varía; si no, su cociente.
method-three-phase = Valores eficaces de periodos enteros; el desequilibrio es la mayor desviación de su media. Una fase falta solo si las otras dos llevan la misma corriente de ida y vuelta (Kirchhoff).

# Reasons of the cause sheet
sheet-motor-held-up = en marcha el motor consume más de la mitad de lo que consume parado: algo lo frena
sheet-motor-beyond-known-good = el motor consume otra corriente que uno igual en buen estado
sheet-motor-raised = el motor consume más de su corriente de bloqueo de lo usual
sheet-motor-stalls-later = el motor giró, y después la corriente subió a la de arranque sin mostrar conmutación: encontró un obstáculo o el final de lo que mueve
sheet-motor-runs-freely = el motor gira con una pequeña parte de su corriente de bloqueo
sheet-motor-slow = el motor gira más despacio de lo que dice su hoja
sheet-motor-stands-current = la corriente se queda en su pico inicial y no muestra conmutación; sin la tensión no se excluye un excitador que limite la corriente
sheet-motor-stands = la corriente se queda en su pico inicial y no muestra conmutación: el motor recibe corriente y no gira
sheet-motor-turned = el motor giró
sheet-bar-missing = en el mismo lugar de cada vuelta la corriente se hunde: una delga, su bobina o una escobilla no conduce
sheet-bars-whole = todas las delgas conducen igual durante muchas vueltas
sheet-motor-tight-spot = una vez por vuelta el motor trabaja contra una carga mayor: va duro en un punto
sheet-motor-feed-drops = entre la fuente y el motor la tensión cae con la corriente, y demasiado
sheet-motor-feed-holds = casi toda la tensión de la fuente llegó al motor
sheet-motor-draws-nothing = el motor tiene tensión y no consume nada
sheet-motor-draws = el motor consumió corriente
sheet-phase-carries-nothing = una fase no conduce y las otras dos llevan la misma corriente de ida y vuelta
sheet-link-pulses = la corriente del inversor cae a cero dos veces por periodo, como con potencia monofásica
sheet-phases-differ = las fases llevan corrientes desiguales
sheet-phases-alike = las tres fases conducen por igual
sheet-link-even = la corriente del inversor se mantiene, como con tres fases iguales
sheet-motor-supply = un motor con una tensión demasiado baja gira despacio y consume otra corriente

# Fuentes de los límites.
sheet-source-motor-half-stall = criterio: un motor da su potencia máxima a la mitad de su corriente de bloqueo (manual: V = R i + k w), y ninguno se construye para girar por encima; entre ambas está elevada
sheet-source-motor-free = criterio: sin carga, un motor solo gira contra su propio rozamiento
sheet-source-motor-connection = práctica habitual, sin fuente: una caída de más de 0,5 V en una conexión bajo carga suele ser una avería
sheet-source-motor-standing = criterio: un motor parado consume de dos a cuatro veces lo que consume girando
sheet-source-motor-phases = criterio: la electrónica mantiene iguales las corrientes de un motor en buen estado; las pinzas difieren de un 1 a un 3 %
sheet-source-motor-link = criterio: la potencia monofásica se anula dos veces por periodo, y su primera línea es de 133 % (seno rectificado) a 200 % (su cuadrado) de la media de pico a pico; la de tres fases iguales queda por debajo del 20 %
sheet-source-motor-least = criterio: un arranque y unas décimas de segundo de giro estable
sheet-source-motor-load = criterio: una carga que en un punto de la vuelta se hace más pesada que esto se nota a mano; por debajo del valor menor la explican acoplamientos y rodamientos
sheet-source-motor-largest = criterio: los motores de arranque son los mayores motores con escobillas
sheet-source-motor-batteries = las baterías de vehículos eléctricos llegan a 900 V; práctica habitual, sin fuente
