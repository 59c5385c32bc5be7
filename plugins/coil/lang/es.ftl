kind-coil-resistance = Resistencia de la bobina
kind-coil-inductance = Inductancia de la bobina
kind-armature-move-time = Movimiento de la armadura
kind-armature-silent = Armadura sin movimiento
kind-hold-current = Corriente de mantenimiento
kind-chopper-rate = Frecuencia de troceado
kind-flyback-voltage = Tensión de corte
kind-dwell-time = Tiempo de conexión
kind-current-limit = Límite de corriente
kind-driver-drop = Tensión que deja la etapa de salida
kind-coil-no-current = Sin corriente
kind-coil-steady-current = Corriente sin pausa

coil-resistance = El circuito de la bobina tiene { $value } ohmios; la referencia son { $reference } ohmios.
coil-resistance-alone = El circuito de la bobina tiene { $value } ohmios; no se indica con qué compararlo.
coil-resistance-unequal = El circuito de la bobina tiene { $value } ohmios y el de la única otra { $reference } ohmios: uno de los dos se desvía, y dos solos no dicen cuál.
coil-resistance-low = El circuito de la bobina solo tiene { $value } ohmios; se indican { $reference } ohmios.
coil-resistance-high = El circuito de la bobina tiene { $value } ohmios; se indican { $reference } ohmios.
coil-resistance-unclear = El circuito de la bobina tiene { $value } ohmios; frente a los { $reference } ohmios indicados está demasiado cerca del límite para decidir.
coil-resistance-unsettled = La corriente no se estabiliza dentro de un accionamiento; el circuito tiene como máximo { $most } ohmios.
coil-resistance-below-others = El circuito de la bobina solo tiene { $value } ohmios; los demás tienen { $reference } ohmios.
coil-resistance-above-others = El circuito de la bobina tiene { $value } ohmios; los demás tienen { $reference } ohmios.
coil-inductance = Antes de moverse su armadura la bobina tiene { $value } mH.
coil-inductance-unequal = La bobina tiene { $value } mH y la única otra { $reference } mH: una de las dos se desvía, y dos solas no dicen cuál.
coil-inductance-below-others = Antes de moverse su armadura la bobina solo tiene { $value } mH; las demás tienen { $reference } mH.
armature-move-time = La armadura llega { $value } ms después de la conexión (media de { $actuations } accionamientos).
armature-late = La armadura llega { $value } ms después de la conexión; las demás, a los { $reference } ms.
armature-late-plain = En la { $subject-name } el movimiento llega más tarde que en las demás.
armature-silent = La corriente sube sin la muesca de una armadura en movimiento (media de { $actuations } accionamientos).
armature-silent-beside-others = La corriente sube sin la muesca que muestran las demás bobinas.
armature-silent-beside-others-plain = En la { $subject-name } no se mueve nada al conectarla; en las demás se ve el movimiento.
armature-unclear = La corriente no muestra muesca donde otras bobinas la muestran, pero la grabación tiene muy poca resolución para darla por ausente.
armature-none = Una bobina de encendido no tiene armadura.
armature-late-weak = La armadura llega { $value } ms después de la conexión, las demás a los { $reference } ms; pero esta bobina recibe menos corriente que ellas.
armature-unequal = La armadura llega { $value } ms después de la conexión, la de la única otra bobina a los { $reference } ms: dos solas no dicen cuál es lo normal.
armature-silent-weak = No se ve ningún movimiento de la armadura; pero esta bobina recibe menos corriente que las demás.
hold-current = Tras un pico de { $peak } A la etapa de salida mantiene { $value } A.
current-without-pause = Circula sin pausa una corriente de { $value } A de media.
chopper-rate = La etapa de salida trocea la corriente a { $value } Hz.
flyback-voltage = Al cortar, el lado conmutado sube a { $value } V.
dwell-time = La bobina está conectada durante { $value } ms ({ $actuations } accionamientos).
current-limit = La etapa de salida limita la corriente a { $value } A después de { $reached_ms } ms.
driver-drop = Conectado, el lado conmutado está a { $value } V.
driver-drop-high = Conectado, el lado conmutado sigue a { $value } V.
no-current-driven = La etapa de salida llevó el lado conmutado a masa { $pulls } veces y no circuló corriente.
no-current-not-driven = No circuló corriente y el lado conmutado siguió a { $level } V: la etapa de salida nunca lo llevó a masa.
no-current-dead-feed = No circuló corriente y el lado conmutado estaba a { $level } V: la alimentación no llega a través de la bobina.
no-current-beside-others = No circuló corriente mientras { $working } bobinas más trabajaban.
no-current-unwitnessed = No circuló corriente y nada muestra que la bobina se conectara.
coil-always-on = Circula una corriente de { $value } A sin pausa y el lado conmutado sigue a { $level } V.

