"""What a person drew on a piece comes to lie on it in every size: places, lines, regions, splits, marks.

``places`` says what a drawn thing is kept relative to, ``ground`` finds it on a piece in one size, ``shapes``
makes of it what the derivation of a backing takes, ``details`` notches, slits, holes, marks and words.
"""
