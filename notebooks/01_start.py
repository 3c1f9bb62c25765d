import marimo

__generated_with = "0.25.2"
app = marimo.App(
    width="medium",
    app_title="What stands on this estate, and what needs a person first?",
    css_file="page.css",
    html_head_file="page_head.html",
)


@app.cell(hide_code=True)
def _():
    import marimo as mo

    import curtilage.notebook as nb
    return mo, nb


@app.cell(hide_code=True)
def _(mo, nb):
    folder = mo.ui.text(nb.estate_asked(), label="Folder of the estate", full_width=True)
    return (folder,)


@app.cell(hide_code=True)
def _(folder, nb):
    variant = nb.inputs.variant_input(folder.value)
    edition = nb.inputs.edition_input()
    return edition, variant


@app.cell
def _(edition, folder, variant):
    case = dict(estate=folder.value, variant=variant.value, edition=edition.value)
    return (case,)


@app.cell
def _(case, nb):
    d = nb.opened(case)
    head = nb.head(d, "What stands on this estate, and what needs a person first?")
    head
    return d, head


@app.cell(hide_code=True)
def _(edition, folder, mo, variant):
    mo.vstack([folder, mo.hstack([variant, edition], justify="start", gap=2)])
    return


@app.cell(hide_code=True)
def _(d, nb):
    person = nb.section("What needs a person", nb.start.person(d))
    person
    return (person,)


@app.cell(hide_code=True)
def _(d, nb):
    structures = nb.section("Structures and their loads", nb.start.structures(d))
    structures
    return (structures,)


@app.cell(hide_code=True)
def _(d, nb):
    one_line = nb.section("One-line diagram, normal supply", nb.start.one_line(d))
    one_line
    return (one_line,)


@app.cell(hide_code=True)
def _(d, nb):
    power = nb.section("Service, mains and feeders", nb.start.power(d))
    power
    return (power,)


@app.cell(hide_code=True)
def _(d, nb):
    rests = nb.section("What the numbers rest on", nb.start.rests(d))
    rests
    return (rests,)


@app.cell(hide_code=True)
def _(d, nb):
    nb.section("Questions for the authority", nb.start.questions(d))
    return


@app.cell(hide_code=True)
def _(case, nb):
    nb.section("Where to go", nb.ways(case, "01_start"))
    return


@app.cell(hide_code=True)
def _(mo):
    new_folder = mo.ui.text(placeholder="my_estate", label="New estate in the folder")
    make = mo.ui.run_button(label="Write a small starter estate")
    mo.hstack([new_folder, make], justify="start", gap=1)
    return make, new_folder


@app.cell(hide_code=True)
def _(make, nb, new_folder):
    nb.start.create(new_folder.value) if make.value else None
    return


@app.cell(hide_code=True)
def _(d, head, nb, one_line, person, power, rests, structures):
    folded = nb.workings.workings(d, head, person, structures, one_line, power, rests)
    folded
    return (folded,)


@app.cell(hide_code=True)
def _(d):
    def test_every_structure_with_load_has_a_feeder():
        assert {s.id for s in d.estate.structures} >= {r.structure for r in d.tree.rows}
    return


if __name__ == "__main__":
    app.run()
