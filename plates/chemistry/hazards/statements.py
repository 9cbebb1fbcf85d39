"""The words of the hazard statements used here: Regulation (EC) 1272/2008 (CLP), Annex III, English.

Read in public copies of that annex, not in the Official Journal; the German words, in the catalogue of
translations, too. `{organs}` is filled in by what the table says.
"""

from plates.chemistry.sentences import Sentence

STATEMENTS = {
    "H201": "Explosive; mass explosion hazard.",
    "H224": "Extremely flammable liquid and vapour.",
    "H225": "Highly flammable liquid and vapour.",
    "H226": "Flammable liquid and vapour.",
    "H272": "May intensify fire; oxidiser.",
    "H290": "May be corrosive to metals.",
    "H300": "Fatal if swallowed.",
    "H301": "Toxic if swallowed.",
    "H302": "Harmful if swallowed.",
    "H304": "May be fatal if swallowed and enters airways.",
    "H310": "Fatal in contact with skin.",
    "H311": "Toxic in contact with skin.",
    "H312": "Harmful in contact with skin.",
    "H314": "Causes severe skin burns and eye damage.",
    "H315": "Causes skin irritation.",
    "H317": "May cause an allergic skin reaction.",
    "H319": "Causes serious eye irritation.",
    "H330": "Fatal if inhaled.",
    "H331": "Toxic if inhaled.",
    "H332": "Harmful if inhaled.",
    "H335": "May cause respiratory irritation.",
    "H336": "May cause drowsiness or dizziness.",
    "H350": "May cause cancer.",
    "H351": "Suspected of causing cancer.",
    "H360FD": "May damage fertility. May damage the unborn child.",
    "H361d": "Suspected of damaging the unborn child.",
    "H362": "May cause harm to breast-fed children.",
    "H370": "Causes damage to {organs}.",
    "H372": "Causes damage to {organs} through prolonged or repeated exposure.",
    "H373": "May cause damage to {organs} through prolonged or repeated exposure.",
    "H400": "Very toxic to aquatic life.",
    "H410": "Very toxic to aquatic life with long lasting effects.",
    "EUH019": "May form explosive peroxides.",
    "EUH032": "Contact with acids liberates very toxic gas.",
    "EUH066": "Repeated exposure may cause skin dryness or cracking.",
    "EUH071": "Corrosive to the respiratory tract.",
}

PICTOGRAMS = {
    "GHS01": "explosive",
    "GHS02": "flame",
    "GHS03": "flame over circle: feeds fire",
    "GHS05": "corrosion",
    "GHS06": "skull and crossbones",
    "GHS07": "exclamation mark",
    "GHS08": "health hazard",
    "GHS09": "environment",
}


def statement(code: str, organs: str = "organs") -> Sentence:
    """The sentence of a code; a code that is no statement used here is an error of ours (KeyError)."""
    statement = STATEMENTS[code]
    return Sentence(statement, organs=Sentence(organs)) if "{organs}" in statement else Sentence(statement)
