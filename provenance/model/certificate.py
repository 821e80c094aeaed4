"""A certificate as it was issued."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count, Part, Ref
from provenance.model.evidence import Section, Standing

CertificateState = Literal["issued", "superseded", "withdrawn"]
Page = Literal["A4", "letter"]


class IssuedClaim(Part, frozen=True, kw_only=True):
    """A sentence as it stands on the paper, with its standing and its evidence."""

    id: str
    section: Section
    sentence: str
    standing: Standing
    evidence: tuple[Ref, ...]


class Certificate(Body, frozen=True, kw_only=True):
    """What was issued: the statement, the digests, and where the journal stood."""

    KIND: ClassVar[str] = "certificate"
    LINKS: ClassVar[dict[str, str]] = {"print": "print"}
    WORDS: ClassVar[tuple[str, ...]] = ("number",)

    number: str
    revision: Count
    print: Ref
    issued_at: str
    page: Page
    language: str
    statement: tuple[IssuedClaim, ...]
    record_sha256: str
    pdf_sha256: str
    file_name: str
    head_seq: Count
    head_sha256: str
    state: CertificateState = "issued"
    state_why: str = ""
    duplicate: bool = False
    """Whether it stands for the paper of an earlier revision, which is lost."""

    @property
    def record_name(self) -> str:
        """The file that holds the record behind the certificate, beside the paper."""
        return f"{self.file_name.rpartition('.')[0] or self.file_name}.json"

    @property
    def code(self) -> str:
        """What the register finds it by: the number, with the revision after the first."""
        return self.number if self.revision == 1 else f"{self.number}.r{self.revision}"
