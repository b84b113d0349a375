"""Allergens: the lists of the law, and what foods by name hold, may hold or do not hold of each.

The lists are those of the Food Allergen Labeling and Consumer Protection Act, the FASTER Act and Annex II of
Regulation (EU) No 1169/2011. What a food is made from is stated here by what the food is, from
memory of the trade; the rules sort words and have no source, so these foods are what can be held against
them. A food stands as its name, with @ and the two figures of its group where the rule goes by the group.
"""

from __future__ import annotations

from . import stated

STATED = (
    stated(
        "allergens",
        "allergen lists",
        """
    milk | us eu
    egg | us eu
    fish | us eu
    crustaceans | us eu
    tree_nuts | us eu
    peanuts | us eu
    wheat | us
    soybeans | us eu
    """,
        split="|",
        source="FALCPA (2004), as the State of Massachusetts gives its eight (mass.gov); Regulation (EU) No "
        "1169/2011, Annex II: fourteen, as quoted beside the European baseline series",
        seen="quoted",
    )
    + stated(
        "allergens",
        "allergen lists",
        "sesame | us eu",
        split="|",
        source="FASTER Act (2021): the ninth; Regulation (EU) No 1169/2011, Annex II",
        seen="memory",
    )
    + stated(
        "allergens",
        "allergen",
        """
    molluscs
    gluten_cereals
    celery
    mustard
    lupin
    sulphites
    """,
        lists="eu",
        source="Regulation (EU) No 1169/2011, Annex II, as the University of Nebraska quotes it",
        seen="quoted",
    )
)

