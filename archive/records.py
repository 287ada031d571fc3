"""Every module that maps a table, imported in one place, so that the database's description is whole."""

import archive.accounts.model
import archive.evidence.model
import archive.interviews.model
import archive.jobs.model
import archive.objects.model
import archive.people.model
import archive.plan.model
import archive.processes.model
import archive.rights.model
import archive.store.model
import archive.terms.model
import archive.tours.model  # noqa: F401
from archive.store.base import Base

metadata = Base.metadata
