"""Which foods a hazard is about, stated by what the foods are; the table sorts them by words and group.

Why each hazard is one is told by its source; which foods it takes in follows from what the food is, from
memory of the trade, as with allergens. A food stands as its name, with @ and the two figures of its group
where the rule goes by the group.
"""

from __future__ import annotations

SOURCES = {
    "ground": "USDA FSIS chart: ground meat and sausage to 160 F, for what was outside is inside",
    "pierced": "FDA Food Code 3-401.11(A)(2): mechanically tenderised and injected meats as ground ones",
    "turkey": "FSIS tables of 2005: turkey of its own",
    "chicken": "FSIS tables of 2005: chicken of its own",
    "parasites": "FDA Food Code 3-402.11: fish served raw; (B): not molluscan shellfish, some tuna, roe, as "
    "the State of Washington took it over (WAC 246-215-03425)",
    "lectin": "US FDA, Bad Bug Book, 2nd edition: red and white kidney beans, raw or undercooked",
    "low_acid": "FDA Food Code 3-502.12 and extension services: garlic, herbs, vegetables in oil",
    "oil": "the same: under oil, without air",
    "acid": "21 CFR 114: acidified to pH 4.6 or below",
    "lye": "21 CFR 184.1763: sodium hydroxide",
    "farmed": "FDA Food Code 3-402.11(B)(3): aquacultured, on pellets (the same)",
    "frozen": "FDA Food Code 3-402.11(A)",
    "curing": "9 CFR 424.21(c) and Regulation (EC) 1333/2008: E 249 to E 252",
    "type_2": "the trade's names of curing salt with nitrate: common practice, no source",
    "raw_egg": "FDA Food Code 3-401.11 and 3-801.11: raw and undercooked shell eggs",
    "pasteurised": "FDA Food Code 3-302.13: pasteurised eggs in place of raw ones",
    "raw_egg_dish": "FDA Food Code 3-302.13: dishes that hold raw or undercooked egg, as it names them",
}

ABOUT = {
    "ground": """
        @13 beef, ground, raw; @10 pork, ground; @05 minced chicken; @17 lamb mince; @13 beef patty; @13
        patties of beef; @13 burger; @13 hamburger; @07 pork sausage; @07 meatballs; @05 chicken
        forcemeat; @13 steak, chopped and formed; @15 ground salmon
    """,
    "pierced": """
        @10 pork loin, injected; @10 ham, pumped; @05 chicken breast with added solution; @10 pork,
        enhanced; @13 beef, tenderised; @13 beef, mechanically tenderized; @13 needled steak; @13
        jaccarded steak; @13 cubed steak; @07 restructured ham; @17 injected lamb; @15 fish fillets,
        pumped
    """,
    "turkey": "@05 turkey, breast; @07 turkey roll",
    "chicken": "@05 chicken, thigh; @07 chicken roll",
    "parasites": "@15 salmon, raw; @15 fish, mackerel, atlantic, raw; @15 herring; @15 cod; @35 whitefish",
    "lectin": """
        @16 kidney beans, red, mature seeds, raw; @16 beans, kidney; @16 cannellini beans; @16 dried
        cannellini; @11 kidney beans
    """,
    "low_acid": """
        @11 garlic, raw; @02 garlic; @02 basil, fresh; @02 rosemary, fresh; @02 thyme, fresh; @02 sage;
        @02 oregano; @02 dill weed, fresh; @02 mixed herbs; @02 chilli; @02 chile; @11 chives; @11
        parsley, fresh; @11 coriander leaves; @11 cilantro; @11 peppers, sweet, red; @11 mushrooms,
        white, raw; @11 onions, raw; @11 shallots; @11 leeks; @11 eggplant; @11 aubergine; @11
        artichokes; @11 zucchini; @11 courgettes; @11 chillies; @11 chilli, raw; @11 chile, green
    """,
    "oil": "@04 oil, olive; @04 sunflower oil",
    "acid": "@02 vinegar, cider; @09 lemon juice; @09 lime juice; @02 citric acid; @06 wine vinegar",
    "lye": "lye; sodium hydroxide, food grade; caustic soda; natronlauge; soude caustique; soda caustica",
    "farmed": "farmed salmon; aquacultured trout; farm-raised char",
    "frozen": """
        frozen salmon; salmon, previously frozen; fish from the freezer; lachs, tiefgefroren; saumon
        surgelé; salmón congelado
    """,
    "curing": """
        sodium nitrite; sodium nitrate; curing salt; pink curing salt; nitritpökelsalz; pökelsalz; sel
        nitrité; saltpetre; saltpeter; e249; e250; e251; e252
    """,
    "type_2": "curing salt type 2; curing salt type ii; cure no. 2; cure no 2; cure number 2; sel nº 2",
    "raw_egg": "@01 egg, whole, raw, fresh; @01 yolk, raw, fresh",
    "pasteurised": """
        pasteurised egg yolk; pasteurized eggs; ei, pasteurisiert; oeuf pasteurisé; huevo pasteurizado
    """,
    "raw_egg_dish": """
        home-made mayonnaise; mayo; aioli; aïoli; rouille; tiramisu; tiramisù; chocolate mousse; mousse au
        chocolat; eggnog; steak tartare; beef tartare; tartare; carbonara; caesar dressing; hollandaise;
        béarnaise; bearnaise; sabayon; zabaglione; royal icing; soft boiled egg; softly boiled egg; runny
        yolk; sunny side up; onsen egg; raw egg; egg flip; tamago kake gohan
    """,
}
"""Foods of each hazard."""

