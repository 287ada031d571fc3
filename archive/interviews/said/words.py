"""The everyday words by which a figure's meaning is told: what links, what counts, what is paid, what weighs."""

from __future__ import annotations


def listed(words: str) -> frozenset[str]:
    """The words of a text, as a set."""
    return frozenset(words.split())


PRONOUNS = listed("i you he she it we they me him her us them who that this these those there")
# Words after which no counted thing can stand: the number before them ends its phrase.
LINKS = (
    PRONOUNS
    | listed(
        "and or but nor so for if as at by in into of off on onto to from with without until till when while where "
        "because since before after then than though although was were is are am be been had have has did do does "
        "would could should can may might must went came got not no which what how why a an the my your his our their "
        "its all both each every if apiece mind roughly about near up down out over just only too now again once "
        "there here per was'nt wasn't weren't i'd i'm i've you'd he'd she'd we'd they'd it'd that'd ago later")
)  # fmt: skip
MONEY_TALK = listed(
    "paid pay pays paying wage wages earn earned earning earnings cost costs price prices priced money bonus rent fine "
    "fined worth drawing drew bought sold sell spend spent charge charged rate piece note notes envelope extra owed "
    "bill bills shilling shillings pence penny quid bob packet docked stopped rise tip tips insurance saved save week "
    "year gross dozen guard cheap dear savings subscription fare afford lend lent gave fee salary pension"
)
WEIGHT_TALK = listed(
    "weigh weighed weighs weighing weight heavy lift lifted lifting carry carried carrying tup hammer block sack bag "
    "bags lump bar bars iron steel brass copper metal lead load loaded barrow basket foot back shoulder shoulders "
    "scale scales ingot casting coal flour sugar butter pan baby die dies gold silver scrap swarf filings"
)
BEINGS = listed("was were is am be i'm she's he's being turned wasn't weren't becoming")
SPEAKERS = listed("i he she you they i'd he'd she'd you'd they'd i'm mother father mam dad youngest eldest oldest")
WHO = listed(
    "lad lass girl boy child man woman youth youngster kid daughter son baby widow apprentice lads girls boys children "
    "men women people us anyone anybody everyone everybody those them"
)
LABELS = listed(
    "number no numbers nos platform room page chapter station bay gate war class shift stage volume act check tour "
    "section part form bus route unit catch figure plate lot table step square apartment flat channel studio"
)
SEASONS = listed(
    "january february march april may june july august september october november december spring summer autumn "
    "winter christmas easter whitsun whitsuntide"
)
