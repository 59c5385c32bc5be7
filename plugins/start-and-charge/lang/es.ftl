kind-relative-compression = Compresión relativa
kind-cranking-speed = Velocidad de arranque
cranking-speed = El motor de arranque giró el motor a { $value } rpm.
relative-compression-even = El más débil de { $cylinders } cilindros comprime al { $value } % del mejor, en { $cycles } ciclos: son parejos.
relative-compression-low = El más débil de { $cylinders } cilindros comprime solo al { $value } % del mejor, en { $cycles } ciclos.
relative-compression-unclear = El más débil de { $cylinders } cilindros comprime al { $value } % del mejor, demasiado cerca del límite para decidir.
relative-compression-short = El motor se hizo girar durante muy pocos ciclos ({ $cycles }) para comparar sus cilindros.
cause-cylinder-low-compression = Un cilindro del motor tiene poca compresión
cause-cylinder-low-compression-plain = Un cilindro del motor no alcanza la presión de los demás, por eso el motor gira de forma irregular. La caja de cambios no es la causa.
cause-cylinder-low-compression-ruled-out = Poca compresión en un cilindro
repair-cylinder-low-compression-1 = Medir la presión de cada cilindro con un manómetro y encontrar el débil.
repair-cylinder-low-compression-2 = Encontrar por dónde pierde (válvulas, anillos, junta) con una prueba de fugas, y repararlo.
proof-cylinder-low-compression = La misma grabación de la corriente de arranque, con todos los cilindros parejos.
next-measure-cylinder-pressure = Medir la presión de cada cilindro con un manómetro: la corriente de arranque dice que uno es débil, no cuál.
why-too-few-cycles = el motor se hizo girar muy pocas vueltas
next-record-cranking = Registrar la corriente del motor de arranque mientras hace girar el motor al menos diez segundos sin que arranque.
subject-battery-voltage = tensión de la batería
subject-battery-current = corriente de la batería
subject-starter-current = corriente del motor de arranque
subject-alternator-current = corriente del alternador
subject-feed-voltage-drop = caída de tensión de la alimentación
system-start-and-charge = Batería, motor de arranque y alternador
method-cranking-compression = Cada carrera de compresión eleva la corriente del motor de arranque; la altura media de las ondas de cada cilindro se compara con la del mejor. La corriente no dice qué cilindro es cuál.

# sheets

sheet-one-hump-low = un cilindro que no comprime frena menos el motor de arranque, en el mismo punto de cada ciclo
sheet-humps-even = todos los cilindros frenan igual el motor de arranque
