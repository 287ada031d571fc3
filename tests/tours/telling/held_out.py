"""Sentences that the rule of warnings was not made from, with what a careful reader would warn of in each.

They were written before the rule was first run on them, about a bell foundry, which is in no collection of ours. `F`
marks a figure that nothing bears out, `C` something told as certain that is not. A sentence is told by itself.
"""

from __future__ import annotations

from archive.evidence.standing import Standing
from archive.reckoners.registry import reckon
from archive.tours.telling.judging import Ground

GROUNDS = (
    Ground(
        "b-furnace",
        "The furnace held two tons of bell metal.",
        Standing.DOCUMENTED,
        ("Inventory of 1931: furnace, two tons, with a stack of 40 feet",),
    ),
    Ground("b-great-1911", "The great bell was poured in 1911.", Standing.CONTESTED, ("It was 1911, I was nine.",)),
    Ground(
        "b-cracked",
        "The tenor bell cracked because it was dug up too soon.",
        Standing.HANDED_DOWN,
        ("Dug up too soon.",),
    ),
    Ground(
        "b-pay",
        "A moulder was paid four shillings and sixpence a day in 1923.",
        Standing.DOCUMENTED,
        ("Wages book, 1923: moulders 4s 6d, boys 1s 3d",),
    ),
    Ground(
        "b-tuner",
        "The tuner could hear a difference of a twentieth of a tone.",
        Standing.RECALLED_BY_ONE,
        ("He could.",),
    ),
    Ground("b-buried", "A silver bell lies buried under the casting pit.", Standing.UNSUPPORTED),
    Ground(
        "b-baskets",
        "Women carried the loam to the pit in baskets.",
        Standing.RECALLED_BY_SEVERAL,
        ("My mother carried thirty baskets before breakfast.", "Baskets of loam, sixty pounds each."),
    ),
    Ground(
        "b-blow",
        "The breaking weight, falling 1.7 metres, lands with about 300 joules.",
        Standing.COMPUTED,
        ("about 300 J",),
        (reckon("press/drop-stamp-blow", {"mass": "18 kg", "fall": "1.7 m"}),),
    ),
)

SENTENCES = (
    # Figures that something bears out.
    ("The furnace held two tons.", ""),
    ("It held 2 tons of metal at a time.", ""),
    ("In 1923 a moulder had four and sixpence a day.", ""),
    ("A moulder took home 4s 6d.", ""),
    ("Boys were paid one and threepence.", ""),
    ("The stack stood forty feet high.", ""),
    ("The weight falls 1.7 metres.", ""),
    ("It lands with about three hundred joules.", ""),
    ("The inventory of nineteen thirty-one names the furnace.", ""),
    ("One woman told her daughter that she carried thirty baskets before breakfast.", ""),
    ("A basket of loam weighed sixty pounds.", ""),
    ("The blow is roughly 300 J.", ""),
    ("Fifty-four pence a day was a moulder's wage.", ""),
    ("The weight itself is eighteen kilograms.", ""),
    # Figures that nothing bears out.
    ("The furnace held three tons.", "F"),
    ("It took eleven hours to melt the charge.", "F"),
    ("The metal was poured at 1,100 degrees.", "F"),
    ("A moulder was paid five shillings a day.", "F"),
    ("In 1924 the wage was raised.", "F"),
    ("The works were founded in eighteen forty-two.", "F"),
    ("The stack stood sixty feet high.", "F"),
    ("Four hundred bells left this yard every year.", "F"),
    ("A bell of this size weighs 35 hundredweight.", "F"),
    ("The blow is about 450 joules.", "F"),
    ("Some 1,200 people came to the last pouring.", "F"),
    ("Seventy-seven per cent of the metal is copper.", "F"),
    ("Rent for the yard was £40 a year.", "F"),
    ("She earned two pence a basket.", "F"),
    ("They cast bells here until the 1960s.", "F"),
    ("The clapper swings fifteen times a minute.", "F"),
    ("The pit is twelve feet deep.", "F"),
    ("It cooled for three days.", "F"),
    ("A good loam brick lost half an inch in the stove.", "F"),
    ("The apprentices served seven years.", "F"),
    # Numbers that need nobody's word, questions and what listeners are bidden.
    ("Two doors lead out of this room.", ""),
    ("Stand behind the line for two minutes.", ""),
    ("How many baskets do you think she carried, forty or fifty?", ""),
    ("There are three of them on the wall.", ""),
    ("One of the moulds is still here.", ""),
    # Contested, handed down and unsupported things told as certain.
    ("The great bell was poured in 1911.", "C"),
    ("They poured the great bell here in 1911, on a wet morning.", "C"),
    ("Everybody knows that the great bell was poured in 1911.", "C"),
    ("The tenor bell cracked because it was dug up too soon.", "C"),
    ("It was dug up too soon, and so the tenor bell cracked.", "C"),
    ("Impatience cracked the tenor bell: they dug it up too soon.", "C"),
    ("A silver bell lies buried under this casting pit.", "C"),
    ("Under the casting pit there is a silver bell.", "C"),
    ("The silver bell was buried beneath the pit in a hurry.", "C"),
    ("They told the time by the great bell, poured in 1911.", "C"),
    ("The foreman said nothing, and the tenor bell was dug up too soon and cracked.", "C"),
    # The same, left open as they should be.
    ("Some say that the great bell was poured in 1911.", ""),
    ("The great bell was poured in 1911, though accounts differ.", ""),
    ("One man put it in 1911, and another says the great bell was never poured here.", ""),
    ("It may have been in 1911 that the great bell was poured.", ""),
    ("The tenor bell, so her uncle told her, cracked because it was dug up too soon.", ""),
    ("We only have it at second hand that the tenor bell was dug up too soon and cracked.", ""),
    ("The story goes that the tenor bell cracked when it was dug up too soon.", ""),
    ("There is a tale of a silver bell buried under the casting pit.", ""),
    ("No paper shows that a silver bell was ever buried under the pit.", ""),
    ("People like to say that a silver bell lies under the casting pit.", ""),
    ("Perhaps the tenor bell was dug up too soon, and cracked.", ""),
    # Things that are well borne out, told plainly.
    ("Women carried the loam to the pit.", ""),
    ("The loam came to the pit in baskets, and women carried it.", ""),
    ("The furnace stood over there, full of bell metal.", ""),
    # Both at once.
    ("The tenor bell was dug up too soon, after two days, and cracked.", "FC"),
    ("A silver bell of ninety pounds lies buried under the casting pit.", "FC"),
    # What the rule can hardly know.
    ("Do not believe the sign outside: nobody poured anything great here in 1911.", ""),
    ("A score of moulders worked in this shop.", "F"),
    ("Twice as many women as men worked in the loam shed.", "F"),
    ("It broke, that bell, since no one would wait for it to cool in the ground.", "C"),
)
