import marimo

__generated_with = "0.25.2"
app = marimo.App(
    width="medium",
    app_title="Which conductors reach this panel, and what arrives there in volts and in fault current?",
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
    feeder = nb.feeder_inputs.feeder_input(stated)
    return (feeder,)


@app.cell(hide_code=True)
def _(nb, stated):
    head = nb.head(stated, "Which conductors reach this panel, and what arrives there in volts and in fault current?")
    head
    return (head,)


@app.cell(hide_code=True)
def _(edition, mo, variant):
    mo.hstack([variant, edition], justify="start", gap=2, wrap=True)
    return


@app.cell(hide_code=True)
def _(feeder, mo, nb, stated):
    length = nb.feeder_inputs.length_input(stated, feeder.value)
    size = nb.feeder_inputs.size_input(stated, feeder.value)
    sets = nb.feeder_inputs.sets_input(stated, feeder.value)
    device = nb.feeder_inputs.device_input(stated, feeder.value)
    metal = nb.feeder_inputs.metal_input(stated, feeder.value)
    _rows = [feeder, length], [size, sets, device, metal]
    mo.vstack([mo.hstack(_row, justify="start", gap=2, wrap=True) for _row in _rows])
    return device, length, metal, sets, size


@app.cell
def _(device, edition, estate, feeder, length, metal, nb, sets, size, stated, variant):
    _moved = size.value, sets.value, device.value, length.value, metal.value
    _tried = nb.feeder_inputs.changes(stated, feeder.value, *_moved)
    case = dict(estate=estate, variant=variant.value, edition=edition.value, feeder=feeder.value, set=_tried)
    return (case,)


@app.cell
def _(base, case, nb):
    d = nb.opened(case)
    page = nb.workings.Over(base, d)
    answer = page.show(nb.inputs.note(case), nb.feeders.answer(d, case["feeder"]))
    answer
    return answer, d, page


@app.cell(hide_code=True)
def _(feeder, nb, stated):
    pinned = nb.inputs.pin(nb.feeders.choices(stated, feeder.value))
    return (pinned,)


@app.cell(hide_code=True)
def _(d, mo, nb, page, pinned):
    kept = page.show(nb.working(d, pinned.value).text)
    mo.vstack([pinned, kept])
    return (kept,)


@app.cell(hide_code=True)
def _(case, d, nb, page):
    sizes = page.section("What each size gives up", nb.feeders.sizes_picture(d, case["feeder"]))
    sizes
    return (sizes,)


@app.cell(hide_code=True)
def _(case, d, nb, page):
    volts = page.section("Voltage along the way", nb.feeders.volts_picture(d, case["feeder"]), nb.feeders.volts(d))
    volts
    return (volts,)


@app.cell(hide_code=True)
def _(case, d, nb, page):
    faults = page.section("Fault current at each node", nb.feeders.faults_picture(d, case["feeder"]))
    faults
    return (faults,)


@app.cell(hide_code=True)
def _(case, d, nb, page):
    fields = page.section("Field by field", nb.feeders.fields(d, case["feeder"]))
    fields
    return (fields,)


@app.cell(hide_code=True)
def _(case, d, nb, page):
    review = page.section("What the review says of it", nb.feeders.review(d, case["feeder"]))
    review
    return (review,)


@app.cell(hide_code=True)
def _(nb, stated):
    one_line = nb.section("One-line diagram, as the estate states it", nb.feeders.one_line(stated))
    one_line
    return (one_line,)


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
    nb.section("Where to go", nb.ways(dict(estate=estate, variant=variant.value, edition=edition.value), "04_feeders"))
    return


@app.cell(hide_code=True)
def _(answer, faults, fields, kept, page, review, sizes, volts):
    moved = page.workings(answer, kept, sizes, volts, faults, fields, review)
    moved
    return (moved,)


@app.cell(hide_code=True)
def _(feeder, head, nb, one_line, stated):
    base = nb.workings.Base(stated, head, one_line, *nb.feeders.pieces(stated, feeder.value))
    base.shown
    return (base,)


@app.cell(hide_code=True)
def _(case, d):
    def test_the_feeder_has_its_fault_current_and_its_drop():
        assert d.has(f"feeder/{case['feeder']}/drop")
    return


if __name__ == "__main__":
    app.run()
