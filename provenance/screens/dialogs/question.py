"""What somebody asks about: a print, a certificate, words of a title."""

from provenance.screens.dialogs.find import Find


class Question(Find):
    """Answers with the record that was asked about; None when it is left."""

    TITLE = "Question"
    ASKED_FOR = "the number of a print, of a certificate (a slip is found), words of a title"
