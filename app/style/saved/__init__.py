"""What the style file holds of things drawn on pieces, over the base of all its models.

``base`` is that base, ``drawn`` the models, each with ``laid`` for what geometry takes of it; ``grounds``
lays them on a piece in a size.
"""
