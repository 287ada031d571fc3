"""A clip's own sound: cut when it is asked for, levelled, and kept by what it was made from."""
