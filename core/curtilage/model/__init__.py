"""What the user wrote: an estate, checked on the way in, plain floats in documented units afterwards."""
from curtilage.model.loads import Load
from curtilage.model.read import Estate, from_text, load

__all__ = ["Estate", "Load", "from_text", "load"]
