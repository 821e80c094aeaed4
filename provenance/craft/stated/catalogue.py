"""Every claim there is, and the words that its sentence may use."""

CLAIMS: dict[str, frozenset[str]] = {
    name: frozenset(words.split())
    for names, words in {
        "made.printed": "when negative negative_when",
        "made.printed.on": "when negative negative_when base qualities",
        "made.paper": "base qualities",
        "made.developed made.fixed.one made.fixed.two made.fixed": "when baths entered",
        "made.washed made.washed.after made.stabilised": "when baths entered",
        "made.bleached made.toned": "when baths entered",
        "made.matched": "when reference reference_when by entered",
        "made.matched.apart": "when reference reference_when by where entered",
        "made.finished": "when drying flattening spotting trimmed coating uncoated mount unmounted"
        " adhesive unglued enclosure bare entered",
        "made.inscribed": "when inscriptions entered",
        "made.condition": "when occasion text entered",
        "tested.silver.seen tested.silver.seen.before": "when method specimen reading time entered",
        "tested.thiosulfate.seen": "when method specimen reading time entered",
        "tested.silver.measured tested.silver.measured.before": "when method specimen reading time"
        " amount criterion entered",
        "tested.thiosulfate.measured": "when method specimen reading time amount species criterion"
        " entered",
        "tested.silver.scaled": "when amount least most",
        "tested.thiosulfate.scaled": "when amount least most species",
        "tested.conversion tested.coverage": "when parts",
        "tested.silver.failed tested.thiosulfate.failed": "when",
        "tested.silver.mended tested.thiosulfate.mended": "when",
        "unknown.silver.discounted unknown.thiosulfate.discounted": "when why",
        "unknown.paper unknown.developed unknown.fixed unknown.washed unknown.washed.after": "",
        "unknown.silver unknown.thiosulfate unknown.conversion unknown.coverage": "",
        "unknown.silver.limit unknown.thiosulfate.limit unknown.finished": "",
        "unknown.bleach.short unknown.bleach.wash unknown.bleach.end": "when",
        "unknown.washed.short unknown.washed.overridden": "when",
    }.items()
    for name in names.split()
}
"""Every claim there is, and the words that its sentence may use."""