_WHEAT_FOODS = """
wheat; wheat berries; vermicelli; tortilla wrap; plain flour; bread; breadcrumb; bread crumb; dry crumbs;
crouton; panko; pasta; macaroni; spaghetti; lasagna; lasagne sheets; wheat vermicelli; egg noodle;
couscous; bulgur; semolina;
durum; seitan; spelt; farro; kamut; emmer; einkorn; freekeh; triticale; cracker; cookie; sponge cake;
biscuit; bagel; pita; naan; roux; flour tortilla; dumpling; potato gnocchi; phyllo dough; filo dough;
puff pastry; pastry case; pie crust; pizza; farina; ramen; udon; muffin; pancake; waffle; soba; orzo;
matzo; soy sauce; shoyu; teriyaki sauce; hoisin sauce; @18 hot cross buns
"""
CONTAINS = {
    "milk": """
        whole milk; buttermilk; butter; ghee; cheese; single cream; yogurt; yoghurt; whey; casein; sodium
        caseinate; lactose; kefir; curd; custard; creme fraiche; crème fraîche; sour cream; ice cream;
        half and half; parmesan; cheddar; mozzarella; feta; ricotta; mascarpone; paneer; brie; gruyere;
        gouda; bechamel; béchamel; quark; @01 dulce de leche
    """,
    "egg": """
        egg; eggnog; mayonnaise; mayo; meringue; omelet; omelette; hollandaise; aioli; frittata; quiche;
        custard; bearnaise; béarnaise; tartar sauce; albumen; @01 egg, whole, raw; @01 eggnog
    """,
    "fish": """
        fish fillet; anchovy; anchovies; tuna; salmon; cod; haddock; herring; mackerel; sardine; trout;
        halibut; tilapia; fish sauce; fish stock; worcestershire sauce; surimi; caviar; cod roe; dashi;
        bonito flakes; bottarga; nam pla; garum; lumpfish roe; @15 eel, mixed species, raw
    """,
    "crustaceans": """
        crustacean; shrimp; prawn; crab; lobster; crayfish; crawfish; langoustine; krill; scampi
    """,
    "molluscs": """
        mollusk; mollusc; clam; oyster; mussel; scallop; squid; octopus; cuttlefish; abalone; whelk;
        conch; escargot; calamari; cockle; periwinkle
    """,
    "tree_nuts": """
        almond; hazelnut; filbert; walnut; cashew; pecan; brazil nut; brazilnut; pistachio; macadamia;
        praline; marzipan; nougat; gianduja; mixed nuts; hickorynut; butternuts; beechnut; pilinut;
        frangipane; @12 chestnut; @12 pine nut; @12 pilinuts; @12 hickory; @12 acorn; @12 ginkgo; @12
        nuts mixed; @12 mixed; pine nut; mixed nut; chopped nut; nut butter; nut oil; toasted nuts
    """,
    "peanuts": "peanut; groundnut oil; satay sauce; goober peas",
    "wheat": _WHEAT_FOODS,
    "gluten_cereals": _WHEAT_FOODS
    + """; rye; barley; oat bran; rolled oats; oatmeal; malt extract; malted drink; beer; ale;
        stout; lager; pumpernickel; muesli; granola
    """,
    "soybeans": """
        soy protein; soya chunks; soybean; tofu; miso; tempeh; edamame; natto; tamari; shoyu; teriyaki
        sauce; hoisin sauce; okara; bean curd; textured vegetable protein; soymilk; soy milk; soy sauce;
        black bean sauce; mayonnaise with soy milk; salad dressing with soy sauce
    """,
    "sesame": """
        sesame oil; tahini; halva; halvah; hummus; houmous; za'atar; zaatar; gomasio; furikake; benne
        seed; dukkah
    """,
    "celery": "celery; celeriac; celery seed; celery salt",
    "mustard": "mustard powder; piccalilli; dijon",
    "lupin": "lupin flour; lupine seeds; lupini beans",
    "sulphites": """
        red wine; apricots, sulfured; vermouth; sherry; port wine; marsala; madeira; mirin; champagne;
        prosecco; cider
    """,
}
MAY = {
    "milk": """
        @06 gravy mix; @18 loaf; @19 candies; @21 fast foods, entree; @22 dinner, frozen; @25 snack bar;
        @36 restaurant, entree; @04 margarine; @04 spread
    """,
    "egg": """
        @18 cake; @18 cookie; @18 muffin; @18 pancake; @18 waffle; @18 brownie; @18 doughnut; @18 french
        toast; @18 sponge; @18 eclair; @18 popover; @18 puff; @18 pie; @18 roll; @18 bread; @18 biscuit;
        @20 pasta; @20 noodle
    """,
    "fish": "caesar salad; puttanesca; oyster sauce; gelatin",
    "crustaceans": "surimi; imitation crab; fish sauce; bisque; fish stock",
    "tree_nuts": "pesto; granola; muesli; trail mix; mole sauce; amaretto; baklava; biscotti; macaron",
    "peanuts": "mixed nut; mole sauce; trail mix",
    "wheat": """
        @06 gravy mix; @07 loaf of meat; @08 corn cereal; @21 fast foods, entree; @22 dinner, frozen; @25
        snack bar; @36 restaurant, entree
    """,
    "gluten_cereals": """
        @06 gravy mix; @07 loaf of meat; @08 corn cereal; @21 fast foods, entree; @22 dinner, frozen; @25
        snack bar; @36 restaurant, entree
    """,
    "soybeans": """
        lecithin; soybean oil; soy oil; @04 oil, soybean; @04 oil, industrial, soy; margarine;
        shortening; vegetable oil; worcestershire sauce; chocolate; @06 gravy mix; @07 loaf of meat; @18
        buns; @19 candies; @21 fast foods, entree; @22 dinner, frozen; @25 snack bar; @36 restaurant,
        entree
    """,
    "sesame": "@18 bagel; @18 bread; @18 roll; @18 bun; @18 cracker",
    "celery": """
        stock; broth; bouillon; consomme; soup; gravy; mirepoix; vegetable juice; seasoning;
        worcestershire sauce
    """,
    "mustard": """
        mustard greens; mustard spinach; mayonnaise; salad dressing; vinaigrette; curry; barbecue sauce;
        dressing; chowchow; pickle; relish
    """,
    "sulphites": """
        @09 figs, dried; @09 candied peel; @09 maraschino cherries; @09 dehydrated apple; wine vinegar;
        cider vinegar; vinegar; molasses; lemon juice; lime juice; horseradish; sauerkraut; pickled
        onion; beer; desiccated coconut; dried apricot; raisin; dried fruit; dehydrated potato; grape
        juice; golden raisin; sultana
    """,
}
_WHEAT_FREE = """
buckwheat; buckwheat flour; rice flour; corn flour; masa flour; cornflour; potato flour; soy flour;
soybean flour; almond flour; chickpea flour; gram flour; sesame flour; peanut flour; coconut flour;
arrowroot flour; tapioca flour; carob flour; sorghum flour; millet flour; teff flour; quinoa flour;
amaranth flour; hazelnut flour; rice noodle; cellophane noodle; glass noodle; rice vermicelli; rice
paper; corn tortilla; rice cake; crab cake; fish cake; potato cake; gluten-free bread; gluten free pasta;
sweetbread; bread fruit; bread and butter pickle; noodles, chinese, cellophane; spaghetti squash;
wheatgrass; @18 gluten-free bread; @18 gluten free bread; @18 leavening agents; @18 yeast; @18 baking
powder; @18 baking soda; @18 rice cake; @18 corn cakes; @18 corn tortilla; @18 taco shells; tamari soy
sauce; flour, rice; flour, corn; squash pasta; cornmeal flour; sunflower seed flour; cottonseed flour;
lupin flour; soy meal flour
"""
FREE = {
    "milk": """
        coconut milk; coconut cream; almond milk; soy milk; soymilk; rice milk; oat milk; cashew milk;
        hemp milk; peanut butter; almond butter; cashew butter; sesame butter; sunflower butter;
        sunflower seed butter; nut butter; cocoa butter; shea butter; nutmeg butter; ucuhuba butter;
        apple butter; fruit butters; butter bean; butter lettuce; butter oil substitute; cream of tartar;
        cream of wheat; cream of rice; corn, cream style; corn, cream-style; bread without milk; milk
        free spread; milk-free spread; bean curd; custard-apple; custard apple; soy yogurt; soy cheese;
        soymilk yogurt; cream soda; bread and butter pickles; vegan butter; milk thistle; boston cream
        pie; @01 egg, whole; @01 coconut cream; @01 soy dessert; @19 honey; @19 sugar; @19 corn syrup;
        @19 molasses; @19 jam; @19 jelly; @19 marmalade; @19 gelatin
    """,
    "egg": """
        egg free noodle; egg-free noodle; noodle without egg; eggless cake; egg replacer; egg plant;
        custard-apple; custard apple; vegan mayonnaise; @20 rice noodle; @20 pasta without egg
    """,
    "fish": """
        fish free sauce; fish-free sauce; gold fish crackers; goldfish crackers; @15 crustacean; @15
        mollusk; @15 shrimp; @15 crab; @15 lobster; @15 clam; @15 oyster; @15 squid; @15 octopus; @15
        mussel; @15 scallop; @15 abalone; @15 cuttlefish; @15 snail; @15 whelk; @15 conch; @15 frog; @15
        turtle; @15 jellyfish; @15 seal; @15 whale
    """,
    "crustaceans": "crab apple",
    "molluscs": """
        mushrooms, oyster; oyster mushroom; oyster plant; vegetable-oyster; vegetable oyster; squash,
        summer, scallop; scallop squash; scalloped potatoes; potatoes, scallop; oyster cracker; oyster
        blade steak; oyster mushroom sauce; emu, oyster; ostrich, oyster; oyster sauce mushroom
    """,
    "tree_nuts": """
        peanuts; coconuts; nuts, coconut; nutmeg; tiger nuts; water chestnuts; nuts, chestnuts;
        grape-nuts; grape nuts; no nuts; without nuts; nut free; nut-free; doughnuts; soy nuts; soynuts;
        corn nuts; cornnuts; nuts, ginkgo nuts
    """,
    "peanuts": "peanut free bar; peanut-free bar; mixed nuts without peanuts",
    "wheat": _WHEAT_FREE
    + """; rye flour; oat flour; barley flour; wheat-free biscuit mix; wheat free; breading-free;
        @18 wonton substitute
    """,
    "gluten_cereals": _WHEAT_FREE + "; ginger ale; root beer; ginger beer",
    "soybeans": """
        soy free spread; soy-free spread; sunflower lecithin; @19 honey; @19 sugar; @19 corn syrup; @19
        molasses; @19 jam; @19 jelly; @19 marmalade; @19 gelatin
    """,
    "mustard": "mustard green cabbage; cabbage, mustard",
    "sulphites": "apple juice; sulfite free grapes; wine grapes; horseradish, raw",
}
NOT_SURE = {
    "soybeans": """
        soybean oil; soy oil; oil, soybean, salad; oil, industrial, soy; soy shortening; soy margarine;
        soy mayonnaise; soy salad dressing
    """,
    "mustard": "mustard greens; mustard spinach; mustard green",
    "crustaceans": "imitation crab",
    "sulphites": """
        apple cider; cider vinegar; wine vinegar; vinegar, red wine; raisin wine vinegar
    """,
    "wheat": "flour, white, rice",
}
"""May at the most: named like a food that holds the allergen, and not sure to hold it."""


ON_SOME_LISTS = {"tree_nuts": "@12 chestnut; @12 pine nut; @12 acorn"}
"""Foods of which it is said besides that not every law counts them."""
ON_ALL_LISTS = {"tree_nuts": "@12 mixed nuts; almonds"}
"""Foods of which that is not said."""


def foods(listed: str) -> list[tuple[str, str]]:
    """Names with the code of their food group, "" where none is stated."""
    found = []
    for each in filter(None, (" ".join(part.split()) for part in listed.split(";"))):
        group, _, name = each[1:].partition(" ") if each.startswith("@") else ("", "", each)
        found.append((name, f"{group}00" if group else ""))
    return found
