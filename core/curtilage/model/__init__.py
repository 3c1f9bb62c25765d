"""What the user wrote: an estate, checked on the way in, plain floats in documented units afterwards."""
from curtilage.model.estate import Estate
from curtilage.model.loads import Load
from curtilage.model.read import from_text, load
from curtilage.model.variants import Variant, read_variant, variants

__all__ = ["Estate", "Load", "Variant", "from_text", "load", "read_variant", "variants"]
