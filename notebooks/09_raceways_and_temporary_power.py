import marimo

__generated_with = "0.25.2"
app = marimo.App(
    width="medium",
    app_title="Can it be pulled, does it lie deep enough, and what powers the site until then?",
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
    head = nb.head(stated, "Can it be pulled, does it lie deep enough, and what powers the site until then?")
    head
    return (head,)


@app.cell(hide_code=True)
def _(edition, mo, variant):
    mo.hstack([variant, edition], justify="start", gap=2, wrap=True)
    return


@app.cell(hide_code=True)
def _(nb, stated):
    raceway = nb.raceway_inputs.raceway_input(stated)
    trench = nb.raceway_inputs.trench_input(stated)
    return raceway, trench


@app.cell(hide_code=True)
def _(mo, nb, raceway, stated):
    size = nb.raceway_inputs.size_input(stated, raceway.value)
    mo.hstack([raceway, size], justify="start", gap=2, wrap=True)
    return (size,)


@app.cell
def _(edition, estate, nb, raceway, size, stated, trench, variant):
    _tried = nb.raceway_inputs.changes(stated, raceway.value, size.value)
    _looked = dict(raceway=raceway.value, trench=trench.value)
    case = dict(estate=estate, variant=variant.value, edition=edition.value, set=_tried, **_looked)
    return (case,)


@app.cell
def _(base, case, nb):
    d = nb.opened(case)
    page = nb.workings.Over(base, d)
    answer = page.show(nb.inputs.note(case), nb.raceways.answer(d, case["raceway"]))
    answer
    return answer, d, page


@app.cell(hide_code=True)
def _(case, mo, nb, stated, trench):
    cut = nb.section("The trench, cut across, as stated", nb.raceways.trench(stated, case["trench"]))
    mo.vstack([trench, cut])
    return (cut,)


@app.cell(hide_code=True)
def _(nb, stated):
    schedule = nb.section("Raceway schedule, as stated", nb.raceways.schedule(stated))
    schedule
    return (schedule,)


@app.cell(hide_code=True)
def _(nb, stated):
    pulls = nb.section("Pulls and boxes, as stated", nb.raceways.pulls(stated))
    pulls
    return (pulls,)


@app.cell(hide_code=True)
def _(nb, stated):
    framing = nb.section("Ways through the framing", nb.raceways.framing(stated))
    framing
    return (framing,)


@app.cell(hide_code=True)
def _(nb, stated):
    temporary = nb.section("Temporary power, and what must go", nb.raceways.temporary(stated))
    temporary
    return (temporary,)


@app.cell(hide_code=True)
def _(edition, estate, nb, variant):
    _case = dict(estate=estate, variant=variant.value, edition=edition.value)
    nb.section("Where to go", nb.ways(_case, "09_raceways_and_temporary_power"))
    return


@app.cell(hide_code=True)
def _(answer, page):
    moved = page.workings(answer)
    moved
    return (moved,)


@app.cell(hide_code=True)
def _(cut, framing, head, nb, pulls, raceway, schedule, stated, temporary):
    _pieces = nb.raceways.pieces(stated, raceway.value)
    base = nb.workings.Base(stated, head, *_pieces, cut, schedule, pulls, framing, temporary)
    base.shown
    return (base,)


@app.cell(hide_code=True)
def _(case, d):
    def test_the_raceway_is_one_of_the_design():
        assert case["raceway"] in {None, *(r.id for r in d.estate.raceways)}
    return


if __name__ == "__main__":
    app.run()
