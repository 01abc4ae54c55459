-- The break within a day of work, and what of it lies within a visit
ALTER TABLE "person_planning" ADD COLUMN "break_minutes" INTEGER,
ADD COLUMN "break_from" TEXT,
ADD COLUMN "break_until" TEXT,
ADD CONSTRAINT "person_planning_break" CHECK (("break_minutes" IS NULL) = ("break_from" IS NULL) AND ("break_minutes" IS NULL) = ("break_until" IS NULL));
ALTER TABLE "visit" ADD COLUMN "break_minutes" INTEGER NOT NULL DEFAULT 0;
GRANT SELECT ("break_minutes") ON "visit" TO skidkeep_client;
