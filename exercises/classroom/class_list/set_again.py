"""A further attempt is set: new numbers for some students of a class, beside those that they had."""

from collections.abc import Iterable
from dataclasses import replace

from exercises.classroom.class_list.attempts import Again, with_more
from exercises.classroom.class_list.class_file import Class, ClassError
from exercises.classroom.class_list.roll_match import Rolls
from exercises.classroom.marking.scheme import MOST_ATTEMPTS


def set_again(class_: Class, attempt: int, rolls: Iterable[str] = (), slugs: Iterable[str] = ()) -> Class:
    """The class with one more attempt for some.  ClassError, with a sentence, if it cannot be.

    rolls  of the list, none for every student;  slugs  of kinds, none for every kind of the class
    """
    if not 2 <= attempt <= MOST_ATTEMPTS:
        raise ClassError(
            f"An attempt with new numbers is the second or a later one: give a number from 2 to {MOST_ATTEMPTS}.",
            "kinds",
        )
    of_class, own = [s.roll for s in class_.students], [t.kind.slug for t in class_.tasks]
    chosen, kinds = tuple(rolls), tuple(slugs) or tuple(own)
    if strange := next((slug for slug in kinds if slug not in own), None):
        raise ClassError(f"{strange[:40]} is not set in this class, which has {', '.join(own)}.", "kinds")
    known = Rolls(class_.students)
    found = {roll: student.roll for roll in chosen if (student := known.find(roll))}
    if strange := next((roll for roll in chosen if roll not in found), None):
        raise ClassError(f"No student of this class has the roll “{strange[:40]}”. Look at the class list.", "student")
    more = (Again(slug, attempt, tuple(found.values()) or tuple(of_class)) for slug in kinds)
    return replace(class_, again=with_more(class_.again, more, of_class))
