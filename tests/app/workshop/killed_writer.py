"""A program killed in the middle of what it writes into a database, at a statement and not at a time."""

DIES = """
import os, signal, sqlite3, sys
said, statements = [], int(sys.argv[4])
def counted(statement):
    global statements
    if said:  # what is printed counts as kept
        statements -= 1
        if statements < 0:
            os.kill(os.getpid(), signal.SIGKILL)
def connected(*words, plain=sqlite3.connect, **more):
    connection = plain(*words, **more)
    connection.set_trace_callback(counted)
    return connection
sqlite3.connect = connected
"""
"""Put before a writer that fills ``said``; its fourth word: how many more statements are let through."""
