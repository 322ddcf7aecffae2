"""The words of each sort of forbidden praise, language by language; `claims.py` says what is wrong with them.

A space in a phrase may be a hyphen or a new line in a text, and a star stands for any ending. All languages are looked
for at once, whatever language a shop writes in, since praise is often borrowed and none of these words means something
else in another of the languages.
"""

from collections.abc import Mapping
from typing import Final

Phrases = Mapping[str, tuple[str, ...]]
"""Phrases by language."""

DENIED_BEFORE: Final[Phrases] = {
    "en": ("not", "never", "no"),
    "de": ("nicht", "nie", "niemals", "kein", "keine", "keinen", "keiner"),
    "fr": ("ne", "pas", "jamais", "aucun", "aucune"),
}
"""Words that turn the praise after them round."""

DENIED_AFTER: Final[Phrases] = {"en": (), "de": ("nicht",), "fr": ("pas",)}
"""Words that turn the praise before them round, as in 'heilt nicht'."""

NAMED: Final[Mapping[str, tuple[str, ...]]] = {
    "paraffin": ("paraffin",),
    "beeswax": ("beeswax", "bienenwachs", "cire d'abeille"),
}
"""What a wax of each sort is called; one language's name for paraffin stands in those of the others."""

# Article 25(4) of CLP itself names 'non-toxic', 'harmless' and 'ecological' (standards.md C15, FOUND-2nd); in German
# 'ungiftig', 'unschädlich' and 'ökologisch', in French 'non toxique', 'non nocif', 'non polluant' and 'écologique'
# (MEMORY: neither wording was seen). It forbids whatever means the same; which other words do is our own choice.
HARMLESS: Final[Phrases] = {
    "en": (
        "non toxic",
        "nontoxic",
        "non harmful",
        "non polluting",
        "toxin free",
        "chemical free",
        "free (?:from|of) (?:toxins|chemicals)",
        "harmless",
        "ecological(?:ly)?",
        "safe for (?:you|children|pets|the environment|nature)",
    ),
    "de": (
        "ungiftig*",
        "nicht giftig*",
        "giftfrei*",
        "unschädlich*",
        "nicht (?:gesundheits)?schädlich*",
        "nicht umweltbelastend*",
        "schadstofffrei*",
        "frei von (?:schadstoffen|giftstoffen|chemie|chemikalien)",
        "ohne (?:schadstoffe|giftstoffe|chemie|chemikalien)",
        "harmlos*",
        "ungefährlich*",
        "unbedenklich*",
        "ökologisch*",
        "sicher für (?:sie|dich|euch|kinder|tiere|haustiere|die umwelt|die natur)",
    ),
    "fr": (
        "non toxique*",
        "atoxique*",
        "non nocifs?",
        "non nocives?",
        "non polluante?s?",
        "inoffensifs?",
        "inoffensives?",
        "écologique*",
        "sans (?:toxines?|substances? (?:nocives?|toxiques?)|produits? (?:chimiques?|nocifs?|toxiques?))",
        "sans (?:danger|risque) pour (?:vous|les enfants|les animaux|l'environnement|la nature|la santé)",
    ),
}

GREEN: Final[Phrases] = {
    "en": (
        "eco friendly",
        "ecofriendly",
        "environment(?:ally)? friendly",
        "(?:planet|earth|climate|nature) friendly",
        "(?:good|kind|gentle|kinder) (?:to|for|on) the (?:environment|planet|earth)",
        "sustainable",
        "sustainably",
        "biodegradable",
        "(?:carbon|climate|co2) neutral",
        "zero waste",
    ),
    "de": (
        "umwelt(?:freundlich|schonend|verträglich|gerecht)*",
        "(?:klima|natur)freundlich*",
        "(?:gut|schonend) (?:für|zur?) (?:die |der )?(?:umwelt|natur|erde)",
        "gut (?:für das|fürs) klima",
        "nachhaltig*",
        "biologisch abbaubar*",
        "(?:klima|co2 )neutral*",
        "abfallfrei*",
    ),
    "fr": (
        "éco ?responsable*",
        "éco ?conçue?s?",
        "(?:respectueu(?:x|ses?) de|respecte(?:nt)?) (?:l'environnement|la nature|la planète)",
        "(?:bon|bonne|bons|bonnes|bénéfique*) pour (?:l'environnement|la nature|la planète|le climat)",
        "(?:bougie|cire)s? durables?",
        "biodégradable*",
        "neutres? en carbone",
        "zéro déchets?",
    ),
}

