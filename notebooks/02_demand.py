import marimo

__generated_with = "0.25.2"
app = marimo.App(
    width="medium",
    app_title="How large is the load, and which method says so?",
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
    branch = nb.inputs.branch_input(stated)
    return branch, stated


@app.cell(hide_code=True)
def _(nb, stated):
    head = nb.head(stated, "How large is the load, and which method says so?")
    head
    return (head,)


@app.cell(hide_code=True)
def _(edition, mo, variant):
    mo.hstack([variant, edition], justify="start", gap=2, wrap=True)
    return


@app.cell(hide_code=True)
def _(branch, mo, nb, stated):
    area = nb.inputs.area_input(stated, branch.value)
    vehicles = nb.inputs.vehicle_input(stated, branch.value)
    method = nb.inputs.method_input(stated, branch.value)
    _rows = [branch, method], [area, vehicles]
    mo.vstack([mo.hstack(_row, justify="start", gap=2, wrap=True) for _row in _rows])
    return area, method, vehicles


@app.cell
def _(area, branch, edition, estate, method, nb, stated, variant, vehicles):
    _tried = nb.inputs.changes(stated, branch.value, area.value, method.value, vehicles.value)
    case = dict(estate=estate, variant=variant.value, edition=edition.value, branch=branch.value, set=_tried)
    return (case,)


@app.cell
def _(case, nb):
    d = nb.opened(case)
    answer = nb.show(nb.inputs.note(case), nb.demand.answer(d, case["branch"]))
    answer
    return answer, d


@app.cell(hide_code=True)
def _(branch, nb, stated):
    pinned = nb.inputs.pinned_input(stated, branch.value)
    return (pinned,)


@app.cell(hide_code=True)
def _(d, mo, nb, pinned):
    mo.vstack([pinned, nb.working(d, pinned.value)])
    return


@app.cell(hide_code=True)
def _(case, d, nb):
    _title = nb.demand.lines_head(d, case["branch"])
    ways = nb.section(_title, nb.demand.picture(d, case["branch"]), nb.demand.lines(d, case["branch"]))
    ways
    return (ways,)


@app.cell(hide_code=True)
def _(case, d, nb):
    ranking = nb.section("Which ten rows matter", nb.demand.ranking(d, case["branch"]))
    ranking
    return (ranking,)


@app.cell(hide_code=True)
def _(case, d, nb):
    review = nb.section("What the review says of this load", nb.demand.review(d, case["branch"]))
    review
    return (review,)


@app.cell(hide_code=True)
def _(case, d, nb):
    expected = nb.section("Expected peak, apart from the calculated load", nb.demand.expected(d, case["branch"]))
    expected
    return (expected,)


@app.cell(hide_code=True)
def _(mo):
    follow = mo.ui.switch(label="with what is tried on this page; without, as the estate states it")
    return (follow,)


@app.cell(hide_code=True)
def _(case, follow, mo, nb):
    sides = nb.compared.sides(case, follow.value)
    editions = nb.section("The same load by each edition", nb.edition_table(sides, case["branch"]))
    mo.vstack([editions, follow])
    return editions, sides


@app.cell(hide_code=True)
def _(mo):
    name = mo.ui.text(placeholder="W1", label="Keep what is tried as the variant")
    keep = mo.ui.run_button(label="Write it beside the others")
    mo.hstack([name, keep], justify="start", gap=1)
    return keep, name


@app.cell(hide_code=True)
def _(case, keep, name, nb):
    nb.inputs.keep(case, name.value) if keep.value else None
    return


@app.cell(hide_code=True)
def _(edition, estate, nb, variant):
    nb.section("Where to go", nb.ways(dict(estate=estate, variant=variant.value, edition=edition.value), "02_demand"))
    return


@app.cell(hide_code=True)
def _(answer, d, editions, expected, head, nb, ranking, review, sides, ways):
    folded = nb.workings.workings(d, head, answer, ways, ranking, review, expected, editions, beside=sides.designs)
    folded
    return (folded,)


@app.cell(hide_code=True)
def _(case, d):
    def test_the_load_that_is_used_is_one_of_the_design():
        assert d.has(d.chosen[case["branch"]] + "/amperes")
    return


if __name__ == "__main__":
    app.run()
