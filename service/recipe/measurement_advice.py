"""What a person can measure in place of an assumption, in one sentence each."""

from __future__ import annotations

from ..core.notices import Assumption

_BY_ENDING = {
    "pump-drip": "Weigh the meat before it is pumped and after the drip (weight_before_g, weight_after_g).",
    "pressed-out": "Weigh the food before and after, or the juice (weight_after_g, discarded_g).",
    "skimmed": "Weigh the fat that is taken off and state its share.",
    "drying-rate": "Weigh the piece before and after (weight_before_g, weight_after_g).",
    "drying-end": "Weigh the piece before and after (weight_before_g, weight_after_g).",
    "diffusivity": "Have the food's sodium measured after the bath (sodium_after_mg_per_100g), or state an "
    "absorption_factor from an earlier batch.",
    "lot": "Have the food's sodium measured after this step (sodium_after_mg_per_100g); a few batches tell "
    "how your own salting goes.",
    "at-rest": "Have the food's sodium measured after this step (sodium_after_mg_per_100g).",
    "let-in": "Have the food's sodium measured after this step (sodium_after_mg_per_100g).",
    "behind-fat": "State untaken_fraction, or have the food's sodium measured after this step "
    "(sodium_after_mg_per_100g).",
    "pace": "State duration_h and thickness_cm; sodium_after_mg_per_100g tells of salt alone.",
    "wetted": "Take enough liquid to cover the food, or have its sodium measured after the bath "
    "(sodium_after_mg_per_100g).",
    "thickness": "Measure the thickest part with a rule and state thickness_cm.",
    "reached": "State duration_h, thickness_cm and temperature_c, or have the food's sodium measured after "
    "this step (sodium_after_mg_per_100g).",
    "pot-time": "State duration_h and thickness_cm, or have the food's sodium measured after this step "
    "(sodium_after_mg_per_100g).",
    "run-off": "Have the cured food's sodium measured (sodium_after_mg_per_100g), or weigh the brine that is "
    "poured off and state absorption_factor.",
    "partition": "Have the drained food's sodium measured after this step (sodium_after_mg_per_100g).",
    "fat-kept": "Weigh the food before and after (weight_before_g, weight_after_g).",
    "fat-uptake": "Weigh the oil before and after, and state absorption_factor (share of it in the food).",
    "alcohol-kept": "State duration_h of the step; what boils off goes by time.",
    "sodium-kept": "Have the drained food's sodium measured (sodium_after_mg_per_100g).",
    "factor": "Have the food's sodium measured after this step (sodium_after_mg_per_100g).",
    "pick-up": "Weigh the food before and after (weight_before_g, weight_after_g).",
    "yield": "Weigh the food before and after (weight_before_g, weight_after_g).",
    "drip": "Have the cooked food's sodium measured (sodium_after_mg_per_100g).",
    "reading": "Answer the questions about the method, or state each step and what becomes of its liquid.",
    "sticks": "Weigh the coating before and after, and state absorption_factor (share that sticks).",
}


def remedy(assumption: Assumption) -> str:
    """What to weigh or measure so that this assumption is no longer needed."""
    if assumption.id.startswith("recipe:"):
        below = assumption.id
        while below.startswith("recipe:"):
            below = below.split("/", 1)[1]
        return f"In that recipe: {remedy(assumption._replace(id=below))}"
    if assumption.id.startswith("weight:"):
        return "Weigh this ingredient and give its grams."
    if assumption.id.startswith("batch:"):
        return "Take the sodium from the packet, or have the food analysed (custom_foods)."
    if assumption.id.startswith("uncounted:"):
        return "Say which food it is and what it weighs, or what its packet says."
    endings = (text for ending, text in _BY_ENDING.items() if assumption.id.endswith(ending))
    return next(endings, "Measure this figure in your own kitchen.")
