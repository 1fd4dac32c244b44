"""The style: one shoe model as saved, an immutable value. ``model`` what it is, ``file`` how it
is read and written, ``pieces`` how it becomes geometry, ``edits`` named pure functions from
style to style (the only way to change one)."""
