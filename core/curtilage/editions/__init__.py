"""Code editions: data in layers, read as numbers, told with their sources, and compared."""
from curtilage.editions.changes import Change, changes
from curtilage.editions.edition import Edition, View
from curtilage.editions.layers import Rule, editions
from curtilage.editions.telling import TellingEdition, TellingView

__all__ = ["Change", "Edition", "Rule", "TellingEdition", "TellingView", "View", "changes", "editions"]
