"""What the pointer does on the drawing board: state machines in millimetres, without Qt.

``board`` is what lies on the board and what is near a point; each other module is a tool with
``press``, ``move``, ``release`` and ``cancel``. A tool holds no style: it is given the board as it
was when the gesture began, and answers with what should be shown or done (``outcome``).
"""
