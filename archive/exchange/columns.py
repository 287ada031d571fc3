"""The columns of each table of the folder, in the order that they are written."""

PEOPLE = ("ref", "name", "kind", "roles", "trade", "born", "died", "unnamed", "called", "initials", "note")
OBJECTS = (
    "ref",
    "name",
    "description",
    "material",
    "dimensions",
    "maker",
    "made",
    "station",
    "machine",
    "made_by",
    "used_in",
    "workers",
    "pictures",
    "picture_texts",
)
TERMS = ("ref", "preferred", "language", "meaning", "other_words", "said_as", "broader", "related")
CLIPS = (
    "ref",
    "interview",
    "recording",
    "start",
    "end",
    "title",
    "summary",
    "content_advice",
    "stations",
    "objects",
    "processes",
    "hazards",
)
TIES = ("recording", "start", "end", "kind", "ref", "state", "made_by", "made_on")
PICTURE_TEXTS = "|"
