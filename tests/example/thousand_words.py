"""Words, oils and colours from which the shop of a thousand stock codes is put together; all invented."""

from typing import Final

FIRST: Final = (
    "Amber", "Ashen", "Barley", "Birch", "Bitter", "Black", "Blue", "Bracken", "Bright", "Broad", "Chalk",
    "Cider", "Clay", "Clover", "Cold", "Copper", "Crooked", "Damp", "Deep", "Dry", "Dusky", "Early", "Fallow",
    "Far", "Fennel", "Flint", "Foxglove", "Frosted", "Green", "Grey", "Hazel", "Heather", "High", "Hollow",
    "Honey", "Iron", "Ivy", "Juniper", "Late", "Lichen", "Little", "Long", "Low", "Marsh", "Milk", "Mossy",
    "Narrow", "North", "Oaten", "Old", "Pale", "Pewter", "Quiet", "Quince", "Rowan", "Rushy", "Saffron", "Salt",
    "Sedge", "Silver", "Slow", "Smoky", "Sorrel", "Still", "Straw", "Sunken", "Tawny", "Thorn", "Upper",
    "Velvet", "Walnut", "Wet", "White", "Wild", "Willow", "Windy", "Winter", "Woollen", "Yellow",
)  # fmt: skip
SECOND: Final = (
    "Acre", "Arch", "Barrow", "Beacon", "Bell", "Bothy", "Boundary", "Bridge", "Brook", "Burrow", "Cairn",
    "Causeway", "Cellar", "Chimney", "Coppice", "Court", "Cove", "Croft", "Crossing", "Dairy", "Dell",
    "Doorstep", "Dovecote", "Dyke", "Eaves", "Fell", "Fen", "Ferry", "Field", "Fold", "Ford", "Forge", "Furrow",
    "Gable", "Garden", "Gate", "Glade", "Granary", "Green", "Grove", "Harbour", "Hearth", "Hedge", "Hill",
    "Holm", "Inlet", "Kiln", "Ladder", "Landing", "Lane", "Larder", "Ledge", "Lock", "Loft", "Meadow", "Mere",
    "Mill", "Moor", "Orchard", "Pantry", "Parlour", "Path", "Pier", "Pond", "Porch", "Quarry", "Quay", "Reach",
    "Ridge", "Rookery", "Sands", "Shore", "Spinney", "Spring", "Stair", "Stile", "Tarn", "Terrace", "Threshold",
    "Weir", "Wharf",
)  # fmt: skip
SCENTS: Final = (
    "apple skin", "bay leaf", "beech leaf", "bergamot", "birch tar", "black tea", "bread crust", "cardamom", "cedar",
    "chamomile", "clary", "clove", "cold stone", "cut grass", "damp earth", "elderflower", "fern", "fig leaf",
    "ginger", "hay", "heather", "honey", "iris root", "lemon thyme", "lime blossom", "linen", "malt", "mint",
    "moss", "oak", "oatmeal", "orange peel", "pear", "pepper", "pine resin", "plum", "rain", "rhubarb", "rosemary",
    "sea salt", "smoke", "tomato leaf", "vetiver", "violet", "walnut", "wild rose", "wood ash", "wool",
)  # fmt: skip
OPENINGS: Final = (
    "It begins with {top} and the sound of a latch.",
    "Somebody has left {top} on the sill overnight.",
    "First {top}, as if a door had just been opened.",
    "There is {top} in the air before you see where it comes from.",
    "A handful of {top}, still cold from outside.",
    "You notice the {top} before anything else.",
)
MIDDLES: Final = (
    "Then {heart}, for most of the evening.",
    "{Heart} follows once the wax has warmed.",
    "Behind it there is {heart}, rather more than you expected.",
    "After a while it turns to {heart}.",
    "{Heart} takes over and stays put.",
)
ENDINGS: Final = (
    "What is left on the air next morning is {base}.",
    "It settles, in the end, into {base}.",
    "{Base} underneath keeps the whole thing level.",
    "Give it an hour and you will find the {base}.",
)
SEASONS: Final = (
    "all year",
    "spring",
    "summer",
    "autumn",
    "winter",
    "autumn and winter",
    "spring and summer",
)
STATUSES: Final = (*("current",) * 16, "made to order", "last few", "coming", "discontinued")
COLLECTIONS: Final = (
    ("valley", "Valley", "Water, willows and the road beside them."),
    ("uplands", "Uplands", "Where the walls stop and the wind does not."),
    ("kitchen", "Kitchen", "Things that have been near a stove."),
    ("workshop", "Workshop", "Shavings, oil and a cold floor."),
    ("orchard", "Orchard", "Blossom first, fruit later, smoke last."),
    ("estuary", "Estuary", "Mud, birds and a great deal of sky."),
    ("study", "Study", "Paper, leather and a lamp."),
    ("weather", "Weather", "Four seasons, sometimes in one afternoon."),
)
WAXES: Final = (
    ("soy-soft", "Soft soy wax", 0.90, 0.87, "49 C", "hydrogenated soybean oil"),
    ("soy-firm", "Firm soy wax", 0.91, 0.87, "54 C", "hydrogenated soybean oil"),
    ("rapeseed-wax", "Rapeseed wax", 0.91, 0.87, "56 C", "hydrogenated rapeseed oil"),
    ("coconut-wax", "Coconut wax", 0.915, 0.88, "41 C", "hydrogenated coconut oil"),
    ("paraffin-soft", "Soft paraffin wax", 0.90, 0.76, "54 C", "paraffin wax"),
    ("palm-wax", "Palm wax", 0.92, 0.87, "57 C", "hydrogenated palm oil"),
)
DYES: Final = (
    "ash",
    "bark",
    "brick",
    "fern",
    "ink",
    "lilac",
    "moss",
    "mustard",
    "peach",
    "rust",
    "sky",
    "teal",
)
_ALLERGEN: Final = "Skin Sens. 1B H317"
_STINGS: Final = "Eye Irrit. 2 H319"
_LASTS: Final = "Aquatic Chronic 2 H411"
CONSTITUENTS: Final = (
    ("Linalool, cas: 78-70-6, ec: 201-134-4", _ALLERGEN, ""),
    ("Citral, cas: 5392-40-5, ec: 226-394-6", "Skin Irrit. 2 H315, Skin Sens. 1 H317", ""),
    ("Geraniol, cas: 106-24-1, ec: 203-377-1", "Skin Sens. 1 H317, Eye Dam. 1 H318", ""),
    (
        "HHCB, cas: 1222-05-5, ec: 214-946-9",
        "Aquatic Acute 1 H400, Aquatic Chronic 1 H410",
        ", m: {acute: 1, chronic: 1}",
    ),
    (
        "Benzyl benzoate, cas: 120-51-4, ec: 204-402-9",
        f"Acute Tox. 4 H302, {_LASTS}",
        ", ate: {oral: 1160 mg/kg}",
    ),
    ("Benzyl salicylate, cas: 118-58-1, ec: 204-262-9", _ALLERGEN, ""),
    ("Eugenol, cas: 97-53-0, ec: 202-589-1", f"{_ALLERGEN}, {_STINGS}", ""),
    ("Vanillin, cas: 121-33-5, ec: 204-465-2", _STINGS, ""),
    ("Citronellol, cas: 106-22-9, ec: 203-375-0", f"Skin Irrit. 2 H315, {_ALLERGEN}, {_STINGS}", ""),
    ("alpha-Isomethyl ionone, cas: 127-51-5, ec: 204-846-3", f"{_ALLERGEN}, {_LASTS}", ""),
    ("Linalyl acetate, cas: 115-95-7, ec: 204-116-4", f"Skin Irrit. 2 H315, {_ALLERGEN}, {_STINGS}", ""),
    (
        "Hexyl cinnamal, cas: 101-86-0, ec: 202-983-3",
        f"{_ALLERGEN}, Aquatic Acute 1 H400, {_LASTS}",
        ", m: {acute: 1}",
    ),
    (
        "Phenethyl alcohol, cas: 60-12-8, ec: 200-456-2",
        f"Acute Tox. 4 H302, {_STINGS}",
        ", ate: {oral: 1610 mg/kg}",
    ),
)
"""Substance with its numbers, hazards, and M-factors or toxicity where the sheet gives them."""
SHARES: Final = ("<1 %", "0.5-1 %", "1-2.5 %", "2.5-5 %", "5-10 %", "10-15 %", "15-20 %")