HEALING: Final[Phrases] = {
    "en": (
        "heals?",
        "healing",
        "cures (?:colds?|headaches?|insomnia|stress)",
        "therapeutic",
        "aromatherapy",
        "antibacterial",
        "(?:relieves?|reduces?|eases?) (?:stress|anxiety|pain|headaches?|insomnia)",
        "(?:boosts?|strengthens?) (?:your |the )?immun*",
        "(?:purif(?:y|ies)|cleans?|cleanses?) the air",
        "air purifying",
        "good for your (?:health|lungs|skin)",
        "hypoallergenic",
    ),
    "de": (
        "heil(?:t|end|ende[mnrs]?|sam|same[mnrs]?)",
        "heil(?:kraft|kräfte|wirkung)",
        "therapeutisch*",
        "aromatherapie",
        "antibakteriell*",
        "(?:lindert|mindert|senkt|löst|hilft gegen) (?:stress|angst|ängste|schmerzen|kopfschmerzen|schlafstörungen)",
        "stress(?:lösend|lindernd)*",
        "stärkt (?:das |dein |ihr )?immun*",
        "reinigt die (?:luft|raumluft)",
        "luftreinigend*",
        "gut für (?:die|deine|ihre) (?:gesundheit|lungen?|haut)",
        "hypoallergen*",
    ),
    "fr": (
        "guéri(?:t|ssent|ssante?s?)",
        "thérapeutique*",
        "aromathérapie",
        "antibactérien*",
        "(?:soulage|réduit|apaise|calme|combat) (?:le stress|l'anxiété|l'insomnie)",
        "(?:soulage|réduit|apaise|calme) (?:la douleur|les douleurs|les maux de tête)",
        "anti ?stress",
        "(?:renforce|stimule) (?:le système immunitaire|les défenses immunitaires|l'immunité)",
        "(?:purifie|assainit|nettoie) l'air",
        "(?:bon|bonne|bénéfique*) pour (?:la|votre) (?:santé|peau)",
        "hypoallergénique*",
    ),
}

_INSECTS: Final = "(?:insects?|mosquito(?:e?s)?|midges?|flies|moths?|wasps?|bugs)"
_INSEKTEN: Final = "(?:insekten|(?:stech)?mücken|schnaken|gelsen|fliegen|motten|wespen)"
_INSECTES: Final = "(?:insectes?|moustiques?|mouches?|mites?|guêpes?)"

AGAINST_INSECTS: Final[Phrases] = {
    "en": (
        rf"(?:repels?|deters?|drives? away|keeps? away|keeps? off) (?:\w+ )?{_INSECTS}",
        rf"keeps? (?:\w+ )?{_INSECTS} (?:away|off|at bay)",
        "(?:insect|mosquito|midge|moth|bug) (?:repellent|repelling)",
        "anti mosquito",
    ),
    "de": (
        f"(?:vertreib(?:t|en)|verscheuch(?:t|en)|gegen|anti) (?:die |lästige )?{_INSEKTEN}",
        f"(?:hält|halten) (?:die |lästige )?{_INSEKTEN} (?:ab|fern|weg)",
        "(?:insekten|mücken|fliegen|motten|wespen) ?(?:abweisend|abwehr|schutz|kerze)*",
    ),
    "fr": (
        f"(?:repousse(?:nt)?|éloigne(?:nt)?|chasse(?:nt)?|fait fuir|contre) (?:les )?{_INSECTES}",
        f"anti ?{_INSECTES}",
        "(?:répulsif|répulsive)s?",
    ),
}

SOOTLESS: Final[Phrases] = {
    "en": ("clean burning", "burns? clean(?:ly)?", "soot free", "smoke free", "smokeless"),
    "de": (
        "sauber* brennend*",
        r"brennt (?:\w+ )?sauber",
        "(?:ruß|russ|rauch)(?:frei|los)*",
        "(?:rußt|russt) nicht",
        "ohne (?:ruß|russ|rauch)",
    ),
    "fr": ("combustion propre", "brûlent? proprement", "sans (?:suie|fumée)"),
}

SOY_ALONE: Final[Phrases] = {
    "en": ("(?:pure |all )?soy(?:a)?(?: wax)? candles?", r"(?:pure|all|only|100\s?%) soya?(?: wax)?"),
    "de": (
        "soja(?:wachs)? ?kerzen?",
        "kerzen? aus sojawachs",
        r"(?:pure[mnrs]?|reine[mnrs]?|nur|100\s?%) soja(?:wachs)?",
    ),
    "fr": (
        "bougies? (?:de|au|en|à la|en cire de|à la cire de|de cire de) soja",
        r"(?:pur|pure cire de|100\s?%|100\s?% cire de) soja",
    ),
}

VEGAN: Final[Phrases] = {
    "en": ("vegan",),
    "de": ("vegane[mnrs]?",),
    "fr": ("véganes?", "végan"),
}