cause-coil-open = El circuito de la bobina está cortado
cause-coil-open-plain = A la bobina no le llega corriente: su devanado, su conector o su cable está cortado.
cause-coil-open-ruled-out = Una bobina cortada
repair-coil-open-1 = Con el conector quitado, medir la resistencia de la propia bobina.
repair-coil-open-2 = Sustituir la bobina si está cortada; si no, hallar el corte en la alimentación, el conector o el cable a la unidad de control.
proof-coil-open = La misma grabación otra vez: circula corriente en cada accionamiento.

cause-coil-shorted-turns = La bobina tiene espiras en cortocircuito
cause-coil-shorted-turns-plain = Parte del devanado está puenteada: la bobina consume demasiada corriente y tira con poca fuerza.
cause-coil-shorted-turns-ruled-out = Espiras en cortocircuito
repair-coil-shorted-turns-1 = Con el conector quitado, medir la resistencia de la propia bobina y compararla con el valor del fabricante a su temperatura.
repair-coil-shorted-turns-2 = Sustituir la bobina y comprobar la etapa de salida, que soportó la sobrecarga.
proof-coil-shorted-turns = La misma grabación otra vez: la corriente se estabiliza donde lo permite la resistencia del fabricante.

cause-armature-sticking = Se atasca la parte móvil de una válvula o un relé
cause-armature-sticking-plain = No se mueve, o se mueve tarde, aunque recibe su corriente.
cause-armature-sticking-ruled-out = Una válvula o un relé atascado
repair-armature-sticking-1 = Intercambiar la pieza con su vecina y grabar de nuevo: la avería debe ir con la pieza.
repair-armature-sticking-2 = Limpiar o sustituir la pieza que se atasca.
proof-armature-sticking = La misma grabación otra vez: todas las bobinas muestran la muesca al mismo tiempo.

cause-coil-wiring-resistance = El circuito de la bobina tiene demasiada resistencia
cause-coil-wiring-resistance-plain = Un conector, un cable o un punto de masa en el camino a la bobina retiene parte de la tensión.
cause-coil-wiring-resistance-ruled-out = Demasiada resistencia en el cableado de la bobina
repair-coil-wiring-resistance-1 = Con corriente, medir la caída de tensión de alimentación, conector y cable conmutado, punto por punto.
repair-coil-wiring-resistance-2 = Reparar el punto con la caída; sustituir la bobina solo si ella misma mide demasiado.
proof-coil-wiring-resistance = La misma grabación otra vez: la corriente se estabiliza donde lo permite la resistencia del fabricante.

cause-driver-fault = La etapa de salida de la bobina no funciona
cause-driver-fault-plain = La salida de la unidad de control que debe conmutar la bobina no la conmuta como debe.
cause-driver-fault-ruled-out = Una etapa de salida averiada
repair-driver-fault-1 = Comprobar la alimentación y la masa de la unidad de control y las condiciones en que conmuta esta bobina.
repair-driver-fault-2 = Llevar el cable conmutado a masa mediante una lámpara de prueba con fusible, donde el fabricante lo permita: si la bobina funciona, cable y bobina están bien.
repair-driver-fault-3 = Reparar o sustituir la unidad de control solo después de probar cable y bobina.
proof-driver-fault = La misma grabación otra vez: el lado conmutado baja a masa en cada accionamiento.

next-record-coil-current = Grabar la corriente de la bobina con una pinza del alcance adecuado, al menos 20 muestras por milisegundo, durante varios accionamientos.
next-record-coil-voltage = Grabar el lado conmutado de la bobina respecto a masa y la alimentación junto con la corriente.
next-record-coil-faster = Grabar la corriente de la bobina con al menos 50 muestras por milisegundo y durante al menos diez accionamientos.
next-record-coil-siblings = Grabar en una misma grabación las corrientes de todas las bobinas de este tipo del motor.
next-measure-coil-resistance = Con el conector quitado, medir la resistencia de la bobina y anotar su temperatura.
next-measure-coil-driver = Comprobar la alimentación y la masa de la unidad de control, y si se cumplen las condiciones para conmutar esta bobina.
next-state-coil-ohm = Indicar la resistencia de la bobina a 20 grados Celsius según el fabricante (coil_ohm).

caution-fuel = El combustible a presión se pulveriza y arde. Descargar la presión antes de abrir un conducto, alejar chispas y proteger ojos y piel.
    .word = DANGER
    .title = Combustible
    .source = { source-practice }
caution-ignition-voltage = Las tensiones de encendido pueden matar. No tocar nunca un circuito de encendido en marcha ni hacer funcionar una bobina sin su carga.
    .word = DANGER
    .title = Tensión de encendido
    .source = { source-practice }
caution-hot-engine = El motor, el escape y las válvulas queman la piel. Dejar que se enfríen antes de meter la mano.
    .word = CAUTION
    .title = Motor caliente
    .source = { source-practice }

