"""Options of the firm: scopes that it offers as a matter of course, not yet priced for any site."""

from attrs import frozen

from estimator.surfaces.scope import Scope


@frozen(kw_only=True)
class UsualOption:
    """A scope that any quote may offer beside its own, under a name of the firm's."""

    slug: str
    label: str
    scope: Scope
    source: str
    as_of: str
