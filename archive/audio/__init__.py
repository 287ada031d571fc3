"""Sound: paths and numbers in, files and numbers out. It knows no records; PyAV and pydub are used only here."""