reason-armature-weak = Una armadura llega tarde o no se mueve, y su bobina recibe menos corriente que las demás.
reason-two-coils-unequal = Dos bobinas se diferencian, y nada indica cuál de ellas está como debe.
reason-resistance-unsettled = La corriente no se estabilizó dentro de un accionamiento, así que no se pudo comprobar la resistencia indicada.
reason-armature-unclear = Una bobina no muestra muesca, y la grabación tiene muy poca resolución para saber por qué.
why-coil-not-driven = nada muestra que la bobina se conectara
why-coil-no-reference = sin resistencia con la que comparar
why-coil-too-coarse = grabado con poca resolución para mostrar un movimiento

labour-measure-coil = Medir corriente y tensión de una bobina
labour-replace-coil = Sustituir una bobina, válvula o inyector
labour-repair-coil-wiring = Reparar el cableado de una bobina

system-coil = Bobinas: inyectores, válvulas, relés, encendido
subject-coil-current = corriente de la bobina
subject-coil-current-n = corriente de la bobina { $n }
subject-coil-voltage = lado conmutado de la bobina
method-coil-currents = Todos los accionamientos de una bobina se promedian desde la conexión. La resistencia es la tensión en la bobina entre la corriente a la que se estabiliza; la inductancia es la pendiente de -ln(1 - iR/V) en el tiempo antes de que se mueva la armadura. La armadura llega donde la subida, tras ceder, vuelve a crecer (la muesca); una subida sin muesca solo cuenta donde el ruido la habría dejado ver. La corriente mantenida y la limitada se distinguen de la estabilizada por lo brusco del final de la subida.

# hojas de causas

sheet-coil-driven-without-current = la etapa de salida lleva la bobina a masa y no circula corriente
sheet-coil-no-voltage-through = la alimentación no llega al lado conmutado a través de la bobina
sheet-coil-one-without-current = una bobina no lleva corriente mientras otras trabajan: la bobina, su cableado o su etapa de salida
sheet-coil-driver-idle = la alimentación llega al lado conmutado a través de la bobina
sheet-coil-current-flows = circula corriente en cada accionamiento
sheet-coil-below-stated = el devanado tiene menos resistencia de la que puede tener a cualquier temperatura
sheet-coil-below-others = una bobina tiene menos resistencia que las demás del mismo motor
sheet-coil-steeper = la corriente de una bobina sube con más pendiente que la de las demás
sheet-coil-winding-right = el devanado tiene la resistencia que debe tener
sheet-coil-silent-beside-others = la corriente de una bobina sube sin la muesca que muestran las demás
sheet-coil-notch-source = criterio; hoja de datos del LM1949 para la muesca
sheet-coil-silent = la corriente sube sin muesca aunque la grabación la habría mostrado
sheet-coil-late = una armadura llega más tarde que las demás del mismo motor
sheet-coil-none-there = una bobina de encendido no tiene armadura
sheet-coil-moves = la armadura se mueve en cada accionamiento
sheet-coil-winding-weak = una bobina con una resistencia incorrecta tira demasiado poco para mover su armadura
sheet-coil-above-stated = el circuito tiene más resistencia de la que bobina y cableado pueden tener a cualquier temperatura
sheet-coil-above-others = el circuito de una bobina tiene más resistencia que los de las demás
sheet-coil-drop-at-driver = el lado conmutado no baja a masa: la etapa de salida o el cableado intermedio
sheet-coil-circuit-right = el circuito tiene la resistencia que debe tener
sheet-coil-never-pulls-down = el lado conmutado sigue en la alimentación aunque la bobina debería trabajar
sheet-coil-never-lets-go = circula corriente sin pausa y el lado conmutado sigue a masa
sheet-coil-pulls-badly = la etapa de salida deja el lado conmutado muy por encima de masa
sheet-coil-switches = la etapa de salida conecta y desconecta la bobina
sheet-coil-pulls-down = la etapa de salida lleva la bobina a masa
sheet-coil-supply = con una tensión demasiado baja la corriente de una bobina sube despacio y su armadura se mueve tarde
sheet-coil-driver-weak = una etapa de salida que conduce mal deja muy poca corriente para mover la armadura

# Fuentes de los límites.
sheet-source-coil-copper = cobre, 0,393 % por kelvin (IEC 60028): de -20 a 105 grados Celsius frente a 20; al límite superior se suma medio ohmio de cableado y etapa de control (práctica habitual)
sheet-source-coil-among = práctica habitual, sin fuente: bobinas de un motor a la misma temperatura; los manuales permiten una dispersión de 3 ohmios en 14 (Chevrolet 3,1 L 2004)
sheet-source-coil-inductance = práctica habitual, sin fuente: bobinas de un motor
sheet-source-coil-armatures = práctica habitual, sin fuente: armaduras de un motor
sheet-source-coil-driver = práctica habitual, sin fuente: un transistor deja de 0,1 a 0,3 V, un Darlington hasta 1,2 V
sheet-source-coil-least = razonamiento: un accionamiento dura milisegundos; si se grabaron bastantes lo juzgan las propias mediciones
