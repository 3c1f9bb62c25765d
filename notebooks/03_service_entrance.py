import marimo

__generated_with = "0.25.2"
app = marimo.App(
    width="medium",
    app_title="What does the utility bring, and does the service bear it?",
    css_file="page.css",
    html_head_file="page_head.html",
)


@app.cell(hide_code=True)
def _():
    import marimo as mo

    import curtilage.notebook as nb
    return mo, nb


@app.cell(hide_code=True)
def _(nb):
    estate = nb.estate_asked()
    variant = nb.inputs.variant_input(estate)
    edition = nb.inputs.edition_input()
    return edition, estate, variant


@app.cell(hide_code=True)
def _(edition, estate, nb, variant):
    stated = nb.opened(dict(estate=estate, variant=variant.value, edition=edition.value))
    return (stated,)


@app.cell(hide_code=True)
def _(nb, stated):
    head = nb.head(stated, "What does the utility bring, and does the service bear it?")
    head
    return (head,)


@app.cell(hide_code=True)
def _(edition, mo, variant):
    mo.hstack([variant, edition], justify="start", gap=2, wrap=True)
    return


@app.cell(hide_code=True)
def _(mo, nb, stated):
    rating = nb.service_inputs.rating_input(stated)
    impedance = nb.service_inputs.impedance_input(stated)
    ratio = nb.service_inputs.ratio_input(stated)
    lateral = nb.service_inputs.lateral_input(stated)
    _rows = [rating, lateral], [impedance, ratio]
    mo.vstack([mo.hstack(_row, justify="start", gap=2, wrap=True) for _row in _rows])
    return impedance, lateral, rating, ratio


@app.cell
def _(edition, estate, impedance, lateral, nb, rating, ratio, stated, variant):
    _tried = nb.service_inputs.changes(stated, rating.value, impedance.value, ratio.value, lateral.value)
    case = dict(estate=estate, variant=variant.value, edition=edition.value, set=_tried)
    return (case,)


@app.cell
def _(base, case, nb):
    d = nb.opened(case)
    page = nb.workings.Over(base, d)
    answer = page.show(nb.inputs.note(case), nb.service.answer(d))
    answer
    return answer, d, page


@app.cell(hide_code=True)
def _(d, nb, page):
    chain = page.section("Fault current down the chain", nb.service.chain(d))
    chain
    return (chain,)


@app.cell(hide_code=True)
def _(d, nb, page):
    mains = page.section("Mains and service conductors", nb.service.mains(d))
    mains
    return (mains,)


@app.cell(hide_code=True)
def _(d, nb, page):
    review = page.section("What the review says of the service", nb.service.review(d))
    review
    return (review,)


@app.cell(hide_code=True)
def _(nb, stated):
    gear = nb.section("Gear, working space, utility: what the review says, as stated", nb.service.review_stated(stated))
    gear
    return (gear,)


@app.cell(hide_code=True)
def _(nb, stated):
    _tables = nb.service.topic(stated, "utility", "Label", "Distances")
    utility = nb.section("Transformers, letter, metering, flicker: as stated", _tables)
    utility
    return (utility,)


@app.cell(hide_code=True)
def _(mo, nb, stated):
    ka = nb.service_inputs.letter_input(stated)
    ask = mo.ui.run_button(label="What would this letter change?")
    mo.hstack([ka, ask], justify="start", gap=1)
    return ask, ka


@app.cell(hide_code=True)
def _(ask, case, ka, mo, nb):
    letter = nb.service.with_letter(case, ka.value) if ask.value else None
    changed = nb.section("What the letter would change", letter.made) if letter else nb.show("")
    letter_working = letter.workings() if letter else nb.show("")
    mo.vstack([changed, letter_working])
    return changed, letter, letter_working


@app.cell(hide_code=True)
def _(mo):
    lay = mo.ui.run_button(label="Lay other arrangements of the service side by side")
    lay
    return (lay,)


@app.cell(hide_code=True)
def _(lay, mo, nb, stated):
    others = nb.service.arranged(stated) if lay.value else None
    arranged = nb.section("Arrangements of the service, as stated", others.made) if others else nb.show("")
    others_working = others.workings() if others else nb.show("")
    mo.vstack([arranged, others_working])
    return arranged, others, others_working


@app.cell(hide_code=True)
def _(nb, stated):
    grounding = nb.section("Grounding at the service, as stated", nb.service.topic(stated, "grounding", "Steps"))
    grounding
    return (grounding,)


@app.cell(hide_code=True)
def _(nb, stated):
    labels = nb.section("Label sheet, as stated", nb.service.label_sheet(stated))
    labels
    return (labels,)


@app.cell(hide_code=True)
def _(edition, estate, nb, variant):
    nb.section("Where to go", nb.ways(dict(estate=estate, variant=variant.value, edition=edition.value), "03_service_entrance"))
    return


@app.cell(hide_code=True)
def _(answer, chain, mains, page, review):
    moved = page.workings(answer, chain, mains, review)
    moved
    return (moved,)


@app.cell(hide_code=True)
def _(gear, grounding, head, labels, nb, stated, utility):
    _pieces = head, gear, utility, grounding, labels
    base = nb.workings.Base(stated, *_pieces, *nb.service.pieces(stated))
    base.shown
    return (base,)


@app.cell(hide_code=True)
def _(d):
    def test_the_gear_has_its_fault_current():
        assert d.has(f"fault/{d.estate.service.gear.id}/largest")
    return


if __name__ == "__main__":
    app.run()
