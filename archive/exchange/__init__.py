"""One file for each open format, in and out, and the collection folder that is made of them.

Reading is pure: a folder becomes a tree of frozen drafts, or one error that carries every fault.
"""
