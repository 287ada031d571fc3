"""Hostile variants of the card, the tables and the plan."""

from __future__ import annotations

from tests.exchange.hostile import added, swapped, whole

CARD = [
    whole("collection.toml", None, "is not in the folder"),
    whole("collection.toml", "", "'ref' is missing"),
    whole("collection.toml", "ref = ", "it is not TOML", line=1),
    whole("collection.toml", b'ref = "sm"\nname = "\xff"\n', "not UTF-8", line=2),
    whole("collection.toml", 'ref = "sm"\n\0', "a zero byte", line=2),
    whole("collection.toml", "x = " + "[" * 50_000, "it nests too deep", name="brackets fifty thousand deep", line=1),
    whole(
        "collection.toml", "a" + ".a" * 100_000 + " = 1", "it nests too deep", name="a dotted key without end", line=1
    ),
    whole("collection.toml", "x = " + "9" * 6000, "too large", name="a figure of six thousand digits"),
    whole("collection.toml", "# " + "x" * 1_100_000, "a line of", name="a line of a megabyte", line=1),
    whole("collection.toml", "#x\n" * 7_000_000, "larger than 20 MB", name="a text of 21 MB"),
    swapped("collection.toml", 'ref = "sm"', 'ref = "../sm"', "A reference starts with"),
    swapped("collection.toml", 'ref = "sm"', "ref = 7", "It must be text"),
    swapped("collection.toml", 'ref = "sm"', "ref = true", "It must be text"),
    swapped("collection.toml", 'ref = "sm"', 'ref = ["sm"]', "It must be text"),
    swapped("collection.toml", 'name = "The Small Works"', 'name = ""', "'name' is missing"),
    swapped("collection.toml", 'name = "The Small Works"', 'name = "a\\u0007b"', "control character"),
    swapped("collection.toml", 'name = "The Small Works"', f'name = "{"x" * 400}"', "has 400 letters"),
    swapped("collection.toml", "en-GB", "english, please", "language tag"),
    swapped("collection.toml", "0.9", "nan", "It may be from"),
    swapped("collection.toml", "0.9", "-inf", "It may be from"),
    swapped("collection.toml", "0.9", "1e400", "It may be from"),
    swapped("collection.toml", "0.9", "-1", "It may be from"),
    swapped("collection.toml", "0.9", '"slow"', "It must be a number", line=6),
    swapped("collection.toml", "130", "99999999999999999999999", "It must be a number"),
    added("collection.toml", 'motto = "On"\n', "'motto' is not known", line=9),
    added("collection.toml", 'ref = "sm"\n', "it is not TOML", line=9),
]

PEOPLE = [
    whole("people.csv", "", "there is no column 'ref'", line=1),
    whole("people.csv", "name,name\n", "stands twice", line=1),
    swapped("people.csv", "ref,name", "ref,nom", "is no column"),
    swapped("people.csv", "initials,note", "initials,note,shoe size", "is no column", line=1),
    swapped("people.csv", "P-1,Ada Birch", "P-1,Ada Birch,extra", "a row of 12 cells", line=2),
    swapped("people.csv", '"Presses, mostly"', '"Presses, mostly', "cannot be read", line=5),
    swapped("people.csv", '"Presses, mostly"', '"Presses" mostly', "cannot be read", line=5),
    swapped("people.csv", '"Presses, mostly"', "x" * 140_000, "cannot be read", line=5),
    swapped("people.csv", "P-5,Ivy", "P-1,Ivy", "described twice", line=6),
    swapped("people.csv", "P-5,Ivy", "P 5,Ivy", "A reference starts with", line=6),
    swapped("people.csv", "P-5,Ivy", "-P5,Ivy", "A reference starts with", line=6),
    swapped("people.csv", "P-5,Ivy", ",Ivy", "'ref' is missing", line=6),
    swapped("people.csv", "P-5,Ivy Croft", f"{'P' * 65},Ivy Croft", "A reference starts with", line=6),
    swapped("people.csv", "Ivy Croft", "", "'name' is missing", line=6),
    swapped("people.csv", ",firm,", ",company,", "It may be person or firm", line=5),
    swapped("people.csv", ",maker,", ",makers,", "It may have narrator", line=5),
    swapped("people.csv", ",maker,", ",maker; maker,", "more than once", line=5),
    swapped("people.csv", ",1934,", ",about 1934,", "is not a date", line=2),
    swapped("people.csv", ",1934,", ",1934-13,", "is not a date", line=2),
    swapped("people.csv", ",1934,", ",1934/1901,", "ends before it starts", line=2),
    swapped("people.csv", "1880,1931~,no", "1880,1931~,perhaps", "It may be yes or no", line=5),
    swapped("people.csv", "A hand in the loft", "", "is called nothing", line=3),
    swapped("people.csv", "I.C.", "I" * 30, "It may have up to 20", line=6),
    swapped("people.csv", "I.C.", "I\x1bC", "control character", line=6),
]