OTHERS = {
    "ground": "@13 beef, rib roast; @20 ground rice; @11 minced garlic; @02 spices, ground",
    "pierced": "@13 beef, rib roast; @19 syringe; @11 pumped water; @20 rice, enhanced",
    "turkey": "@05 chicken, breast; @05 turkey and chicken roll; @05 duck; @13 beef",
    "chicken": "@05 turkey, breast; @05 chicken and turkey roll; @05 duck",
    "parasites": """
        @15 tuna, bluefin, raw; @15 crustaceans, crab; @15 crustacean; @15 mollusks, mixed; @15 mollusk;
        @15 shrimp; @15 crab; @15 lobster; @15 squid; @15 octopus; @15 clams; @15 oysters; @15 scallops;
        @15 mussels; @15 roe; @15 caviar; @15 fish oil, cod liver; @15 salmon, canned; @15 cod, cooked;
        @15 cod, dried; @15 salmon, smoked; @13 beef
    """,
    "lectin": """
        @16 kidney beans, canned; @16 kidney beans, cooked; @16 kidney beans, drained; @16 kidney beans,
        boiled; @11 kidney beans, sprouted; @16 kidney beans, tinned; @16 lentils, raw; @13 beef,
        kidney; @17 lamb, kidneys
    """,
    "low_acid": """
        @02 garlic powder; @02 basil, dried; @02 tarragon vinegar with herbs; @02 sage, ground; @02
        garlic salt; @11 onion powder; @11 mushrooms, pickled; @11 onions, dehydrated flakes; @04 basil
        oil; @09 chilli jam
    """,
    "oil": "@04 butter; @11 oil-cured olives; @15 fish oil",
    "acid": "@09 lemon zest; @09 lemon peel; @11 vinegar onions; @02 pepper",
    "lye": "table salt; baking soda; rye flour; sodium bicarbonate",
    "farmed": "wild salmon; salmon from a farm shop",
    "frozen": "fresh salmon; salmon, chilled",
    "curing": """
        jerky, no nitrite; jerky without nitrite; nitrite-free jerky; no nitrates; nitrate-free; cured
        ham with nitrite; bacon with nitrite; sausage with nitrite; salami, nitrate; frankfurter,
        nitrite; uncured, nitrite; table salt
    """,
    "type_2": "curing salt type 1; cure no. 1; pink curing salt",
    "raw_egg": """
        @01 egg, pasteurized; @01 egg, pasteurised; @01 egg, dried; @01 egg powder; @01 egg, powdered; @01 egg
        substitute; @01 egg, cooked; @01 egg, hard-boiled; @01 egg, hard boiled; @01 egg, fried; @01 egg,
        scrambled; @01 egg, poached; @01 egg omelet; @01 eggnog with egg; @01 egg sandwich; @01 egg salad
    """,
    "pasteurised": "unpasteurised egg; unpasteurized egg",
    "raw_egg_dish": "salad of raw eggplant; raw eggplant",
}
"""Foods that a hazard is not about, though a word or the group is near."""
