"""Whether the file of a certificate is what was issued.

Three questions, each answered apart.  Intact: is every byte as it was, and do
page and record agree?  Sealed: by which key?  On record: is it in the studio's
register, and in force?  The first two need nothing but the file.
"""
