kind-relative-compression = Relative compression
kind-cranking-speed = Cranking speed
cranking-speed = The starter turned the engine at { $value } rpm.
relative-compression-even = The weakest of { $cylinders } cylinders compresses to { $value } % of the best, over { $cycles } cycles: they are even.
relative-compression-low = The weakest of { $cylinders } cylinders compresses to only { $value } % of the best, over { $cycles } cycles.
relative-compression-unclear = The weakest of { $cylinders } cylinders compresses to { $value } % of the best, which is too close to the limit to tell.
relative-compression-short = The engine was cranked for too few cycles ({ $cycles }) to compare its cylinders.
cause-cylinder-low-compression = A cylinder of the engine has low compression
cause-cylinder-low-compression-plain = One cylinder of the engine does not build up pressure as the others do, so the engine runs unevenly. The gearbox is not the cause of that.
cause-cylinder-low-compression-ruled-out = Low compression in one cylinder
repair-cylinder-low-compression-1 = Measure the pressure of each cylinder with a gauge, and find the weak one.
repair-cylinder-low-compression-2 = Find where it leaks (valves, rings, gasket) with a leak-down test, and repair that.
proof-cylinder-low-compression = The same recording of the starter's current again, with all cylinders even.
next-measure-cylinder-pressure = Measure the pressure of each cylinder with a gauge: the starter's current says that one is weak, not which.
why-too-few-cycles = the engine was cranked for too few turns
next-record-cranking = Record the starter's current while the engine is cranked for at least ten seconds without starting.
subject-battery-voltage = battery voltage
subject-battery-current = battery current
subject-starter-current = starter current
subject-alternator-current = alternator current
subject-feed-voltage-drop = voltage drop of the feed
system-start-and-charge = Battery, starter and alternator
method-cranking-compression = Each compression stroke raises the starter's current; the mean height of each cylinder's humps is held against the best one's. The current does not tell which cylinder is which.

# sheets

sheet-one-hump-low = a cylinder that does not compress holds the starter up less, at the same place of every cycle
sheet-humps-even = all cylinders hold the starter up alike
