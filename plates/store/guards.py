"""What the database keeps as it was mixed. Put up by migrations (see `plates.database.guards`)."""

from plates.database.guards import Guard

BATCH_AS_MIXED = Guard(
    table="plates_batch",
    name="as_mixed",
    on=["UPDATE"],
    condition="OLD.kind <> NEW.kind OR OLD.label <> NEW.label OR OLD.recipe_key <> NEW.recipe_key"
    " OR OLD.contents <> NEW.contents OR OLD.made_ul <> NEW.made_ul OR OLD.mixed_at <> NEW.mixed_at"
    " OR COALESCE(OLD.silver_mg, 0) <> COALESCE(NEW.silver_mg, 0)",
    sentence="What was mixed stays as it was written down: end this batch and write down another one.",
)

BATCH_NEVER_DELETED = Guard(
    table="plates_batch",
    name="never_deleted",
    on=["DELETE"],
    condition="1 = 1",
    sentence="A batch is never deleted: write down why it ended.",
)
