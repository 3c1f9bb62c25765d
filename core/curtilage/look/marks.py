"""The marks: one 16 x 16 box per outcome, and the few other signs of the pages. Shape and word carry the meaning, never hue."""
from __future__ import annotations

BOX = '<rect x="1.75" y="1.75" width="12.5" height="12.5" fill="none" stroke="currentColor" stroke-width="1.5"/>'
RING = '<circle cx="8" cy="8" r="5.6" fill="none" stroke="currentColor" stroke-width="1.6"/>'

# The six outcomes are one check box on paper: what a hand would leave in it.
MARKS = {
    "passes": f'{BOX}<path d="M4 8.4 7 11.4 12.4 4.8" fill="none" stroke="currentColor" stroke-width="2"/>',
    "fails": '<rect x="1" y="1" width="14" height="14" fill="currentColor"/>'
             '<path d="M4.6 4.6 11.4 11.4M11.4 4.6 4.6 11.4" stroke="var(--k-ground,#fff)" stroke-width="2.2"/>',
    "attested": f'{BOX}<path d="M4 12.2h8" stroke="currentColor" stroke-width="1.2"/>'
                '<path d="M4.2 9.4C6 3.6 8 3.6 7.4 7.4s1.4 2.4 4.6-1.4" fill="none" stroke="currentColor" stroke-width="1.5"/>',
    "not evaluated": '<path d="M2.3 6.2V2.3H6.2M9.8 2.3H13.7V6.2M13.7 9.8V13.7H9.8M6.2 13.7H2.3V9.8" fill="none" '
                     'stroke="currentColor" stroke-width="2.6"/>',
    "needs judgement": f'{BOX}<path d="M1.75 14.25V1.75L14.25 14.25Z" fill="currentColor"/>',
    "does not apply": '<path d="M1.75 1.75h12.5v12.5H1.75z" fill="none" stroke="currentColor" stroke-width="1" opacity=".55"/>'
                      '<path d="M4.6 8h6.8" stroke="currentColor" stroke-width="1.5"/>',
    "note": '<path d="M3 3v10" stroke="currentColor" stroke-width="2"/>',
    "warning": '<path d="M8 1.6 15 14.2H1Z" fill="none" stroke="currentColor" stroke-width="1.6" stroke-linejoin="round"/>'
               '<path d="M8 6v4.2M8 11.4v1.4" stroke="currentColor" stroke-width="1.7"/>',
    "stop": '<path d="M5.2 1h5.6L15 5.2v5.6L10.8 15H5.2L1 10.8V5.2Z" fill="currentColor"/>'
            '<path d="M4.4 8h7.2" stroke="var(--k-rust,#A62C12)" stroke-width="2.4"/>',
    "stale": '<path d="M13.2 4.6A6.2 6.2 0 1 0 14.2 8" fill="none" stroke="currentColor" stroke-width="1.8"/>'
             '<path d="M10.4 4.8h3.4V1.4" fill="none" stroke="currentColor" stroke-width="1.8"/>',
    "fits": '<circle cx="8" cy="8" r="6" fill="currentColor"/>',
    "tight": f'{RING}<path d="M2.4 8a5.6 5.6 0 0 0 11.2 0Z" fill="currentColor"/>',
    "short": f'{RING}<path d="M4.1 12 11.9 4" stroke="currentColor" stroke-width="1.6"/>',
    "unknown": '<circle cx="8" cy="8" r="5.6" fill="none" stroke="currentColor" stroke-width="1.8" stroke-dasharray="2.6 2.6"/>',
    "untouched": '<path d="M5 8h6" stroke="currentColor" stroke-width="1.2" opacity=".6"/>',
}


def mark(kind: str, size: int = 16) -> str:
    """The mark alone; decoration, because the word always stands beside it."""
    return (f'<svg class="k-mark" viewBox="0 0 16 16" width="{size}" height="{size}" aria-hidden="true" focusable="false">'
            f"{MARKS[kind]}</svg>")


def used(kind: str, size: int = 16) -> str:
    """The mark by reference to `definitions`, for pages that show it hundreds of times."""
    name = kind.replace(" ", "-")
    return f'<svg class="k-mark" width="{size}" height="{size}" aria-hidden="true"><use href="#m-{name}"/></svg>'


def definitions() -> str:
    """Every mark once, invisible, at the head of a page that uses `used`."""
    parts = (f'<symbol id="m-{kind.replace(" ", "-")}" viewBox="0 0 16 16">{body}</symbol>' for kind, body in MARKS.items())
    return f'<svg width="0" height="0" style="position:absolute" aria-hidden="true">{"".join(parts)}</svg>'
