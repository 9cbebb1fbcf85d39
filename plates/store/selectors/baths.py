"""A silver bath as it should be now: reckoned on from its last reading by the plates that went through it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction

from plates.chemistry.bath import care as bath_care
from plates.chemistry.bath.book import Added, Book, Dipped, Entry, Measured, PouredOff, reckoned
from plates.chemistry.bath.care import Care
from plates.store.models import Batch, BathCare, Solution, StoreRoom
from plates.store.selectors.bath_plates import Dip, plates_through
from plates.store.selectors.bath_readings import Reading, reading_of
from plates.store.strength_picture import Picture, lay_out

Kind = BathCare.Kind
# The plates by which care is counted are of 4×5 inches (see plates.chemistry.bath.care).
A_PLATE_CM2 = Fraction("129.032")


@dataclass(frozen=True, slots=True)
class BathState:
    """A bath now: its book, readings, what is due, and where it is in use."""

    batch: Batch
    book: Book
    reads: tuple[Reading, ...]
    cares: tuple[Care, ...]
    in_use_at: str
    picture: Picture | None

    @property
    def full_ml(self) -> Fraction:
        """mL that it was made with."""
        return Fraction(self.batch.made_ul, 1000)

    @property
    def level(self) -> str:
        """The worst of what is due: "stop", "soon" or "good"."""
        levels = {care.level for care in self.cares}
        return next((each for each in ("stop", "soon") if each in levels), "good")


def baths() -> list[Batch]:
    """The baths that have not ended, the newest first."""
    return list(Batch.objects.filter(kind=Solution.BATH, ended_at__isnull=True))


def bath_in_use(*, bench_id: int, at: datetime) -> Batch | None:
    """The bath that stood at a bench at that time; None where none was put to use there, or it has ended."""
    put = BathCare.objects.filter(kind=Kind.IN_USE, bench_id=bench_id, at__lte=at).select_related("batch")
    newest = put.order_by("at", "pk").last()
    if newest is None or (newest.batch.ended_at and newest.batch.ended_at <= at):
        return None
    moved = (
        newest.batch.care.filter(kind__in=[Kind.IN_USE, Kind.RESTED], at__lte=at).order_by("at", "pk").last()
    )
    return newest.batch if moved == newest else None


def state(*, batch: Batch, room: StoreRoom, now: datetime) -> BathState:
    """All that is known of a bath; a handful of queries, however many plates went through it."""
    care = list(batch.care.select_related("bench", "operator").filter(at__lte=now).order_by("at", "pk"))
    dips = plates_through(batch=batch, now=now)
    reads = _reads(batch, dips, now)
    book = reckoned(
        _in_time(dips, care, reads),
        millilitres=Fraction(batch.made_ul, 1000),
        silver_grams=None if batch.silver_mg is None else Fraction(batch.silver_mg, 1000),
        rates=room.carry_off(),
    )
    limits = room.limits()
    return BathState(
        batch=batch,
        book=book,
        reads=_beside_the_book(reads, book),
        cares=_cares(batch, book, reads, care, dips, limits),
        in_use_at=_in_use_at(care),
        picture=lay_out(book.points, limits),
    )


def _reads(batch: Batch, dips: Sequence[Dip], now: datetime) -> tuple[Reading, ...]:
    rows = batch.readings.select_related("operator").filter(at__lte=now).order_by("at", "pk")
    return tuple(reading_of(row, sum(dip.at <= row.at for dip in dips)) for row in rows)


def _in_time(dips: Sequence[Dip], care: Sequence[BathCare], reads: Sequence[Reading]) -> list[Entry]:
    """Everything that moves the book, in order of time; at one instant plates first, then what was done, then read."""
    entries: list[tuple[datetime, int, Entry]] = [(dip.at, 0, Dipped(dip.area_cm2, dip.size)) for dip in dips]
    entries += [(each.at, 1, entry) for each in care if (entry := _entry(each))]
    entries += [(each.reading.at, 2, _measured(each)) for each in reads]
    return [entry for _, _, entry in sorted(entries, key=lambda each: each[:2])]


def _entry(care: BathCare) -> Entry | None:
    poured = Fraction(care.poured_ul or 0, 1000)
    if care.kind == Kind.POURED_OFF:
        return PouredOff(poured)
    if care.salt_mg or care.poured_ul:
        return Added(Fraction(care.salt_mg or 0, 1000), poured, Fraction(care.stock_mg_l or 0, 1000))
    return None


def _measured(read: Reading) -> Measured:
    volume = read.reading.volume_ul
    return Measured(read.strength, Fraction(volume, 1000) if volume else None)


def _cares(
    batch: Batch,
    book: Book,
    reads: Sequence[Reading],
    care: Sequence[BathCare],
    dips: Sequence[Dip],
    limits: bath_care.BathLimits,
) -> tuple[Care, ...]:
    """What is due: by strength, by acidity, by plates since it was filtered, sunned and tested."""
    found = [bath_care.by_strength(book.bath.strength, limits)] if book.bath else []
    acidity = [each.reading.ph_hundredths for each in reads if each.reading.ph_hundredths is not None]
    if acidity:
        found.append(bath_care.by_acidity(Fraction(acidity[-1], 100), limits))

    def since(times: Iterable[datetime]) -> Fraction:
        start = max(times, default=batch.mixed_at)
        return sum((dip.area_cm2 for dip in dips if dip.at > start), Fraction(0)) / A_PLATE_CM2

    by_plates = bath_care.by_plates(
        since_filtered=since(each.at for each in care if each.kind == Kind.FILTERED),
        since_sunned=since(each.at for each in care if each.kind == Kind.SUNNED),
        since_tested=since(each.reading.at for each in reads if each.strength),
        limits=limits,
    )
    return (*found, *by_plates)


def _beside_the_book(reads: Sequence[Reading], book: Book) -> tuple[Reading, ...]:
    """Each measured strength with what the book said before it; both come in order of time."""
    said = iter([point.said for point in book.points if point.measured])
    return tuple(replace(each, said=next(said, None)) if each.strength else each for each in reads)


def _in_use_at(care: Sequence[BathCare]) -> str:
    """The bench at which it stands by its own moves, or nothing."""
    moves = [each for each in care if each.kind in (Kind.IN_USE, Kind.RESTED)]
    return moves[-1].bench.name if moves and moves[-1].bench else ""
