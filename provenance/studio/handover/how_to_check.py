"""The page of a bag on checking digests by hand, with common tools and without this program."""

from collections.abc import Callable

CHECKING = "HOW-TO-CHECK.txt"


CERTIFICATES = ("studio/certificates", "certificates")
PAGES = ("studio/contacts", "studio/private/terms", "contacts", "terms")
"""Where pages of persons and of terms lie, of the whole studio or of one edition."""


def checking(holds: Callable[[str], bool], *, chain: bool) -> bytes:
    """The page for a bag that `holds` such folders; `chain` says whether it has the journal."""
    parts = [_MANIFESTS]
    if chain:
        parts.append(_CHAIN)
    for folder in filter(holds, CERTIFICATES):
        parts.append(_CERTIFICATES.replace("FOLDER", f"data/{folder}"))
        parts += [_ITS_ENTRY] if chain else []
    pages = [_PAGE.replace("FOLDER", f"data/{folder}") for folder in filter(holds, PAGES)]
    return "\n".join([*parts, *([_PAGES] if pages else []), *pages]).encode()


_MANIFESTS = """\
How to check by hand that nothing was changed

A digest (SHA-256, SHA-512) is a short number made from a file. Change one letter and
it comes out another. This folder is a bag (BagIt 1.0, RFC 8493): the manifests beside
`data` hold the digest of every file. In a terminal, in the folder that holds `data`:

    sha256sum -c manifest-sha256.txt
    sha512sum -c manifest-sha512.txt
    sha256sum -c tagmanifest-sha256.txt

Every line must end in OK; the last one checks the manifests themselves. On macOS write
shasum -a 256 for sha256sum and shasum -a 512 for sha512sum, here and below. On Windows:
certutil -hashfile FILE SHA256, and compare.

That no file was put there either: both of these give the same number, and bag-info.txt
has it behind the dot (Payload-Oxum).

    find data -type f | wc -l
    wc -l < manifest-sha256.txt

Whoever can change a file can change the manifests as well: have the digest of
tagmanifest-sha256.txt kept somewhere else, on paper, when the bag is handed over.
"""
_CHAIN = r"""
The journal is a chain: each line names the digest of the line before it
("previous"). To check line 8 against line 7:

    sed -n 7p data/journal.jsonl | tr -d '\n' | sha256sum
    sed -n 8p data/journal.jsonl | grep -o '"previous":"[0-9a-f]*"'

And every line, from the noughts that the first one names (it takes a while):

    p=$(printf '%064d' 0); n=0
    while IFS= read -r line
    do n=$((n + 1))
       case $line in *"\"previous\":\"$p\""*) ;; *) echo "line $n does not follow" ;; esac
       p=$(printf '%s' "$line" | sha256sum | cut -c1-64)
    done < data/journal.jsonl; echo $p

What comes last stands in bag-info.txt (Journal-Head-SHA256). The register holds the same
lines; this says nothing where it does:

    sqlite3 -readonly data/studio/register.db \
      "SELECT CAST(entry AS TEXT) FROM journal ORDER BY seq" | cmp - data/journal.jsonl
"""
_CERTIFICATES = """
A certificate has digests printed at its foot, in groups of four. The one called Record is
of the record behind it, the JSON file of the same name:

    sha256sum FOLDER/*.json
"""
_ITS_ENTRY = r"""
The one called Journal is of the entry whose number stands beside it: what came before has
not been changed since the certificate was issued. For entry 60, which is line 60:

    sed -n 60p data/journal.jsonl | tr -d '\n' | sha256sum
"""
_PAGES = """
Pages of persons and of terms are named by the digest of what they say, behind a salt that
keeps anybody from guessing it. In bash, each line begins with the name of its file:
"""
_PAGE = r"""
    for f in FOLDER/*.json
    do { printf "$(grep -o '"salt":"[0-9a-f]*"' $f | cut -d'"' -f4 | sed 's/../\\x&/g')"
         sed 's/^{//; s/}$//; s/,*"salt":"[0-9a-f]*",*//; s/^"[a-z]*"://' $f | tr -d '\n'
       } | sha256sum | sed "s|-|$f|"
    done
"""
