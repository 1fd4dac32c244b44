"""Everything on the roll: what is to be cut, how it lies, whether that is true, what it takes.

The flow, one module a step:

``items`` ``problem``   backing pieces with hand, size, demand and permitted turns; the question asked
``nofit``               where one piece may touch another
``first_layout``        a layout at once, to work with
``rows``                periodic layouts, as a press cutter works
``mixed``               free arrangement, improved until the time is up
``production``          bands of the roll combined to meet the demand
``engine``              the one way in: problem, seed, stop, listener -> lay
``verify``              the independent judge of every lay
``lay_file``            lay.json, read and written
``child`` ``worker``    the engine in a process of its own, that can be killed
``run_plan``            which lays meet an order; ``consumption`` what a pair takes
"""
