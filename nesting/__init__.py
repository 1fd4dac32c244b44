"""Everything on the roll: what is to be cut, how it lies, whether that is true, what it takes.

The modules and packages in the order of the work:

``items``, ``roll``, ``problem``   backing pieces with hand, size, demand and permitted turns; the question
``contact``                        where one piece may touch another
``dies``                           what is cut alike, and one shape in its sizes
``compaction``                     layouts squeezed on the true outlines
``lattice``, ``rows``              the densest lattices; bands of them along the roll
``free``                           first layout, clusters, general solver, sections that repeat
``engine``                         the one way in: problem, seed, stop, listener -> lay; also in a process
``verify``                         the independent judge of every lay
``files``, ``known``               lay.json and the lines between processes; lays found before
``planning``, ``press``            which lays meet an order, what a pair takes; rows and stacks of dies
``system``                         what differs by operating system
"""
