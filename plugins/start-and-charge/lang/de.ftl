kind-relative-compression = Relative Kompression
kind-cranking-speed = Anlassdrehzahl
cranking-speed = Der Anlasser drehte den Motor mit { $value } min⁻¹.
relative-compression-even = Der schwächste von { $cylinders } Zylindern verdichtet auf { $value } % des besten, über { $cycles } Arbeitsspiele: Sie sind gleichmäßig.
relative-compression-low = Der schwächste von { $cylinders } Zylindern verdichtet nur auf { $value } % des besten, über { $cycles } Arbeitsspiele.
relative-compression-unclear = Der schwächste von { $cylinders } Zylindern verdichtet auf { $value } % des besten; das liegt zu nah am Grenzwert für ein Urteil.
relative-compression-short = Der Motor wurde für zu wenige Arbeitsspiele ({ $cycles }) durchgedreht, um seine Zylinder zu vergleichen.
cause-cylinder-low-compression = Ein Zylinder des Motors hat zu wenig Kompression
cause-cylinder-low-compression-plain = Ein Zylinder des Motors baut weniger Druck auf als die anderen, darum läuft der Motor ungleichmäßig. Das Getriebe ist nicht die Ursache.
cause-cylinder-low-compression-ruled-out = Zu wenig Kompression in einem Zylinder
repair-cylinder-low-compression-1 = Den Druck jedes Zylinders mit einem Druckmesser messen und den schwachen finden.
repair-cylinder-low-compression-2 = Mit einer Druckverlustprüfung finden, wo er undicht ist (Ventile, Ringe, Dichtung), und das instand setzen.
proof-cylinder-low-compression = Dieselbe Aufzeichnung des Anlasserstroms noch einmal, mit gleichmäßigen Zylindern.
next-measure-cylinder-pressure = Den Druck jedes Zylinders mit einem Druckmesser messen: Der Anlasserstrom sagt, dass einer schwach ist, nicht welcher.
why-too-few-cycles = der Motor wurde zu kurz durchgedreht
next-record-cranking = Den Strom des Anlassers aufzeichnen, während der Motor mindestens zehn Sekunden durchgedreht wird, ohne anzuspringen.
subject-battery-voltage = Batteriespannung
subject-battery-current = Batteriestrom
subject-starter-current = Anlasserstrom
subject-alternator-current = Generatorstrom
subject-feed-voltage-drop = Spannungsabfall der Zuleitung
system-start-and-charge = Batterie, Anlasser und Generator
method-cranking-compression = Jeder Verdichtungstakt hebt den Anlasserstrom; die mittlere Höhe der Wellen jedes Zylinders wird mit der des besten verglichen. Der Strom sagt nicht, welcher Zylinder welcher ist.

# sheets

sheet-one-hump-low = ein Zylinder, der nicht verdichtet, hält den Anlasser weniger auf, in jedem Arbeitsspiel an derselben Stelle
sheet-humps-even = alle Zylinder halten den Anlasser gleich stark auf
