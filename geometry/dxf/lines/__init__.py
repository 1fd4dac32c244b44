"""What is drawn on a sheet goes in, closed rings and what stays open come out (``loops``, ``rings``)."""