TERMS = [
    swapped("terms.csv", "t-brass,brass", "t-brass,", "'preferred' is missing", line=3),
    swapped("terms.csv", ",t-metal,\n", ",t-metall,\n", "the nearest is 't-metal'", line=3),
    swapped("terms.csv", "What the works bought and sold.,stuff,,,", "Stuff.,,,t-brass,", "in a loop", line=2),
    swapped("terms.csv", ",t-metal,\n", ",t-brass,\n", "tied to itself", line=3),
    swapped("terms.csv", ",,t-brass\n", ",,t-blank\n", "tied to itself", line=4),
    swapped("terms.csv", "yella; yellow metal", "yella; yella", "more than once", line=3),
    swapped("terms.csv", "yella; yellow metal", "yella;; gold", "an empty entry", line=3),
    swapped("terms.csv", "t-blank,blank,en-GB", "t-blank,blank,", "'language' is missing", line=4),
    swapped("terms.csv", "A disc cut from strip.", "", "'meaning' is missing", line=4),
]

OBJECTS = [
    swapped("objects.csv", "SM.2,Brass", "SM.1,Brass", "described twice", line=3),
    swapped("objects.csv", "P-4,1911~", "P-44,1911~", "there is no person 'P-44'", line=2),
    swapped("objects.csv", "st-press,yes", "st-pess,yes", "the nearest is 'st-press'", line=2),
    swapped("objects.csv", "st-press,yes", "st-press,true", "It may be yes or no", line=2),
    swapped("objects.csv", "pr-cut; pr-pack", "pr-cut; pr-gone", "there is no process 'pr-gone'", line=3),
    swapped("objects.csv", "pr-cut; pr-pack", "pr-cut, pr-pack", "a row of 15 cells", line=3),
    swapped("objects.csv", "195X,st-bench", "the fifties,st-bench", "is not a date", line=3),
    swapped("objects.csv", "A finished badge.", "", "'description' is missing", line=3),
    swapped("objects.csv", "SM.2.png,Line", "SM.9.png,Line", "is not in the folder", line=3),
    swapped("objects.csv", "SM.2.png,Line", "../SM.2.png,Line", "plain name of a file", line=3),
    swapped("objects.csv", "SM.2.png,Line", "/etc/passwd.png,Line", "plain name of a file", line=3),
    swapped("objects.csv", "SM.2.png,Line", "..\\SM.2.png,Line", "plain name of a file", line=3),
    swapped("objects.csv", "SM.2.png,Line", "con.png,Line", "plain name of a file", line=3),
    swapped("objects.csv", "SM.2.png,Line", ".SM.2.png,Line", "plain name of a file", line=3),
    swapped("objects.csv", "SM.2.png,Line", "SM.2.svg,Line", "It must end in", line=3),
    swapped("objects.csv", "SM.2.png,Line", "SM.1.png,Line", "another object's too", line=3),
    swapped("objects.csv", "Line drawing of an oval badge.", "", "1 pictures have 0 texts", line=3),
    swapped("objects.csv", "Line drawing of an oval badge.", "One | Two", "1 pictures have 2 texts", line=3),
    whole("pictures/SM.1.png", None, "is not in the folder", where="objects.csv", line=2),
    whole("pictures/SM.1.png", b"", "cannot be read as a PNG"),
    whole("pictures/SM.1.png", b"\x89PNG\r\n\x1a\n" + b"\0" * 90, "cannot be read as a PNG"),
    whole("pictures/SM.1.png", b"GIF89a" + b"\0" * 90, "cannot be read as a PNG"),
    whole("pictures/SM.1.png", "<svg xmlns='http://www.w3.org/2000/svg'/>", "cannot be read as a PNG"),
    whole("pictures/SM.1.png", b"PK\x03\x04" + b"\0" * 90, "cannot be read as a PNG", name="a zip called a picture"),
]

