"""The tables: calls, what was entered on them, the last answer shown, own sheets. Used by `store` and `sheets` alone.

A call and an entry are written once and never again. `Standing` is only a memory of the last answer, so that the list
of calls needs no solver; it can be thrown away and worked out anew.
"""

from __future__ import annotations

from typing import Any

from django.db import models


class WrittenOnce(models.Model):
    """A row that is added and then stands."""

    class Meta:
        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        if not self._state.adding:
            raise TypeError(f"{type(self).__name__} {self.pk} stands as it was written; add an entry instead.")
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> tuple[int, dict[str, int]]:
        raise TypeError(f"{type(self).__name__} {self.pk} stays; add an entry that takes it back.")


class Call(WrittenOnce):
    """One service call, with the text of the sheet as it was then: a later sheet does not change an old call."""

    created = models.DateTimeField()
    sheet = models.TextField()
    title = models.TextField()
    file = models.TextField()
    text = models.TextField()
    complaint = models.TextField(blank=True)
    complaint_says = models.TextField(blank=True)
    note = models.CharField(max_length=200, blank=True)


class Entry(WrittenOnce):
    """One thing entered on a call; what it means is in `entries`."""

    call = models.ForeignKey(Call, on_delete=models.PROTECT, related_name="entries")
    made = models.DateTimeField()
    kind = models.CharField(max_length=20)
    payload = models.JSONField()


class OwnSheet(WrittenOnce):
    """A sheet written here; all that can be told of it is in its versions."""

    created = models.DateTimeField()


class SheetVersion(WrittenOnce):
    """The text of a sheet as it was saved once, sound or not. `title` and `mistakes` are what was found in it then."""

    sheet = models.ForeignKey(OwnSheet, on_delete=models.PROTECT, related_name="versions")
    number = models.PositiveIntegerField()
    made = models.DateTimeField()
    title = models.TextField()
    mistakes = models.PositiveIntegerField()
    text = models.TextField()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["sheet", "number"], name="a_version_is_saved_once")]


class Standing(models.Model):
    """Where a call stood when it was last weighed, and the last entry that was weighed then."""

    call = models.OneToOneField(Call, on_delete=models.CASCADE, primary_key=True, related_name="standing")
    ending = models.CharField(max_length=20)
    says = models.TextField()
    weighed_to = models.PositiveBigIntegerField()
