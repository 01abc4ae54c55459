-- Who set a way by hand, and when; null: before that was kept.
ALTER TABLE "travel_override" ADD COLUMN "set_at" TIMESTAMPTZ(3),
ADD COLUMN "set_by" TEXT;