_DOOR = '\n[[doors]]\nref = "d-x"\nfloor = "ground"\n'

PLAN = [
    whole("plan/plan.toml", None, "is not in the folder"),
    whole("plan/plan.toml", "floors = 3", "It must be a list of tables", line=1),
    whole("plan/plan.toml", "floors = [1, 2]", "It must be a list of tables", line=1),
    swapped("plan/plan.toml", "level = 1", "level = 0", "is that of 'ground' too", line=11),
    swapped("plan/plan.toml", "level = 1", "level = 1.5", "a whole number", line=11),
    swapped("plan/plan.toml", "metres_per_unit = 0.01", "metres_per_unit = 0", "It may be from", line=6),
    swapped("plan/plan.toml", 'svg = "upper.svg"', 'svg = "../upper.svg"', "plain name of a file", line=12),
    swapped("plan/plan.toml", 'svg = "upper.svg"', 'svg = "upper.png"', "It must end in .svg", line=12),
    swapped("plan/plan.toml", 'svg = "upper.svg"', 'svg = "attic.svg"', "is not in the folder", line=12),
    swapped("plan/plan.toml", 'ref = "shop"', 'ref = "hall"', "described twice", line=23),
    swapped("plan/plan.toml", 'ref = "shop"', 'ref = "outside"', "means out of doors", line=23),
    swapped("plan/plan.toml", 'element = "room-shop"', 'element = "room-shed"', "has no element 'room-shed'", line=26),
    swapped("plan/plan.toml", 'element = "room-shop"', 'element = "door-shop"', "not one closed shape", line=26),
    swapped("plan/plan.toml", 'element = "room-shop"', 'element = "rooms"', "it is no shape", line=26),
    swapped("plan/plan.toml", "capacity = 12", "capacity = -1", "It may be from 0", line=27),
    swapped("plan/plan.toml", "capacity = 12", "capacty = 12", "'capacty' is not known", line=27),
    swapped("plan/plan.toml", 'rooms = ["hall", "shop"]', 'rooms = ["hall"]', "names 1 rooms", line=50),
    swapped("plan/plan.toml", 'rooms = ["hall", "shop"]', 'rooms = ["hall", "loft"]', "on another floor", line=50),
    swapped(
        "plan/plan.toml", 'rooms = ["hall", "shop"]', 'rooms = ["hall", "yard"]', "there is no room 'yard'", line=50
    ),
    swapped("plan/plan.toml", 'rooms = ["hall", "shop"]', 'rooms = "hall"', "It must be a list", line=50),
    swapped("plan/plan.toml", "width_m = 1.2", "width_m = 0", "It may be from 0.1", line=44),
    swapped("plan/plan.toml", "step_mm = 120", 'step_mm = "120"', "It must be a number", line=53),
    swapped("plan/plan.toml", "number = 2", "number = 1", "is that of 'st-door' too", line=68),
    swapped(
        "plan/plan.toml",
        'room = "shop"\nelement = "station-press"',
        'room = "hall"\nelement = "station-press"',
        "lies outside its room",
        line=71,
    ),
    swapped(
        "plan/plan.toml",
        'room = "loft"\nelement = "station-bench"',
        'room = "attic"\nelement = "station-bench"',
        "there is no room",
        line=78,
    ),
    swapped("plan/plan.toml", "quiet = true", "quiet = 1", "true or false", line=64),
    swapped("plan/plan.toml", 'kind = "stairs"', 'kind = "escalator"', "It may be stairs, lift or ramp", line=85),
    swapped("plan/plan.toml", "steps = 12", "steps = -12", "It may be from 0", line=88),
    swapped(
        "plan/plan.toml",
        'ends = [{room = "hall", element = "stair-foot"}, {room = "loft", element = "stair-head"}]',
        "ends = []",
        "at least two ends",
    ),
    swapped(
        "plan/plan.toml",
        '{room = "hall", element = "stair-foot"}',
        '{room = "shop", element = "stair-foot"}',
        "lies outside its room",
    ),
    swapped("plan/plan.toml", '{room = "hall", element = "stair-foot"}', '{room = "hall"}', "'element' is missing"),
    swapped("plan/plan.toml", 'kind = "seat"', 'kind = "bar"', "It may be toilet", line=104),
    added("plan/plan.toml", '\n[[windows]]\nref = "w"\n', "'windows' is not known"),
    added(
        "plan/plan.toml",
        _DOOR + 'element = "station-press"\nrooms = ["shop", "outside"]\nwidth_m = 1\n',
        "from the edge of room 'shop'",
    ),
    added(
        "plan/plan.toml",
        _DOOR + 'element = "door-front"\nrooms = ["outside", "hall"]\nwidth_m = 1\none_way = true\n',
        "one-way door from outside",
    ),
]

_SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10">'
_G, _GW = "plan/ground.svg", '<line id="door-front"'
_BOMB = (
    '<!DOCTYPE s [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>' + _SVG + "<title>&b;</title></svg>"
)

SVG = [
    whole(_G, "", "it is not XML"),
    whole(_G, "<svg", "it is not XML", line=1),
    whole(_G, "<html/>", "its first element is 'html'", line=1),
    whole(_G, "<svg/>", "its first element is 'svg'", line=1),
    whole(_G, '<svg xmlns="http://www.w3.org/2000/svg"/>', "no good viewBox", line=1),
    whole(_G, _SVG.replace("0 0 10 10", "0 0 0 10") + "</svg>", "no good viewBox"),
    whole(_G, _SVG.replace("0 0 10 10", "0 0 1e99 10") + "</svg>", "no good viewBox"),
    whole(_G, _BOMB, "document type or entities", name="an entity bomb"),
    whole(_G, '<!DOCTYPE s SYSTEM "http://x.example/a.dtd">' + _SVG + "</svg>", "document type", name="an outside DTD"),
    whole(
        _G,
        '<!DOCTYPE s [<!ENTITY a SYSTEM "file:///etc/passwd">]>' + _SVG + "&a;</svg>",
        "document type",
        name="an outside entity",
    ),
    whole(_G, _SVG + "<g>" * 5000, "nest deeper than 40", name="groups without end"),
    whole(
        _G,
        '<?xml version="1.0" encoding="utf-7"?>' + _SVG + "</svg>",
        "has no element",
        name="an odd encoding",
        where="plan/plan.toml",
    ),
    swapped(_G, _GW, "<script>alert(1)</script>" + _GW, "the element 'script'", line=7),
    swapped(_G, _GW, "<foreignObject><p/></foreignObject>" + _GW, "the element 'foreignObject'", line=7),
    swapped(_G, _GW, '<image href="http://x.example/a.png"/>' + _GW, "the element 'image'", line=7),
    swapped(_G, _GW, '<use href="#room-hall"/>' + _GW, "the element 'use'", line=7),
    swapped(_G, _GW, "<style>*{fill:url(http://x.example)}</style>" + _GW, "the element 'style'", line=7),
    swapped(_G, _GW, '<a href="javascript:alert(1)"><rect/></a>' + _GW, "the element 'a'", line=7),
    swapped(_G, _GW, "<animate attributeName='x'/>" + _GW, "the element 'animate'", line=7),
    swapped(_G, _GW, "<defs><script/></defs>" + _GW, "the element 'script'", line=7),
    swapped(
        _G,
        _GW,
        '<g xmlns:h="http://www.w3.org/1999/xhtml"><h:div><h:script/></h:div></g>' + _GW,
        "the element 'script'",
        line=7,
    ),
    swapped(_G, _GW, '<svg viewBox="0 0 1 1"/>' + _GW, "the element 'svg'", line=7),
    swapped(_G, _GW, '<rect onload="alert(1)"/>' + _GW, "the attribute 'onload'", line=7),
    swapped(_G, _GW, '<rect ONCLICK="alert(1)"/>' + _GW, "the attribute 'onclick'", line=7),
    swapped(
        _G,
        _GW,
        '<rect xmlns:xlink="http://www.w3.org/1999/xlink" xlink:href="#x"/>' + _GW,
        "the attribute 'href'",
        line=7,
    ),
    swapped(_G, _GW, '<rect fill="url(http://x.example/#a)"/>' + _GW, "the attribute 'fill'", line=7),
    swapped(_G, _GW, '<rect style="fill:url( data:image/png;base64,AAAA)"/>' + _GW, "the attribute 'style'", line=7),
    swapped(_G, _GW, "<rect style=\"@import 'x'\"/>" + _GW, "the attribute 'style'", line=7),
    swapped(_G, _GW, '<rect fill="java&#10;script:alert(1)"/>' + _GW, "the attribute 'fill'", line=7),
    swapped(_G, _GW, '<rect transform="spin(3)"/>' + _GW, "the transform 'spin(3)'", line=7),
    swapped(_G, _GW, '<rect transform="rotate(nan)"/>' + _GW, "the transform", line=7),
    swapped(_G, _GW, '<rect id="room-hall"/>' + _GW, "the id 'room-hall' stands twice", line=7),
    swapped(_G, 'points="400,0 1000,0', 'points="300,0 1000,0', "overlap by", where="plan/plan.toml", line=26),
    swapped(
        _G,
        'points="400,0 1000,0 1000,600 400,600"',
        'points="400,0 1000,600 1000,0 400,600"',
        "crosses itself",
        where="plan/plan.toml",
    ),
    swapped(
        _G,
        'points="400,0 1000,0 1000,600 400,600"',
        'points="400,0 1000"',
        "without its second number",
        where="plan/plan.toml",
    ),
    swapped(
        _G, 'points="400,0 1000,0 1000,600 400,600"', 'points="400,0 900,0"', "encloses nothing", where="plan/plan.toml"
    ),
    swapped(_G, 'x="0" y="0" width="400"', 'x="0" y="0" width="4m"', "is no length", where="plan/plan.toml"),
    swapped(_G, 'x="0" y="0" width="400"', 'x="0" y="0" width="1e300"', "no drawing needs", where="plan/plan.toml"),
    swapped("plan/upper.svg", 'd="M0 0 H400', 'd="L0 0 H400', "does not begin with M", where="plan/plan.toml"),
    swapped("plan/upper.svg", 'd="M0 0 H400', 'd="M0 0 X400', "in a path", where="plan/plan.toml"),
    swapped("plan/upper.svg", 'd="M0 0 H400', 'd="M0 H400', "in a path has 1 numbers", where="plan/plan.toml"),
    swapped("plan/upper.svg", "h-400 z", "h-400 z M1 1 H2 V2 z", "not one closed shape", where="plan/plan.toml"),
    whole(
        "plan/upper.svg",
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">'
        + '<path id="room-loft" d="M0 0'
        + "L1 1 " * 30_000
        + '"/></svg>',
        "too many points",
        name="a path of thirty thousand points",
        where="plan/plan.toml",
    ),
]

VARIANTS = [*CARD, *PEOPLE, *TERMS, *OBJECTS, *PLAN, *SVG]
